/** What is known of each source of a lab beside its record, gathered once for all that lists, sorts and counts them. */
import type { FolderId, SourceId } from '../lab/ids.ts'
import type { CaptureHead, Folder, Source } from '../lab/model.ts'
import { addressKey } from './address-key.ts'
import { foldText } from './folded.ts'
import { toFolderTree, type FolderTree } from './folder-tree.ts'
import { standingSource } from './standing.ts'

/** One source that stands, with those that were merged into it taken together. */
export interface SourceFacts {
  readonly source: Source
  readonly merged: readonly SourceId[]
  /** null for a link without text. */
  readonly newest: CaptureHead | null
  /** How many captures it and the merged ones have. */
  readonly captures: number
  /** How many newer things of the whole lab came from it or from one of its captures. */
  readonly uses: number
  /** All words by which it is found, folded. */
  readonly words: string
  /** Equal for addresses that lead to the same page; null without one. */
  readonly key: string | null
  /** SHA-256 of the bytes of each capture, each once. */
  readonly digests: readonly string[]
}

export interface SourceTables {
  readonly sources: ReadonlyMap<string, Source>
  readonly heads: ReadonlyMap<string, CaptureHead>
  readonly folders: ReadonlyMap<string, Folder>
  /** For ids of sources and captures: how many newer things came from it. None where it is absent. */
  readonly uses: ReadonlyMap<string, number>
}

/** The facts of every source that stands, in the order of the sources. */
export function toSourceFacts(tables: SourceTables): SourceFacts[] {
  const { sources, heads, folders, uses } = tables
  const tree = toFolderTree(folders.values())
  const gathered = new Map<string, Gathered>()
  for (const source of sources.values()) if (source.mergedInto === null) gathered.set(source.id, nothingYet())
  const standingIds = new Map<string, string>()
  for (const source of sources.values()) {
    const standing = standingSource(tables, source).id
    standingIds.set(source.id, standing)
    const facts = gathered.get(standing)
    if (!facts) continue
    if (standing !== source.id) facts.merged.push(source.id)
    facts.uses += uses.get(source.id) ?? 0
  }
  for (const head of heads.values()) {
    const facts = gathered.get(standingIds.get(head.source) ?? '')
    if (facts) takeHead(facts, head, uses.get(head.id) ?? 0)
  }
  const wordsOfFolder = rememberFolderWords(tree)
  return [...gathered].map(([id, { digests, ...facts }]) => {
    const source = sources.get(id)!
    const { words, key } = ownFactsOf(source)
    const inFolders = source.folders.map(wordsOfFolder)
    return { source, ...facts, digests: [...digests], key, words: [words, ...inFolders].join('\n') }
  })
}

interface Gathered {
  merged: SourceId[]
  newest: CaptureHead | null
  captures: number
  uses: number
  digests: Set<string>
}

const nothingYet = (): Gathered => ({ merged: [], newest: null, captures: 0, uses: 0, digests: new Set() })

function takeHead(facts: Gathered, head: CaptureHead, uses: number): void {
  facts.captures += 1
  facts.uses += uses
  facts.digests.add(head.sha256)
  // Ids grow with time.
  if (!facts.newest || facts.newest.id < head.id) facts.newest = head
}

function rememberFolderWords(tree: FolderTree): (id: FolderId) => string {
  const known = new Map<FolderId, string>()
  return (id) => {
    const words = known.get(id) ?? foldText(tree.pathOf(id).join('\n'))
    known.set(id, words)
    return words
  }
}

interface OwnFacts {
  readonly words: string
  readonly key: string | null
}

/** By record, since one that did not change stays the same object, and thousands are gathered again after every act. */
const known = new WeakMap<Source, OwnFacts>()

function ownFactsOf(source: Source): OwnFacts {
  const before = known.get(source)
  if (before) return before
  const { title, address, author, tags, remark, kind } = source
  const words = foldText([title, address ?? '', author ?? '', kind, ...tags, remark].join('\n'))
  const own = { words, key: address === null ? null : addressKey(address) }
  known.set(source, own)
  return own
}
