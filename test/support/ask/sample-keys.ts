/** Which ids the things of the sample got when it was loaded into a lab. */
import type { OpenLab } from '../../../renderer/db/lab.ts'
import { sample } from '../../../renderer/labs/sample/index.ts'
import { instantOf, type Moment } from '../../../shared/lab/moment.ts'

/** Ids by the sample's keys; of a step `KEY NUMBER`, with the key of its procedure. */
export async function idsOfSample(lab: OpenLab): Promise<ReadonlyMap<string, string>> {
  const ids = new Map<string, string>()
  const projects = await lab.queries.projects()
  for (const written of sample.projects) {
    const { id } = requireOne(projects, ({ title }) => title === written.title, written.key)
    const { entries, procedures, steps } = await lab.queries.project(id)
    for (const { key, kind, moment } of written.entries)
      ids.set(key, requireOne(entries, (one) => one.kind === kind && isAt(one.moment, moment), key).id)
    for (const { key, created } of written.procedures) {
      const procedure = requireOne(procedures, (one) => isAt(one.created, created), key)
      ids.set(key, procedure.id)
      const rows = steps.filter((step) => step.procedure === procedure.id)
      rows.sort((one, other) => (one.position < other.position ? -1 : 1))
      for (const [at, step] of rows.entries()) ids.set(`${key} ${at + 1}`, step.id)
    }
  }
  const sources = await lab.queries.sources()
  for (const { key, title } of sample.sources)
    ids.set(key, requireOne(sources, (source) => source.title === title, key).id)
  return ids
}

function isAt(moment: Moment, written: string): boolean {
  return instantOf(moment) === Date.parse(written)
}

function requireOne<T>(things: readonly T[], fits: (thing: T) => boolean, key: string): T {
  const found = things.filter(fits)
  if (found.length !== 1) throw new Error(`${found.length} things of the lab for the sample's ${key}`)
  return found[0]!
}
