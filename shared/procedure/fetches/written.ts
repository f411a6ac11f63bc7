/** The list of what to fetch as a text, as a task list of Markdown, and as a file of sums. */
import type { ListItem, PhrasingContent, RootContent } from 'mdast'
import { heading, paragraph } from '../../export/layout.ts'
import { text } from '../../export/nodes.ts'
import { serialiseMarkdown } from '../../export/serialise.ts'
import { toOneLine } from '../../markdown/words.ts'
import type { FetchedKind } from '../../shell/fetches.ts'
import type { WantedFetch } from './fetchList.ts'
import { sumLine } from './sum.ts'

/** The kinds in the order in which they are listed, with their headings. */
export const fetchKindLabels = {
  package: 'Packages',
  image: 'Images',
  key: 'Keys',
  download: 'Downloads',
  repository: 'Repositories',
  index: 'Indexes',
} as const satisfies Record<FetchedKind, string>

export interface FetchGroup<T> {
  readonly kind: FetchedKind
  readonly label: string
  readonly items: readonly T[]
}

/** The items by kind, each kind that has any once, in the order in which the procedure wants them. */
export function groupsOf<T extends Pick<WantedFetch, 'kind'>>(items: readonly T[]): FetchGroup<T>[] {
  return (Object.keys(fetchKindLabels) as FetchedKind[])
    .map((kind) => ({ kind, label: fetchKindLabels[kind], items: items.filter((one) => one.kind === kind) }))
    .filter((group) => group.items.length > 0)
}

/** One thing of the list as it is written out: what it is, where it is wanted, what is known of it. */
export interface ListedFetch extends Pick<WantedFetch, 'kind' | 'name' | 'versions' | 'tools'> {
  /** "Step 3", each once. */
  readonly places: readonly string[]
  readonly isFetched: boolean
  readonly sha256: string | null
}

/** @param nameOf by which name the place of a part goes */
export function toListed(
  items: readonly WantedFetch[],
  nameOf: (place: WantedFetch['wanted'][number]) => string,
): ListedFetch[] {
  return items.map((item) => ({
    ...{ kind: item.kind, name: item.name, versions: item.versions, tools: item.tools },
    places: [...new Set(item.wanted.map(nameOf))],
    isFetched: isFetched(item),
    sha256: item.record?.sha256 ?? null,
  }))
}

export const isFetched = ({ record }: Pick<WantedFetch, 'record'>): boolean =>
  (record?.fetched ?? null) !== null

/** "3 of 11 fetched". */
export function countOfFetched(items: readonly Pick<ListedFetch, 'isFetched'>[]): string {
  return `${items.filter((one) => one.isFetched).length} of ${items.length} fetched`
}

const unnamed: Readonly<Record<FetchedKind, string>> = {
  package: 'Packages that the command does not name',
  image: 'Images that the command does not name',
  key: 'A key that the command does not name',
  download: 'What the command downloads',
  repository: 'What is new in a repository that is there already',
  index: 'The index of packages',
}

/** What it is called, without its kind. */
export function nameOfFetch({ kind, name }: Pick<WantedFetch, 'kind' | 'name'>): string {
  return name === null ? unnamed[kind] : toOneLine(name)
}

/** What is known beside its name: "version 1.24, with apt-get". */
export function factsOfFetch({ versions, tools }: Pick<WantedFetch, 'versions' | 'tools'>): string {
  const version =
    versions.length === 0
      ? []
      : [`${versions.length === 1 ? 'version' : 'versions'} ${versions.join(' and ')}`]
  return [...version, `with ${tools.join(' and ')}`].map(toOneLine).join(', ')
}

const aboutOf = (item: ListedFetch): string => ` (${[factsOfFetch(item), ...item.places].join('; ')})`

/** For a message or a shopping list: a heading for each kind, a line for each item. */
export function toFetchText(items: readonly ListedFetch[]): string {
  const lineOf = (item: ListedFetch): string =>
    `${item.isFetched ? '[x]' : '[ ]'} ${nameOfFetch(item)}${aboutOf(item)}${item.sha256 ? `, SHA-256 ${item.sha256}` : ''}`
  const groups = groupsOf(items).map(({ label, items: own }) => [label, ...own.map(lineOf)].join('\n'))
  return `${[countOfFetched(items), ...groups].join('\n\n')}\n`
}

/** The list as task lists of GFM, a heading for each kind. @param depth of the headings */
export function fetchBlocks(items: readonly ListedFetch[], depth: 2 | 3): RootContent[] {
  return groupsOf(items).flatMap(({ label, items: own }): RootContent[] => [
    heading(depth, [text(label)]),
    { type: 'list', ordered: false, spread: false, children: own.map(toTask) },
  ])
}

function toTask(item: ListedFetch): ListItem {
  const name: PhrasingContent =
    item.name === null ? text(nameOfFetch(item)) : { type: 'inlineCode', value: nameOfFetch(item) }
  const sum: PhrasingContent[] = item.sha256
    ? [text(', SHA-256 '), { type: 'inlineCode', value: item.sha256 }]
    : []
  const words = paragraph(name, text(aboutOf(item)), ...sum)
  return { type: 'listItem', checked: item.isFetched, spread: false, children: [words] }
}

/** A document of its own. */
export function toFetchMarkdown(title: string, items: readonly ListedFetch[]): string {
  return serialiseMarkdown({
    type: 'root',
    children: [
      heading(1, [text(`To fetch beforehand: ${toOneLine(title)}`)]),
      paragraph(text(`${countOfFetched(items)}.`)),
      ...fetchBlocks(items, 2),
    ],
  })
}

/**
 * The name that a file has after its download: the last part of an address's or a remote file's path, with %-signs read (RFC 3986).
 * Null where none is known: what an installer or a registry names, and what could not be a file's name.
 */
export function fileNameOf({ kind, name }: Pick<WantedFetch, 'kind' | 'name'>): string | null {
  if (name === null || (kind !== 'download' && kind !== 'key')) return null
  const path = pathOf(name)
  const last = path === null ? null : maybeDecoded(path.split('/').at(-1) ?? '')
  if (last === null || last === '' || last === '.' || last === '..' || /[/\0]/u.test(last)) return null
  return /[\u2045\u2046]|\$/u.test(last) ? null : last
}

function pathOf(name: string): string | null {
  const address = /^[a-z][a-z0-9+.-]*:\/\/[^/?#]*([^?#]*)/iu.exec(name)
  if (address) return address[1]!
  // `host:path` of rsync and scp, and web addresses that were written without their scheme.
  return /^[^/]*:(.*)$/u.exec(name)?.[1] ?? /^[^/?#]+(\/[^?#]*)/u.exec(name)?.[1] ?? null
}

function maybeDecoded(text: string): string | null {
  try {
    return decodeURIComponent(text)
  } catch {
    return null
  }
}

export interface SumsFile {
  /** For `sha256sum -c`; empty where no line could be written. */
  readonly text: string
  readonly count: number
  /** What has a SHA-256 and is not in it: no file's name is known, or another file of the list has it. */
  readonly leftOut: readonly { readonly item: WantedFetch; readonly why: 'no name' | 'name taken' }[]
}

/** The sums of what has both a SHA-256 and a known file's name. */
export function toSumsFile(items: readonly WantedFetch[]): SumsFile {
  const summed = items.flatMap((item) => {
    const sha256 = item.record?.sha256
    return sha256 ? [{ item, sha256, name: fileNameOf(item) }] : []
  })
  const lines = new Map<string, string>()
  const leftOut: SumsFile['leftOut'][number][] = []
  for (const { item, sha256, name } of summed) {
    if (name === null) leftOut.push({ item, why: 'no name' })
    else if (lines.has(name)) leftOut.push({ item, why: 'name taken' })
    else lines.set(name, sumLine(sha256, name))
  }
  return { text: [...lines.values()].join(''), count: lines.size, leftOut }
}
