/** The project: One time for the whole network. */
import type { SampleProject } from '../format.ts'
import { clients } from './clients.ts'
import { procedure } from './procedure.ts'
import { server } from './server.ts'

export const time: SampleProject = {
  key: 'time',
  title: 'One time for the whole network',
  aim: 'All machines of the observatory agree on the time, also when the uplink is down.',
  status: 'done',
  created: '2026-10-12T20:04:00.000+02:00',
  entries: [...server, ...clients],
  procedures: [procedure],
}
