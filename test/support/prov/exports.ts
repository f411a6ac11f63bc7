/** Exports of labs, for tests: what a lab's document is made of, and every scope that it has. */
import type { OpenLab } from '../../../renderer/db/lab.ts'
import { loadSample } from '../../../renderer/labs/loadSample.ts'
import { sample } from '../../../renderer/labs/sample/index.ts'
import type { StoredChange } from '../../../shared/lab/change.ts'
import type { Capture, LinkState, Procedure, Project } from '../../../shared/lab/model.ts'
import {
  signatures as exported,
  isTime,
  type ProvDocument as Exported,
} from '../../../shared/provenance/prov/model.ts'
import type { ProvenanceRecords } from '../../../shared/provenance/prov/provenance.ts'
import type { Scope } from '../../../shared/provenance/prov/scope.ts'
import { openTestLab } from '../../unit/support/lab.ts'
import { toLine, type ProvDocument } from './document.ts'

/** What documents of one lab are made of, with every scope that it has. */
export type RecordsOfLab = ProvenanceRecords & { readonly scopes: readonly Scope[] }

/** The lab that comes with the program. */
export async function recordsOfSample(): Promise<RecordsOfLab> {
  const lab = await openTestLab()
  if (!(await loadSample(lab, sample))) throw new Error('the sample was refused')
  const records = await recordsForProvenance(lab)
  lab.close()
  return records
}

export async function recordsForProvenance(lab: OpenLab): Promise<RecordsOfLab> {
  const dump = (await lab.dump()) as unknown as {
    changes: StoredChange[]
    linkStates: LinkState[]
    captures: Capture[]
    projects: Project[]
    procedures: Procedure[]
  }
  return {
    lab: lab.id,
    changes: dump.changes,
    linkStates: dump.linkStates,
    captures: new Map(dump.captures.map(({ id, text }) => [id, text])),
    scopes: [
      { kind: 'lab' },
      ...dump.projects.map(({ id }): Scope => ({ kind: 'project', id })),
      ...dump.procedures.map(({ id }): Scope => ({ kind: 'procedure', id })),
    ],
  }
}

/** A document's statements in one line each, sorted, so that two readings of one document can be compared. */
export function linesOf({ statements, bundles }: ProvDocument): string[] {
  return [...statements, ...bundles.flatMap((bundle) => bundle.statements)].map(toLine).sort()
}

/** Names that a document uses, but for terms of vocabularies, and that it states nothing of. */
export function unstatedNames({ statements }: Exported): string[] {
  const stated = new Set(statements.flatMap(({ id }) => (id === null ? [] : [id as string])))
  const used = statements.flatMap(({ relation, args, attributes }) => [
    ...args.filter((arg, i) => arg !== null && !isTime(exported[relation][i]!)),
    ...attributes.flatMap(({ value }) => (value.kind === 'name' ? [value.name] : [])),
  ])
  return [...new Set(used)].filter((name) => /^(uuid|lab):/.test(name!) && !stated.has(name!)) as string[]
}
