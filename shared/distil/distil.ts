/** What a fragment becomes where it is dropped: its text there, and where in that text the carried words stand. */
import { wordPartKinds, type EntryKind, type PartKind, type Range, type StepPartKind } from '../lab/model.ts'
import { wordsOfFragment, type Fragment, type Origin } from './fragment.ts'

/** A fragment as text for its new place. */
export interface Distilled {
  readonly text: string
  /** Where the carried words stand in `text`; several where they were set line by line. Empty for a citation. */
  readonly ranges: readonly Range[]
}

/** The part of a step that a fragment becomes unless the person chooses another. */
export function defaultPartKind(origin: Origin, fence: string | null): StepPartKind {
  switch (origin.kind) {
    case 'source':
      return fence === null ? 'why' : 'do'
    case 'part':
      return isStepPartKind(origin.partKind) ? origin.partKind : 'why'
    case 'entry':
      // Lines out of a file's content are not the file.
      return origin.entryKind === 'file' && fence !== null ? 'do' : partOfEntryKind[origin.entryKind]
  }
}

const partOfEntryKind: Readonly<Record<EntryKind, StepPartKind>> = {
  action: 'do',
  output: 'expect',
  problem: 'if it fails',
  fix: 'if it fails',
  observation: 'why',
  decision: 'why',
  file: 'file',
  list: 'do',
}

/** What was picked out of a heading or a file is neither. */
function isStepPartKind(kind: PartKind): kind is StepPartKind {
  return wordPartKinds.some((one) => one === kind)
}

/** The kind of the entry that a fragment becomes in the journal unless the person chooses another. */
export function defaultEntryKind(fragment: Fragment): EntryKind {
  return fragment.fence !== null && /^(sh|bash|zsh|shell|console)\b/.test(fragment.fence)
    ? 'action'
    : 'observation'
}

/** In the journal a source's words stand as a quotation, so that nobody takes them for the writer's own. */
export function distilForJournal(fragment: Fragment): Distilled {
  if (fragment.selectors.length === 0) return citationOf(fragment)
  if (fragment.fence !== null) return fenced(fragment)
  return fragment.origin.kind === 'source' ? quoted(wordsOfFragment(fragment)) : verbatim(fragment)
}

/** In a procedure words stand as they are, and code in a fence. */
export function distilForPart(fragment: Fragment): Distilled {
  if (fragment.selectors.length === 0) return citationOf(fragment)
  return fragment.fence !== null ? fenced(fragment) : verbatim(fragment)
}

function citationOf({ title, address }: Fragment): Distilled {
  const words = (title.trim() || address) ?? 'Untitled source'
  const label = words.replace(/[\\[\]]/g, '\\$&').replace(/\s+/gu, ' ')
  return {
    text: address ? `[${label}](<${address.replace(/[<>\\\s]/gu, encodeURIComponent)}>)` : label,
    ranges: [],
  }
}

function verbatim(fragment: Fragment): Distilled {
  const text = wordsOfFragment(fragment)
  return { text, ranges: rangesOfWords(fragment, 0) }
}

function fenced(fragment: Fragment): Distilled {
  const words = wordsOfFragment(fragment)
  const info = fragment.fence ?? ''
  // An info string with a backtick can only stand behind tildes (CommonMark 0.31.2 §4.5).
  const mark = info.includes('`') ? '~' : '`'
  const fence = mark.repeat(Math.max(2, longestRun(words, mark)) + 1)
  const head = `${fence}${mark === '~' ? ' ' : ''}${info}\n`
  return { text: `${head}${words}\n${fence}`, ranges: rangesOfWords(fragment, head.length) }
}

function longestRun(text: string, mark: string): number {
  let longest = 0
  for (let at = 0, run = 0; at < text.length; at++) {
    run = text[at] === mark ? run + 1 : 0
    if (run > longest) longest = run
  }
  return longest
}

/** One range for each of the fragment's, on lines of their own from `at` on. */
function rangesOfWords(fragment: Fragment, at: number): Range[] {
  let start = at
  return fragment.selectors.map(({ quote }) => {
    const range = { start, end: start + quote.exact.length }
    start = range.end + 1
    return range
  })
}

/** A block quotation (CommonMark 0.31.2 §5.1); the words stand in it line by line. */
function quoted(words: string): Distilled {
  const ranges: Range[] = []
  let text = ''
  for (const line of words.split('\n')) {
    text += text === '' ? '> ' : '\n> '
    if (line.trim() !== '') ranges.push({ start: text.length, end: text.length + line.length })
    text += line
  }
  return { text, ranges }
}

/** The carried words and nothing else: within a code fence that stands already, all is code. */
export function distilForFence(fragment: Fragment): Distilled {
  return fragment.selectors.length === 0 ? citationOf(fragment) : verbatim(fragment)
}

/**
 * Sets a distilled text into a text that stands already: as a block of its own, or within a line where the place is
 * inside one and the words are a single line.
 * @param at from 0 to the text's length
 * @param isInline the words are to stand where the place is, at the end of a line too
 */
export function insertInto(
  text: string,
  at: number,
  distilled: Distilled,
  isInline = false,
): Distilled & { readonly at: number } {
  const before = text.slice(0, at)
  const after = text.slice(at)
  const isInLine = /[^\n]$/.test(before) && /^[^\n]/.test(after) && !distilled.text.includes('\n')
  const isWithinLine = isInline || isInLine
  const lead =
    isWithinLine || before.trim() === '' ? '' : '\n'.repeat(Math.max(0, 2 - endingLineEnds(before)))
  const tail =
    isWithinLine || after.trim() === '' ? '' : '\n'.repeat(Math.max(0, 2 - startingLineEnds(after)))
  return {
    at,
    text: lead + distilled.text + tail,
    ranges: distilled.ranges.map(({ start, end }) => ({
      start: start + lead.length,
      end: end + lead.length,
    })),
  }
}

const endingLineEnds = (text: string): number => /\n*$/.exec(text)![0].length
const startingLineEnds = (text: string): number => /^\n*/.exec(text)![0].length
