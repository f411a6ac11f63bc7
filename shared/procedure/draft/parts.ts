/** Texts of proposed parts, with the fragments of entries that they are made of. */
import { pickFragment, type Fragment } from '../../distil/fragment.ts'
import type { LabId } from '../../lab/ids.ts'
import type { Entry, Range } from '../../lab/model.ts'
import { maybeTree } from '../../markdown/parse.ts'

/** Words that came from an entry. */
export interface PartSource {
  /** Not settled: which revision the words stand in is said when the step is accepted. */
  readonly fragment: Fragment
  /** Where they stand in the part's text. */
  readonly ranges: readonly Range[]
}

export interface PartText {
  readonly text: string
  readonly from: readonly PartSource[]
}

/** Where words are picked from. */
export interface Picked {
  readonly lab: LabId
  readonly entry: Entry
  readonly text: string
}

function pick({ lab, entry, text }: Picked, range: Range): Fragment | null {
  const about = {
    lab,
    node: { kind: 'entry', id: entry.id },
    revision: null,
    title: '',
    address: null,
  } as const
  return pickFragment({ ...about, origin: { kind: 'entry', entryKind: entry.kind }, text }, [range])
}

/** Words of an entry as they stand; null where nothing but white space is there. */
export function wordsFrom(from: Picked, range: Range = { start: 0, end: from.text.length }): PartText | null {
  const fragment = pick(from, range)
  const [selector] = fragment?.selectors ?? []
  if (!fragment || !selector) return null
  const text = selector.quote.exact
  return { text, from: [{ fragment, ranges: [{ start: 0, end: text.length }] }] }
}

/** Ranges of an entry, each on lines of its own, in one fence. */
export function codeFrom(from: Picked, ranges: readonly Range[], language: string): PartText | null {
  const pieces = ranges.flatMap((range) => {
    const fragment = pick(from, range)
    const [selector] = fragment?.selectors ?? []
    return fragment && selector ? [{ fragment, words: selector.quote.exact }] : []
  })
  if (pieces.length === 0) return null
  const body = pieces.map(({ words }) => words).join('\n')
  const longest = Array.from(body.matchAll(/`{3,}/gu)).reduce((most, [run]) => Math.max(most, run.length), 2)
  const fence = '`'.repeat(longest + 1)
  let text = `${fence}${language}\n`
  const sources = pieces.map(({ fragment, words }): PartSource => {
    const start = text.length
    text += `${words}\n`
    return { fragment, ranges: [{ start, end: start + words.length }] }
  })
  return { text: text + fence, from: sources }
}

/** Texts one below the other, as blocks of their own. */
export function joinTexts(texts: readonly PartText[]): PartText {
  return texts.reduce((before, next) => {
    if (before.text === '') return next
    const at = before.text.length + 2
    const moved = next.from.map(({ fragment, ranges }) => ({
      fragment,
      ranges: ranges.map(({ start, end }) => ({ start: start + at, end: end + at })),
    }))
    return { text: `${before.text}\n\n${next.text}`, from: [...before.from, ...moved] }
  })
}

/** The paragraphs of a text that stand before its first block of code. */
export function leadOf(text: string): Range | null {
  const blocks = maybeTree(text)?.children ?? []
  const code = blocks.findIndex(({ type }) => type === 'code')
  const lead = blocks.slice(0, code < 0 ? 0 : code).filter(({ type }) => type === 'paragraph')
  const start = lead[0]?.position?.start.offset
  const end = lead.at(-1)?.position?.end.offset
  return start === undefined || end === undefined ? null : { start, end }
}

/** The longest output that stands as a whole; of a longer one the last lines are what to expect. */
const MOST_LINES = 12
const KEPT_LINES = 3

/** What of an output is to be expected: its code, or the end of it; all of a text without code. */
export function expectedFrom(from: Picked): PartText | null {
  const code = maybeTree(from.text)?.children.find(({ type }) => type === 'code')
  const [open, close] = [code?.position?.start.offset, code?.position?.end.offset]
  if (open === undefined || close === undefined) return wordsFrom(from)
  const start = from.text.indexOf('\n', open) + 1
  const end = from.text.lastIndexOf('\n', close - 1)
  if (start <= 0 || end <= start) return null
  const lines = from.text.slice(start, end).split('\n')
  if (lines.length <= MOST_LINES) return codeFrom(from, [{ start, end }], 'text')
  return codeFrom(from, [{ start: end - lines.slice(-KEPT_LINES).join('\n').length, end }], 'text')
}
