/**
 * Bookmarks in the JSON that browsers keep or back up: Chromium's profile file, whose times count microseconds since 1601
 * (components/bookmarks/browser/bookmark_codec.cc in its source), and Firefox's backup, in microseconds since 1970
 * (toolkit/components/places/PlacesBackups.sys.mjs).
 */
import { toTags } from '../../lab/tag-acts.ts'
import { decodeText } from '../decode.ts'
import { maxBookmarksBytes } from '../limits.ts'
import { broken, empty, tooLarge } from '../taken.ts'
import { maxFolders, toAdded, toBookmarks, toFolderName, type BookmarksIntake, type RawLink } from './link.ts'

type Fields = Readonly<Record<string, unknown>>

/** Says whether a file's beginning is one of these two. */
export function isBookmarksJson(beginning: string): boolean {
  if (!/^(?:\ufeff|\u00ef\u00bb\u00bf)?\s*\{/u.test(beginning)) return false
  return (
    /"roots"\s*:\s*\{\s*"bookmark_bar"/u.test(beginning) ||
    /"type"\s*:\s*"text\/x-moz-place-container"/u.test(beginning)
  )
}

/** Reads the bytes of either. */
export function readBookmarksJson(name: string, bytes: Uint8Array): BookmarksIntake {
  if (bytes.length > maxBookmarksBytes) return tooLarge(name, bytes.length, maxBookmarksBytes)
  const value = maybeJson(decodeText(bytes).text)
  const root = value && typeof value === 'object' ? (value as Fields) : undefined
  if (!root) return broken(name, 'is no complete JSON, so its links can’t be read')
  const found = isFields(root['roots']) ? fromChromium(root['roots']) : fromFirefox(root)
  if (!found) return broken(name, `holds more than ${maxFolders} folders within each other`)
  return found.length === 0 ? empty(name) : toBookmarks(found)
}

function maybeJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
const wordsIn = (value: unknown): string => (typeof value === 'string' ? value : '')
const childrenOf = (node: Fields): readonly Fields[] =>
  Array.isArray(node['children']) ? node['children'].filter(isFields) : []

interface Waiting {
  readonly node: Fields
  readonly folders: readonly string[]
}

/** Walks without recursion, so that no depth can exhaust the stack. Undefined for more folders than are read. */
function walk(
  starts: readonly Waiting[],
  toLink: (node: Fields, folders: readonly string[]) => RawLink | undefined,
  nameOf: (node: Fields) => string,
): RawLink[] | undefined {
  const links: RawLink[] = []
  const waiting = [...starts].reverse()
  for (let one = waiting.pop(); one; one = waiting.pop()) {
    if (one.folders.length > maxFolders) return undefined
    const link = toLink(one.node, one.folders)
    if (link) links.push(link)
    for (const child of [...childrenOf(one.node)].reverse()) {
      const isFolder = Array.isArray(child['children'])
      waiting.push({
        node: child,
        folders: isFolder ? [...one.folders, toFolderName(nameOf(child))] : one.folders,
      })
    }
  }
  return links
}

/** As the browser's own export does it, the bar is a folder, and what stands beside it is in none. */
function fromChromium(roots: Fields): RawLink[] | undefined {
  const named = Object.entries(roots).filter((entry): entry is [string, Fields] => isFields(entry[1]))
  const starts = named.map(([key, node]): Waiting => {
    return { node, folders: key === 'bookmark_bar' ? [toFolderName(wordsIn(node['name']))] : [] }
  })
  const toLink = (node: Fields, folders: readonly string[]): RawLink | undefined => {
    if (node['type'] !== 'url') return undefined
    const added = wordsIn(node['date_added'])
    const note = isFields(node['meta_info']) ? wordsIn(node['meta_info']['description']) : ''
    const [title, address] = [wordsIn(node['name']), wordsIn(node['url'])]
    return { title, address, folders, tags: [], added: toAdded(added), note, shortcut: '' }
  }
  return walk(starts, toLink, (node) => wordsIn(node['name']))
}

/** Folders that the browser makes itself; their titles in the file are words for programs. The menu is the top of all. */
const rootNames: Readonly<Record<string, readonly string[]>> = {
  bookmarksMenuFolder: [],
  toolbarFolder: ['Bookmarks Toolbar'],
  unfiledBookmarksFolder: ['Other Bookmarks'],
  mobileFolder: ['Mobile Bookmarks'],
}

function fromFirefox(root: Fields): RawLink[] | undefined {
  const tagsOf = tagsByAddress(root)
  const starts = childrenOf(root)
    .filter((node) => node['root'] !== 'tagsFolder')
    .map((node): Waiting => {
      return { node, folders: rootNames[wordsIn(node['root'])] ?? [toFolderName(wordsIn(node['title']))] }
    })
  const toLink = (node: Fields, folders: readonly string[]): RawLink | undefined => {
    if (node['type'] !== 'text/x-moz-place') return undefined
    const address = wordsIn(node['uri'])
    const added = typeof node['dateAdded'] === 'number' ? node['dateAdded'] : undefined
    return {
      title: wordsIn(node['title']),
      address,
      folders,
      tags: [...new Set([...toTags(wordsIn(node['tags'])), ...(tagsOf.get(address) ?? [])])],
      added: toAdded(added),
      note: descriptionOf(node),
      shortcut: wordsIn(node['keyword']),
    }
  }
  return walk(starts, toLink, (node) => wordsIn(node['title']))
}

/** Older backups keep tags as folders of their own, which hold the tagged addresses. */
function tagsByAddress(root: Fields): ReadonlyMap<string, readonly string[]> {
  const tags = new Map<string, string[]>()
  for (const folder of childrenOf(root)
    .filter((node) => node['root'] === 'tagsFolder')
    .flatMap(childrenOf))
    for (const link of childrenOf(folder)) {
      const address = wordsIn(link['uri'])
      tags.set(address, [...(tags.get(address) ?? []), ...toTags(wordsIn(folder['title']))])
    }
  return tags
}

function descriptionOf(node: Fields): string {
  const annotations = Array.isArray(node['annos']) ? node['annos'].filter(isFields) : []
  const found = annotations.find((one) => one['name'] === 'bookmarkProperties/description')
  return wordsIn(found?.['value'])
}
