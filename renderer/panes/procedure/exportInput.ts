/** What the export of a procedure is made of, gathered from records that were read. Pure. */
import type {
  ExportedOwnPart,
  ExportedPart,
  ExportedProcedure,
  ExportedSource,
  Origin,
} from '../../../shared/export/input.ts'
import { ownPartLabels } from '../../../shared/export/labels.ts'
import type { EntryId, SourceId } from '../../../shared/lab/ids.ts'
import type {
  Entry,
  LinkNode,
  LinkType,
  Machine,
  PageStart,
  PartKind,
  Range,
  Source,
  StepPartKind,
} from '../../../shared/lab/model.ts'
import { placeInWords } from '../../../shared/procedure/rows/places.ts'
import type { Moment } from '../../../shared/lab/moment.ts'
import { buildTrace, flattenTrace, type LinkRecords } from '../../../shared/provenance/trace.ts'
import { pageWords } from '../../../shared/sources/pages.ts'
import type { ShownPart, ShownProcedure } from './shown.ts'

/** Everything that a procedure's parts rest on, near or far. */
export interface ExportRecords {
  readonly links: LinkRecords
  readonly entries: ReadonlyMap<string, { readonly entry: Entry; readonly text: string }>
  /** Entries that were taken back; the export does not show them. */
  readonly withdrawn: ReadonlySet<string>
  readonly captures: ReadonlyMap<
    string,
    { readonly source: SourceId; readonly taken: Moment; readonly pages?: readonly PageStart[] }
  >
  readonly sources: ReadonlyMap<string, { readonly source: Source; readonly taken: Moment | null }>
}

/** What a text rests on. That a fix answered a problem, or a run followed a version, is another matter. */
const restingTypes: ReadonlySet<LinkType> = new Set(['quotes', 'derives', 'cites', 'revises'])

/**
 * The procedure with all that each part rests on: entries, and sources directly or through entries, nearest first, each
 * once. A link whose words no longer stand in the newer text does not count.
 * @param machines of the lab, which give the places their names
 */
export function toExportInput(
  shown: ShownProcedure,
  records: ExportRecords,
  machines: readonly Machine[],
): ExportedProcedure {
  const links = restingLinks(records.links)
  const originsFor = ({ part }: ShownPart) => originsOf({ kind: 'part', id: part.id }, links, records)
  const toPart = (part: ShownPart): ExportedPart => ({
    kind: part.part.kind as StepPartKind,
    text: part.text,
    origins: originsFor(part),
    file: part.part.file,
  })
  return {
    title: shown.title?.text ?? '',
    purpose: shown.purpose?.text ?? '',
    purposeOrigins: shown.purpose ? originsFor(shown.purpose) : [],
    own: shown.own.flatMap((one) => {
      const { kind } = one.part
      return isOwnKind(kind) ? [{ kind, text: one.text, origins: originsFor(one) }] : []
    }),
    steps: shown.steps.map(({ step, place, parts }) => ({
      id: step.id,
      level: step.level,
      place: place.isChanged && place.place ? placeInWords(place.place, machines) : null,
      pointOfNoReturn: step.pointOfNoReturn,
      parts: parts.map(toPart),
    })),
  }
}

/** Title and purpose have places of their own. */
const isOwnKind = (kind: PartKind): kind is ExportedOwnPart['kind'] => kind in ownPartLabels

function restingLinks({ links, states }: LinkRecords): LinkRecords {
  const resting = [...links].filter(([, link]) => {
    const state = states.get(link.id)
    return state !== undefined && restingTypes.has(state.type) && !state.newer.loose
  })
  return { links: new Map(resting), states }
}

function originsOf(part: LinkNode, links: LinkRecords, records: ExportRecords): Origin[] {
  const hops = flattenTrace(buildTrace(links, [part], 'back'))
  const nodes = new Map(hops.map(({ node }) => [node.id, node]))
  const rangesIn = (node: LinkNode): Range[] =>
    hops
      .filter((hop) => hop.node.id === node.id)
      .flatMap(({ link }) => link.older.ranges.map(({ position }) => position))
  return [...nodes.values()].flatMap((node) => maybeOrigin(node, rangesIn(node), records) ?? [])
}

/** @param ranges of the node's text that the part rests on */
function maybeOrigin(node: LinkNode, ranges: readonly Range[], records: ExportRecords): Origin | null {
  switch (node.kind) {
    case 'entry':
      return maybeEntry(node.id, records)
    case 'capture': {
      const capture = records.captures.get(node.id)
      if (!capture) return null
      return maybeSource(capture.source, capture.taken, records, pageWords(capture.pages ?? [], ranges))
    }
    case 'source':
      return maybeSource(node.id, records.sources.get(node.id)?.taken ?? null, records)
    case 'part':
      return null
  }
}

function maybeEntry(id: EntryId, { entries, withdrawn }: ExportRecords): Origin | null {
  const read = entries.get(id)
  if (!read || withdrawn.has(id)) return null
  const { kind, moment } = read.entry
  return { kind: 'entry', id, entry: { kind, moment, text: read.text } }
}

function maybeSource(
  id: SourceId,
  taken: Moment | null,
  { sources }: ExportRecords,
  page: string | null = null,
): Origin | null {
  const read = sources.get(id)
  if (!read) return null
  const { title, address } = read.source
  const source: ExportedSource = page === null ? { title, address, taken } : { title, address, taken, page }
  return { kind: 'source', id, source }
}
