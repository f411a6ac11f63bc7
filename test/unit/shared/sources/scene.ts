/** Small labs of sources for tests, and naive ways to say what is true of them. */
import fc from 'fast-check'
import type { CaptureId, FolderId, ProjectId, SourceId } from '../../../../shared/lab/ids.ts'
import { sourceKinds, type CaptureHead, type Folder, type Source } from '../../../../shared/lab/model.ts'
import type { Moment } from '../../../../shared/lab/moment.ts'
import { toSourceFacts, type SourceTables } from '../../../../shared/sources/facts.ts'
import {
  noFilter,
  sourceFlags,
  type FilterGround,
  type SourceFilter,
} from '../../../../shared/sources/filter.ts'
import { toFolderTree } from '../../../../shared/sources/folder-tree.ts'

export const idOf = <T extends string>(kind: string, at: number): T =>
  `${kind}-${String(at).padStart(4, '0')}` as T

export function source(at: number, more: Partial<Source> = {}): Source {
  return {
    id: idOf<SourceId>('source', at),
    title: `Source ${at}`,
    address: null,
    kind: 'text',
    wayIn: 'typed',
    added: '2026-11-14T18:31:07.000+01:00' as Moment,
    projects: [],
    author: null,
    dated: null,
    bookmarked: null,
    tags: [],
    folders: [],
    pinned: false,
    setAside: false,
    remark: '',
    mergedInto: null,
    ...more,
  }
}

export function head(at: number, of: Source, sha256 = `sha ${at}`): CaptureHead {
  return {
    id: idOf<CaptureId>('capture', at),
    source: of.id,
    taken: of.added,
    revision: idOf('revision', at),
    sha256,
    wayIn: 'typed',
    saved: null,
    pages: [],
    notes: [],
    length: 3,
  }
}

export const folder = (at: number, name: string, parent: number | null = null): Folder => ({
  id: idOf<FolderId>('folder', at),
  name,
  parent: parent === null ? null : idOf<FolderId>('folder', parent),
  holds: 'sources',
})

const byId = <T extends { readonly id: string }>(records: readonly T[]): Map<string, T> =>
  new Map(records.map((record) => [record.id, record]))

export function tablesOf(
  sources: readonly Source[],
  heads: readonly CaptureHead[] = [],
  folders: readonly Folder[] = [],
  uses: Readonly<Record<string, number>> = {},
): SourceTables {
  return {
    sources: byId(sources),
    heads: byId(heads),
    folders: byId(folders),
    uses: new Map(Object.entries(uses)),
  }
}

export const factsOf = (...sources: readonly Source[]) => toSourceFacts(tablesOf(sources))

export const projects = [0, 1, 2].map((at) => idOf<ProjectId>('project', at))
const tags = ['raid', 'zfs', 'night power', 'Überwachung']
const words = ['mast', 'RAID', 'über', 'gauge', 'ß', '']

/** Folders that name each other as parents in any way, rings and missing ones included. */
export const anyFolders = fc
  .array(fc.record({ name: fc.constantFrom('A', 'b', '10', '9'), parent: fc.option(fc.nat(7)) }), {
    maxLength: 6,
  })
  .map((made) => made.map(({ name, parent }, at) => folder(at, name, parent)))

const someOf = <T>(all: readonly T[], maxLength: number) =>
  fc.uniqueArray(fc.constantFrom(...all), { maxLength })

const anySource = fc.record({
  title: fc.array(fc.constantFrom(...words), { maxLength: 2 }).map((some) => some.join(' ')),
  address: fc.option(
    fc.constantFrom('https://a.example.org/', 'http://a.example.org', 'https://b.example.org/?utm_source=x'),
  ),
  kind: fc.constantFrom(...sourceKinds),
  added: fc
    .constantFrom(
      '2026-11-14T00:00:00.000+01:00',
      '2026-11-15T23:59:59.000-09:30',
      '2025-01-01T12:00:00.000+00:00',
    )
    .map((moment) => moment as Moment),
  projects: someOf(projects, 2),
  author: fc.option(fc.constantFrom('A. Observer', 'mast')),
  dated: fc.option(fc.constantFrom('2020', '2020-05', '2021-01-02')),
  tags: someOf(tags, 3),
  folders: fc
    .uniqueArray(fc.nat(7), { maxLength: 3 })
    .map((at) => at.map((one) => idOf<FolderId>('folder', one))),
  pinned: fc.boolean(),
  setAside: fc.boolean(),
  remark: fc.constantFrom(...words),
  merged: fc.option(fc.nat(9), { freq: 4 }),
  digests: fc.array(fc.constantFrom('x', 'y', 'z', 'u', 'v', 'w'), { maxLength: 2 }),
  uses: fc.nat(2),
})

/** A lab of a few sources, of which some were merged into others in any way, and its folders. */
export const anyTables = fc
  .tuple(fc.array(anySource, { maxLength: 8 }), anyFolders)
  .map(([made, folders]): SourceTables => {
    const sources = made.map(({ merged, digests: _, uses: __, ...fields }, at) =>
      source(at, {
        ...fields,
        mergedInto: merged === null || merged === at ? null : idOf<SourceId>('source', merged),
      }),
    )
    const heads = made.flatMap(({ digests }, at) =>
      digests.map((digest, place) => head(at * 10 + place, sources[at]!, digest)),
    )
    const uses = Object.fromEntries(
      made.flatMap(({ uses: count }, at) => (count > 0 ? [[sources[at]!.id, count] as const] : [])),
    )
    return tablesOf(sources, heads, folders, uses)
  })

export const anyFilter: fc.Arbitrary<SourceFilter> = fc.record({
  words: fc.constantFrom('', '', '  ', 'MAST', 'uber raid', 'a', 'ss', 'page'),
  scope: fc.constantFrom('project', 'lab'),
  tags: someOf(tags, 1),
  folder: fc.option(
    fc.nat(7).map((at) => idOf<FolderId>('folder', at)),
    { freq: 2 },
  ),
  project: fc.option(fc.constantFrom(...projects, 'none' as const), { freq: 2 }),
  kinds: someOf(sourceKinds, 2),
  from: fc.option(fc.constantFrom('2026-11-14', '2026-11-15'), { freq: 2 }),
  to: fc.option(fc.constantFrom('2026-11-14', '2026-11-15'), { freq: 2 }),
  flags: someOf(sourceFlags, 1),
})

/** Few conditions at once, since a filter with many lets nothing through. */
export const anyLooseFilter = fc
  .tuple(anyFilter, fc.subarray(Object.keys(noFilter) as (keyof SourceFilter)[], { maxLength: 3 }))
  .map(([filter, kept]): SourceFilter => ({
    ...noFilter,
    ...Object.fromEntries(kept.map((key) => [key, filter[key]])),
  }))

export function groundOf({ folders }: SourceTables, same: ReadonlySet<string> = new Set()): FilterGround {
  return { open: projects[0]!, tree: toFolderTree(folders.values()), same }
}
