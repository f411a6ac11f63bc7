/** The sample: a small volunteer observatory and its rack. */
import type { SampleLab } from './format.ts'
import { logger } from './logger/index.ts'
import { proxy } from './proxy/index.ts'
import { sources } from './sources/index.ts'
import { time } from './time/index.ts'

export const sample: SampleLab = { name: 'Observatory', sources, projects: [logger, time, proxy] }
