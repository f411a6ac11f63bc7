/** Cuts things into passages: a step with all its parts, an entry, one paragraph of a source. */
import type { LinkNode, PartKind, Range } from '../../lab/model.ts'
import type { AskText, AskThing } from './thing.ts'

export interface Passage {
  readonly of: AskThing
  /** The texts that make it up, each with the stretch of it that belongs here. Never empty. */
  readonly pieces: readonly PassagePiece[]
  /** Of a paragraph, the headings above it. */
  readonly heading: string
}

export interface PassagePiece extends Range {
  readonly node: LinkNode | null
  readonly part: PartKind | null
  /** The whole text that the range speaks of. */
  readonly text: string
}

/** A paragraph that is shorter and that is followed by a block of code or a list goes with it. Code units. */
const LEADS_ON = 400

export function toPassages(thing: AskThing): Passage[] {
  if (thing.thing === 'source')
    return thing.texts.flatMap((text) => paragraphsOf(text).map((one) => ({ of: thing, ...one })))
  const pieces = thing.texts.map((text) => ({ ...text, start: 0, end: text.text.length }))
  return pieces.length === 0 ? [] : [{ of: thing, pieces, heading: '' }]
}

/** Blocks between blank lines, fences as a whole; a heading goes with what stands below it. */
function paragraphsOf({ node, part, text }: AskText): Pick<Passage, 'pieces' | 'heading'>[] {
  const blocks: Pick<Passage, 'pieces' | 'heading'>[] = []
  let heading = ''
  let before: Range | null = null
  for (const { start, end } of blocksOf(text)) {
    const words = text.slice(start, end)
    if (/^#{1,6} /.test(words)) {
      heading = words.replace(/^#+ /, '')
      before = null
      continue
    }
    const from = before?.start ?? start
    const leadsOn: boolean = before === null && end - start < LEADS_ON && /:$/.test(words)
    if (leadsOn) before = { start, end }
    else {
      blocks.push({ heading, pieces: [{ node, part, text, start: from, end }] })
      before = null
    }
  }
  if (before) blocks.push({ heading, pieces: [{ node, part, text, ...before }] })
  return blocks
}

/** Ranges of the blocks between blank lines that stand outside of fences (CommonMark 0.31.2 §4.5). */
function blocksOf(text: string): Range[] {
  const blocks: Range[] = []
  let start = -1
  let end = 0
  let fence: string | null = null
  const close = (): void => {
    if (start >= 0) blocks.push({ start, end })
    start = -1
  }
  for (const { index, 0: line } of text.matchAll(/[^\n]*(?:\n|$)/g)) {
    if (line === '') break
    const words = line.trimEnd()
    const opens = /^ {0,3}(`{3,}|~{3,})/.exec(words)?.[1] ?? null
    if (fence === null && words.trim() === '') {
      close()
      continue
    }
    if (fence === null && /^#{1,6} /.test(words)) close()
    if (start < 0) start = index
    end = index + words.length
    if (fence === null) fence = opens
    else if (opens?.startsWith(fence) && words.trim() === opens) fence = null
    if (fence === null && /^#{1,6} /.test(words)) close()
  }
  close()
  return blocks
}
