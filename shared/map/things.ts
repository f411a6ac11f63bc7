/** What of a project is on its map. */
import { momentOf } from '../journal/entry-facts.ts'
import { compareSteps } from '../lab/acts.ts'
import type { LinkId } from '../lab/ids.ts'
import type {
  CaptureHead,
  Entry,
  EntryTags,
  Link,
  LinkNode,
  LinkState,
  Mark,
  Part,
  Procedure,
  Source,
  Step,
  TextNodeId,
} from '../lab/model.ts'
import { instantOf, type Moment } from '../lab/moment.ts'
import { rowNumbers } from '../procedure/rows/numbers.ts'
import type { MapMatter, MapRelation, MapThing } from './model.ts'

type ById<T> = ReadonlyMap<string, T>

/** The records of a project that its map is made of. */
export interface MapRecords {
  readonly sources: ById<Source>
  readonly captures: ById<CaptureHead>
  readonly entries: ById<Entry>
  readonly withdrawn: ReadonlySet<string>
  readonly entryTags: ReadonlyMap<string, EntryTags>
  readonly marks: ReadonlyMap<string, readonly Mark[]>
  readonly procedures: ById<Procedure>
  readonly steps: ById<Step>
  readonly parts: ById<Part>
  readonly texts: ReadonlyMap<TextNodeId, string>
  readonly links: ById<Link>
  readonly states: ReadonlyMap<LinkId, LinkState>
}

/**
 * The things of a project, each band in its own order (sources and entries by time, rows of procedures as they stand), and
 * how they are joined. Captures stand under their source, parts under their row or procedure, a merged source under the one
 * that it is the same as. Withdrawn entries, sources that were set aside, sections and procedures as a whole are there only
 * where a link touches them.
 */
export function matterOf(records: MapRecords): MapMatter {
  const owner = ownersOf(records)
  const { relations, outside } = relationsOf(records, owner)
  const linked = new Set(relations.flatMap(({ newer, older }) => [newer, older]))
  const all = [...sourceThings(records), ...entryThings(records), ...procedureThings(records)]
  const isShown = ({ key, kind, isWithdrawn }: MapThing): boolean =>
    linked.has(key) ||
    !(
      isWithdrawn ||
      kind === 'section' ||
      kind === 'procedure' ||
      records.sources.get(key)?.setAside === true
    )
  return { things: all.filter(isShown), relations, outside }
}

/** The thing that stands on the map for each node of a link. */
function ownersOf({ sources, captures, entries, steps, parts, procedures }: MapRecords): Map<string, string> {
  const standing = (id: string): string => {
    const seen = new Set<string>()
    let at = id
    for (
      let next = sources.get(at)?.mergedInto;
      next && !seen.has(next) && sources.has(next);
      next = sources.get(at)?.mergedInto
    ) {
      seen.add(at)
      at = next
    }
    return at
  }
  const owners = new Map<string, string>()
  for (const id of sources.keys()) owners.set(id, standing(id))
  for (const { id, source } of captures.values()) if (sources.has(source)) owners.set(id, standing(source))
  for (const id of entries.keys()) owners.set(id, id)
  for (const { id, step, procedure } of parts.values()) {
    if (step !== null && steps.has(step)) owners.set(id, step)
    else if (step === null && procedures.has(procedure)) owners.set(id, procedure)
  }
  return owners
}

function relationsOf({ links, states }: MapRecords, owner: ReadonlyMap<string, string>) {
  const relations: MapRelation[] = []
  let outside = 0
  const inOrder = [...links.values()].sort((a, b) => (a.id < b.id ? -1 : 1))
  for (const { id, newer, older } of inOrder) {
    const [from, to] = [owner.get(newer.node.id), owner.get(older.node.id)]
    if (from === undefined || to === undefined) outside += 1
    else if (from !== to) relations.push({ newer: from, older: to, isLoose: states.get(id)?.loose ?? false })
  }
  return { relations, outside }
}

const byTime = <T>(timeOf: (one: T) => Moment, keyOf: (one: T) => string) => {
  return (a: T, b: T): number =>
    instantOf(timeOf(a)) - instantOf(timeOf(b)) || (keyOf(a) < keyOf(b) ? -1 : keyOf(a) > keyOf(b) ? 1 : 0)
}

/** The year, month and day that a thing lies in. */
function daysOf(band: string, moment: Moment) {
  return [4, 7, 10].map((length) => ({
    key: `${band} ${moment.slice(0, length)}`,
    name: moment.slice(0, length),
  }))
}

function sourceThings({ sources }: MapRecords): MapThing[] {
  return [...sources.values()]
    .filter(({ mergedInto }) => mergedInto === null || !sources.has(mergedInto))
    .sort(
      byTime(
        ({ added }) => added,
        ({ id }) => id,
      ),
    )
    .map(({ id, kind, title, address, added, tags }): MapThing => ({
      ...{ key: id, node: { kind: 'source', id }, band: 'sources', kind, title: '', tags },
      words: title || (address ?? ''),
      ...{ day: added.slice(0, 10), procedure: null, groups: daysOf('sources', added), isWithdrawn: false },
    }))
}

function entryThings({ entries, marks, entryTags, texts, withdrawn }: MapRecords): MapThing[] {
  return [...entries.values()]
    .map((entry) => ({ entry, moment: momentOf(entry, marks.get(entry.id)) }))
    .sort(
      byTime(
        ({ moment }) => moment,
        ({ entry }) => entry.id,
      ),
    )
    .map(({ entry: { id, kind }, moment }): MapThing => ({
      ...{ key: id, node: { kind: 'entry', id }, band: 'journal', kind, title: '', procedure: null },
      words: texts.get(id) ?? '',
      tags: entryTags.get(id)?.tags ?? [],
      ...{ day: moment.slice(0, 10), groups: daysOf('journal', moment), isWithdrawn: withdrawn.has(id) },
    }))
}

function procedureThings(records: MapRecords): MapThing[] {
  const owned = grouped(records.parts.values(), ({ step, procedure }) => step ?? procedure)
  const rows = grouped([...records.steps.values()].sort(compareSteps), ({ procedure }) => procedure)
  return [...records.procedures.values()]
    .sort(
      byTime(
        ({ created }) => created,
        ({ id }) => id,
      ),
    )
    .flatMap(({ id }) => thingsOfProcedure(records, id, owned, rows.get(id) ?? []))
}

function thingsOfProcedure(
  { texts }: MapRecords,
  id: Procedure['id'],
  owned: ReadonlyMap<string, readonly Part[]>,
  rows: readonly Step[],
): MapThing[] {
  const textOf = (part: Part | undefined): string => (part ? (texts.get(part.id) ?? '') : '')
  const own = owned.get(id) ?? []
  const title = own.find(({ kind }) => kind === 'title')
  const group = { key: `in ${id}`, name: textOf(title) || 'Procedure without a title' }
  const common = { band: 'procedure', day: null, tags: [], procedure: id, isWithdrawn: false } as const
  const numbers = rowNumbers(rows)
  let groups = [group]
  const rowThing = ({ id: row, level }: Step): MapThing => {
    const part = speakerOf(owned.get(row) ?? [], textOf)
    const words = textOf(part)
    if (level === 'section') groups = [group, { key: `in ${row}`, name: words || 'Section' }]
    const kind = level === 'section' ? 'section' : 'step'
    return { ...common, key: row, kind, title: numbers.get(row) ?? '', words, node: nodeOf(part), groups }
  }
  return [
    ...[
      {
        ...common,
        key: id,
        kind: 'procedure',
        title: '',
        words: textOf(title),
        node: nodeOf(title ?? own[0]),
        groups,
      } as const,
    ],
    ...rows.map(rowThing),
  ]
}

/** Of the parts of a row the first of these that has words stands for it. */
const speaking = ['heading', 'do', 'file', 'caution', 'expect'] as const

function speakerOf(parts: readonly Part[], textOf: (part: Part) => string): Part | undefined {
  const inOrder = [...parts].sort((a, b) => (a.id < b.id ? -1 : 1))
  const withWords = inOrder.filter((part) => textOf(part) !== '')
  for (const wanted of speaking) {
    const found = withWords.find(({ kind }) => kind === wanted)
    if (found) return found
  }
  return withWords[0] ?? inOrder[0]
}

function grouped<T>(all: Iterable<T>, keyOf: (one: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>()
  for (const one of all) {
    const known = groups.get(keyOf(one))
    if (known) known.push(one)
    else groups.set(keyOf(one), [one])
  }
  return groups
}

const nodeOf = (part: Part | undefined): LinkNode | null => (part ? { kind: 'part', id: part.id } : null)
