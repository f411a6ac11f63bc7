/** What a person can do with sources, each as a pure function from what stands to a Change. */
import type { Change, Operation } from './change.ts'
import type { ProjectId } from './ids.ts'
import { makeChange, put, type Surroundings } from './making.ts'
import type { Capture, CaptureHead, Link, LinkEnd, Source, SourceKind, WayIn } from './model.ts'
import { toStorableText } from './text.ts'

/** Text that came in with a source. */
export interface CaptureInput extends Partial<Pick<Capture, 'saved' | 'pages' | 'notes'>> {
  readonly text: string
  readonly bytes: Uint8Array
  /** Lower-case hex SHA-256 of `bytes`. */
  readonly sha256: string
  readonly mediaType: string
}

type OptionalFields =
  'author' | 'dated' | 'bookmarked' | 'tags' | 'folders' | 'pinned' | 'setAside' | 'remark'

export interface SourceInput extends Partial<Pick<Source, OptionalFields>> {
  readonly title: string
  readonly address: string | null
  readonly kind: SourceKind
  readonly wayIn: WayIn
  readonly projects: readonly ProjectId[]
  /** null for a link without text. */
  readonly capture: CaptureInput | null
}

/** What can be changed of a source by hand. */
export type SourceFields = Partial<
  Pick<
    Source,
    | 'title'
    | 'address'
    | 'author'
    | 'dated'
    | 'projects'
    | 'tags'
    | 'folders'
    | 'pinned'
    | 'setAside'
    | 'remark'
  >
>

/** What a source has of which nothing was said. */
const nothingSaid: Pick<Source, OptionalFields | 'mergedInto'> = {
  author: null,
  dated: null,
  bookmarked: null,
  tags: [],
  folders: [],
  pinned: false,
  setAside: false,
  remark: '',
  mergedInto: null,
}

export function addSource(around: Surroundings, input: SourceInput) {
  const { source, capture, operations } = sourceOperations(around, input)
  return { source, capture, change: makeChange(around, 'add a source', operations) }
}

function sourceOperations(around: Surroundings, input: SourceInput) {
  const { capture: captured, ...fields } = input
  const added = around.clock.now()
  const source: Source = { ...nothingSaid, ...fields, id: around.ids.make(), added }
  if (!captured) return { source, capture: null, operations: [put('sources', source)] }
  const capture = toCapture(around, source, captured, input.wayIn)
  const { sha256, bytes, mediaType } = captured
  const operations: Operation[] = [
    put('blobs', { sha256, bytes, mediaType }),
    put('sources', source),
    put('captures', capture),
  ]
  return { source, capture, operations }
}

function toCapture(
  around: Surroundings,
  source: Source,
  { text, sha256, saved = null, pages = [], notes = [] }: CaptureInput,
  wayIn: WayIn,
): Capture {
  return {
    id: around.ids.make(),
    source: source.id,
    taken: around.clock.now(),
    revision: around.ids.make(),
    text: toStorableText(text),
    sha256,
    wayIn,
    saved,
    pages,
    notes,
  }
}

/**
 * Reads a source again: a new capture, linked as revises to the one before. What was carried from the older one stays
 * true of the older one. A link without text becomes what was read.
 * @param before its newest capture, also one of a source that was merged into it; null where there is none
 */
export function readAgain(
  around: Surroundings,
  source: Source,
  before: Pick<CaptureHead, 'id' | 'revision'> | null,
  input: Pick<SourceInput, 'kind' | 'wayIn'> & { readonly capture: CaptureInput },
) {
  const { sha256, bytes, mediaType } = input.capture
  const capture = toCapture(around, source, input.capture, input.wayIn)
  const operations: Operation[] = [put('blobs', { sha256, bytes, mediaType })]
  if (source.kind !== input.kind) operations.push(put('sources', { ...source, kind: input.kind }, source))
  operations.push(put('captures', capture))
  if (before) operations.push(put('links', revisesLink(around, capture, before)))
  return { capture, change: makeChange(around, 'read again', operations) }
}

function revisesLink(
  around: Surroundings,
  newer: Capture,
  older: Pick<CaptureHead, 'id' | 'revision'>,
): Link {
  const whole = ({ id, revision }: Pick<CaptureHead, 'id' | 'revision'>): LinkEnd => {
    return { node: { kind: 'capture', id }, revision, ranges: [] }
  }
  return {
    id: around.ids.make(),
    made: around.clock.now(),
    way: 'copy',
    newer: whole(newer),
    older: whole(older),
  }
}

export function changeSource(around: Surroundings, source: Source, fields: SourceFields): Change {
  return makeChange(around, 'change a source', [put('sources', { ...source, ...fields }, source)])
}

/** Changes many sources as one act with one undo. `fieldsOf` says what becomes of each; null leaves it as it is. */
export function changeSources(
  around: Surroundings,
  sources: readonly Source[],
  fieldsOf: (source: Source) => SourceFields | null,
): Change {
  const operations = sources.flatMap((source) => {
    const fields = fieldsOf(source)
    return fields ? [put('sources', { ...source, ...fields }, source)] : []
  })
  return makeChange(around, 'change sources', operations)
}

/**
 * Makes several sources one. Each of `others` stays as a record that names `kept`, so that every link to it and to its
 * captures holds; what sorts them goes to `kept` too.
 * @param all every source of the lab: what was merged into one of `others` before follows it
 */
export function mergeSources(
  around: Surroundings,
  kept: Source,
  others: readonly Source[],
  all: readonly Source[],
): Change {
  const going = new Set(others.map(({ id }) => id))
  const moved = all.filter(
    ({ id, mergedInto }) =>
      id !== kept.id && (going.has(id) || (mergedInto !== null && going.has(mergedInto))),
  )
  const joined = others.reduce(joinSources, kept)
  return makeChange(around, 'merge sources', [
    put('sources', { ...joined, mergedInto: null }, kept),
    ...moved.map((source) => put('sources', { ...source, mergedInto: kept.id }, source)),
  ])
}

const union = <T>(one: readonly T[], other: readonly T[]): readonly T[] => [...new Set([...one, ...other])]

function joinSources(kept: Source, other: Source): Source {
  return {
    ...kept,
    title: kept.title || other.title,
    address: kept.address ?? other.address,
    kind: kept.kind === 'link' ? other.kind : kept.kind,
    author: kept.author ?? other.author,
    dated: kept.dated ?? other.dated,
    bookmarked: kept.bookmarked ?? other.bookmarked,
    projects: union(kept.projects, other.projects),
    tags: union(kept.tags, other.tags),
    folders: union(kept.folders, other.folders),
    pinned: kept.pinned || other.pinned,
    setAside: kept.setAside && other.setAside,
    remark: [kept.remark, other.remark].filter((words) => words !== '').join('\n'),
  }
}

/** Takes a source out of the one that it was merged into. What the merge added to that one stays there. */
export function separateSource(around: Surroundings, source: Source): Change {
  return makeChange(around, 'change a source', [put('sources', { ...source, mergedInto: null }, source)])
}
