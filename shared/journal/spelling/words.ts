/**
 * The words of a Markdown text whose spelling can be asked for: those of its sentences. Code, addresses, paths, options,
 * names of files, variables and everything else that is written for machines is left out.
 */
import { visit } from 'unist-util-visit'
import { maybeTree, parseWithTokens } from '../../markdown/parse.ts'
import { tokensWithin, type TextToken } from '../../markdown/tokens.ts'

/** A word and where it stands, in UTF-16 code units. */
export interface SpelledWord {
  readonly word: string
  readonly from: number
  readonly to: number
}

/** In order of place. A text that is taken as it stands, without formatting, has none. */
export function wordsToCheck(text: string): SpelledWord[] {
  if (!maybeTree(text)) return []
  const { tree, tokens } = parseWithTokens(text)
  const words: SpelledWord[] = []
  visit(tree, 'text', (node, _, parent) => {
    const start = node.position?.start.offset
    const end = node.position?.end.offset
    // The words of a link that is its own address are the address.
    if (
      start === undefined ||
      end === undefined ||
      (parent?.type === 'link' && parent.url.endsWith(node.value))
    )
      return
    for (const { from, value } of stretchesOf(tokensWithin(tokens, start, end)))
      words.push(...wordsIn(value, from))
  })
  return words.sort((one, other) => one.from - other.from)
}

/** Text that stands in the source as it is read, without escapes. The parser cuts it where a sign might have opened something. */
function stretchesOf(tokens: readonly TextToken[]): { from: number; value: string }[] {
  const stretches: { from: number; to: number; value: string }[] = []
  for (const { from, to, value, type } of tokens) {
    if (type !== 'text' || to - from !== value.length) continue
    const last = stretches.at(-1)
    if (last?.to === from) Object.assign(last, { to, value: last.value + value })
    else stretches.push({ from, to, value })
  }
  return stretches
}

/** What stands between blanks, with the signs of a sentence around it taken off. */
const piece = /\S+/gu
const edges = /^[\p{P}\p{S}]+|[\p{P}\p{S}]+$/gu
const plain = /^\p{L}+(?:['’]\p{L}+)?$/u

function wordsIn(text: string, offset: number): SpelledWord[] {
  return Array.from(text.matchAll(piece)).flatMap(({ 0: whole, index }) => {
    if (isForMachines(whole)) return []
    const lead = /^[\p{P}\p{S}]*/u.exec(whole)![0].length
    const core = whole.replace(edges, '')
    let at = index + lead
    // Parts of a word with hyphens, and of "this/that", are words by themselves.
    return core.split(/([-–—/])/u).flatMap((part) => {
      const from = offset + at
      at += part.length
      return isCheckable(part) ? [{ word: part, from, to: from + part.length }] : []
    })
  })
}

/** Whether it is an option, a path, an address, a variable, an assignment or the like. */
function isForMachines(piece: string): boolean {
  if (/^[("'“‘[]*(?:-{1,2}[A-Za-z]|[~$@%#/\\]|\.{1,2}\/)/u.test(piece)) return true
  if (/[\d_@=\\$|<>{}]|:\/\/|::|\(\)/u.test(piece)) return true
  if (/\/[^/]*\/|\/$/u.test(piece)) return true
  // A dot or a colon inside: names of hosts, files and modules.
  return /[\p{L}][.:][\p{L}]/u.test(piece)
}

function isCheckable(word: string): boolean {
  if (word.length < 3 || !plain.test(word)) return false
  // WordsLikeThis, ABBREVIATIONS and their plurals are names.
  return !/\p{Ll}\p{Lu}/u.test(word) && !/^\p{Lu}{2,}(?:['’]?s)?$/u.test(word)
}
