/** The project: The weather logger moves to a disk. */
import type { SampleProject } from '../format.ts'
import { after } from './after.ts'
import { boot } from './boot.ts'
import { disk } from './disk.ts'
import { findings } from './findings.ts'
import { procedure } from './procedure.ts'
import { salvage } from './salvage.ts'

export const logger: SampleProject = {
  key: 'logger',
  title: 'The weather logger moves to a disk',
  aim: 'The weather logger runs from a disk, without losing a reading that can be saved. The card stays as the way back.',
  status: 'done',
  created: '2026-10-12T19:58:00.000+02:00',
  entries: [...findings, ...salvage, ...disk, ...boot, ...after],
  procedures: [procedure],
}
