/** The project: One door, with certificates of our own. */
import type { SampleProject } from '../format.ts'
import { authority } from './authority.ts'
import { chain } from './chain.ts'
import { procedure } from './procedure.ts'
import { renewal } from './renewal.ts'
import { site } from './site.ts'

export const proxy: SampleProject = {
  key: 'proxy',
  title: 'One door, with certificates of our own',
  aim: 'The small services stand behind one proxy with TLS. Browsers on the hill trust it through an authority that can vouch for our names only.',
  status: 'under way',
  created: '2026-10-12T20:06:00.000+02:00',
  entries: [...authority, ...site, ...chain, ...renewal],
  procedures: [procedure],
}
