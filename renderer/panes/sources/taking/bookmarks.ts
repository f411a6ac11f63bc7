/** What the links of a file of bookmarks become, given what the lab has already. */
import type { BookmarkedLink } from '../../../../shared/intake/bookmarks/link.ts'
import {
  addSource,
  changeSource,
  FolderFinder,
  makeChange,
  toTag,
  type Surroundings,
} from '../../../../shared/lab/acts.ts'
import type { Change, Operation } from '../../../../shared/lab/change.ts'
import type { FolderId, ProjectId } from '../../../../shared/lab/ids.ts'
import type { Source } from '../../../../shared/lab/model.ts'
import { compareMoments, type Moment } from '../../../../shared/lab/moment.ts'
import { addressKey } from '../../../../shared/sources/address-key.ts'
import type { LabSources } from '../../../store/labSources.ts'
import { KnownSources } from './known.ts'

/** One page, whichever of its spellings stood in the file and how often. */
export interface PlannedLink {
  readonly title: string
  readonly address: string
  readonly folders: readonly (readonly string[])[]
  readonly tags: readonly string[]
  readonly bookmarked: Moment | null
  readonly remark: string
}

/** Waits until the screen had its turn. */
export type Pause = () => Promise<void>

/** So many links are gone through between two turns of the screen, and committed at once. */
const slice = 250

/** The pages of a file, each once, in the order of the file. */
export async function pagesOf(
  links: readonly BookmarkedLink[],
  pause: Pause,
): Promise<readonly PlannedLink[]> {
  const pages = new Map<string, PlannedLink>()
  for (const [at, link] of links.entries()) {
    if (at % slice === slice - 1) await pause()
    const key = addressKey(link.address)
    const page = toPage(link)
    const known = pages.get(key)
    pages.set(key, known ? join(known, page) : page)
  }
  return [...pages.values()]
}

function toPage({ title, address, folders, tags, added, note, shortcut }: BookmarkedLink): PlannedLink {
  const opened = shortcut === '' ? '' : `Opened in the browser by the word “${shortcut}”.`
  return {
    title,
    address,
    folders: folders.length > 0 ? [folders] : [],
    tags: tags.map(toTag).filter((tag) => tag !== ''),
    bookmarked: added,
    remark: [note, opened].filter((words) => words !== '').join('\n'),
  }
}

function join(one: PlannedLink, other: PlannedLink): PlannedLink {
  const earlier = (a: Moment | null, b: Moment | null): Moment | null =>
    a === null || b === null ? (a ?? b) : compareMoments(a, b) <= 0 ? a : b
  return {
    ...one,
    folders: [...one.folders, ...other.folders],
    tags: [...new Set([...one.tags, ...other.tags])],
    bookmarked: earlier(one.bookmarked, other.bookmarked),
    remark: [...new Set([one.remark, other.remark])].filter((words) => words !== '').join('\n'),
  }
}

/** How many folders the links lie in, those between counted too. */
export function countFolders(links: readonly Pick<BookmarkedLink, 'folders'>[]): number {
  const paths = new Set<string>()
  let last: readonly string[] | null = null
  for (const { folders } of links) {
    // Links of one folder stand beside each other, so most of the work is spared.
    if (folders === last) continue
    last = folders
    for (let depth = folders.length; depth > 0; depth--) {
      const path = JSON.stringify(folders.slice(0, depth))
      if (paths.has(path)) break
      paths.add(path)
    }
  }
  return paths.size
}

/** Some of the pages, and what they come to. */
export interface BookmarksPart {
  /** Without operations where the lab had all of it. */
  readonly change: Change
  readonly pages: number
  readonly added: number
  /** Pages that the lab had. */
  readonly known: number
  /** Those of them that got folders, tags or a remark. */
  readonly enriched: number
}

/**
 * The Changes that add the pages that the lab does not have, with folders, tags and dates. Those that it has get folders
 * and tags added instead, and come into the project – or stay as they are. Several Changes and not one, since nothing
 * else can be written while one is committed, and ten thousand links would take many seconds.
 */
export function* toBookmarksParts(
  around: Surroundings,
  all: LabSources,
  project: ProjectId,
  pages: readonly PlannedLink[],
  leavesKnown: boolean,
): Generator<BookmarksPart> {
  const known = new KnownSources(all, project)
  const finder = new FolderFinder(around, [...all.folders.values()])
  for (let start = 0; start < pages.length; start += slice) {
    const some = pages.slice(start, start + slice)
    const before = finder.operations.length
    const operations: Operation[] = []
    const counts = { pages: some.length, added: 0, known: 0, enriched: 0 }
    for (const page of some) {
      const source = known.findByAddress(page.address)
      if (source) counts.known++
      if (source && leavesKnown) continue
      const folders = page.folders.flatMap((path) => finder.ensure(path) ?? [])
      const made = source
        ? enriching(around, source, page, folders, project)
        : adding(around, page, folders, project)
      operations.push(...made)
      if (!source) counts.added++
      else if (made.length > 0) counts.enriched++
    }
    const made = finder.operations.slice(before)
    yield { change: makeChange(around, 'add sources', [...made, ...operations]), ...counts }
  }
}

function adding(
  around: Surroundings,
  { title, address, tags, bookmarked, remark }: PlannedLink,
  folders: readonly FolderId[],
  project: ProjectId,
): readonly Operation[] {
  return addSource(around, {
    title,
    address,
    kind: 'link',
    wayIn: 'bookmarks',
    projects: [project],
    capture: null,
    tags,
    folders: [...new Set(folders)],
    bookmarked,
    remark,
  }).change.operations
}

function enriching(
  around: Surroundings,
  source: Source,
  page: PlannedLink,
  folders: readonly FolderId[],
  project: ProjectId,
): readonly Operation[] {
  const union = <T>(one: readonly T[], other: readonly T[]): readonly T[] => [...new Set([...one, ...other])]
  const next: Source = {
    ...source,
    projects: union(source.projects, [project]),
    folders: union(source.folders, folders),
    tags: union(source.tags, page.tags),
    bookmarked: source.bookmarked ?? page.bookmarked,
    remark: source.remark || page.remark,
  }
  const isSame =
    next.projects.length === source.projects.length &&
    next.folders.length === source.folders.length &&
    next.tags.length === source.tags.length &&
    next.bookmarked === source.bookmarked &&
    next.remark === source.remark
  return isSame ? [] : changeSource(around, source, next).operations
}
