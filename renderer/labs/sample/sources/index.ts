/** What was read for the three projects. All of it was written for the sample. */
import type { SampleSource } from '../format.ts'
import { loggerSources } from './logger.ts'
import { rackSources } from './rack.ts'
import { timeSources } from './time.ts'
import { trustSources } from './trust.ts'

export const sources: readonly SampleSource[] = [
  ...rackSources,
  ...loggerSources,
  ...timeSources,
  ...trustSources,
]
