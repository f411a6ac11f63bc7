/** How long it takes to filter, count and gather the sources of large labs. */
import type { CaptureId, FolderId, ProjectId, SourceId } from '../../../shared/lab/ids.ts'
import { sourceKinds, type CaptureHead, type Folder, type Source } from '../../../shared/lab/model.ts'
import type { Moment } from '../../../shared/lab/moment.ts'
import { countFacets } from '../../../shared/sources/counts.ts'
import { findSameSources } from '../../../shared/sources/duplicates.ts'
import { toSourceFacts, type SourceTables } from '../../../shared/sources/facts.ts'
import {
  filterFacts,
  noFilter,
  type FilterGround,
  type SourceFilter,
} from '../../../shared/sources/filter.ts'
import { toFolderTree } from '../../../shared/sources/folder-tree.ts'
import { sortFacts } from '../../../shared/sources/sort.ts'

const project = 'project' as ProjectId

/** A lab of so many sources with 300 tags and 400 folders, three deep. */
function labOf(count: number): SourceTables {
  const folders = Array.from({ length: 400 }, (_, at): Folder => {
    const parent = at < 20 ? null : (`folder ${Math.floor(at / 20)}` as FolderId)
    return { id: `folder ${at}` as FolderId, name: `Shelf ${at}`, parent, holds: 'sources' }
  })
  const sources = Array.from({ length: count }, (_, at) => sourceAt(at))
  const heads = sources.flatMap((source, at) => (at % 4 === 0 ? [] : [headOf(source, at)]))
  return {
    sources: new Map(sources.map((one) => [one.id, one])),
    heads: new Map(heads.map((one) => [one.id, one])),
    folders: new Map(folders.map((one) => [one.id, one])),
    uses: new Map(sources.filter((_, at) => at % 3 === 0).map(({ id }, at) => [id, 1 + (at % 5)])),
  }
}

function sourceAt(at: number): Source {
  const two = String(1 + (at % 28)).padStart(2, '0')
  return {
    id: `source ${String(at).padStart(6, '0')}` as SourceId,
    title: `How shelf ${at % 97} of the observatory was wired, part ${at}`,
    address: `https://docs${at % 50}.example.org/sheets/${at % 4800}?utm_source=mail&part=${at % 7}`,
    kind: sourceKinds[at % sourceKinds.length]!,
    wayIn: 'bookmarks',
    added: `2026-0${1 + (at % 9)}-${two}T10:00:00.000+01:00` as Moment,
    projects: at % 2 === 0 ? [project] : [],
    author: at % 5 === 0 ? 'A. Observer' : null,
    dated: at % 3 === 0 ? '2024-05' : null,
    bookmarked: null,
    tags: [`tag ${at % 300}`, `tag ${(at * 7) % 300}`, 'all'],
    folders: [`folder ${at % 400}` as FolderId, `folder ${(at * 3) % 400}` as FolderId],
    pinned: at % 100 === 0,
    setAside: at % 25 === 0,
    remark: at % 10 === 0 ? 'Read this before the next visit to the dome.' : '',
    mergedInto: null,
  }
}

function headOf({ id, added }: Source, at: number): CaptureHead {
  return {
    id: `capture ${String(at).padStart(6, '0')}` as CaptureId,
    source: id,
    taken: added,
    revision: `revision ${at}` as CaptureHead['revision'],
    sha256: `digest ${at % 4900}`,
    wayIn: 'bookmarks',
    saved: null,
    pages: [],
    notes: [],
    length: 1000,
  }
}

const filters: readonly Partial<SourceFilter>[] = [
  {},
  { words: 'shelf 9 wired' },
  { scope: 'lab', tags: ['tag 7'] },
  { scope: 'lab', folder: 'folder 3' as FolderId, kinds: ['pdf'], from: '2026-03-01' },
  { words: 'observer dome', scope: 'lab', flags: ['unused', 'same as another'] },
]

export interface OrderTimes {
  /** One pass that filters and counts every choice, milliseconds, the median over several filters. */
  readonly pass: number
  /** All that follows from a Change that touched one source: gathering, comparing, sorting. Milliseconds. */
  readonly gather: number
}

export function orderTimes(count: number): OrderTimes {
  const tables = labOf(count)
  toSourceFacts(tables)
  const gathered = Array.from({ length: 5 }, () =>
    timeOf(() => {
      const rows = toSourceFacts(tables)
      findSameSources(rows)
      sortFacts(rows, 'title')
    }),
  )
  const rows = toSourceFacts(tables)
  const same = new Set(
    findSameSources(rows).flatMap(({ members }) => members.map(({ source }) => source.id as string)),
  )
  const ground: FilterGround = { open: project, tree: toFolderTree(tables.folders.values()), same }
  const passes = Array.from({ length: 8 }, () => filters)
    .flat()
    .map((filter) =>
      timeOf(() => {
        filterFacts(rows, { ...noFilter, ...filter }, ground)
        countFacets(rows, { ...noFilter, ...filter }, ground)
      }),
    )
  return { pass: median(passes), gather: median(gathered) }
}

function timeOf(act: () => void): number {
  const begun = performance.now()
  act()
  return performance.now() - begun
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!
}
