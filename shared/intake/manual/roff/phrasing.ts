/** From runs of text to the content of a paragraph. */
import type { PhrasingContent } from 'mdast'
import { maybeWebAddress } from '../../../markdown/addresses.ts'
import { addText, type Font, type Run } from './style.ts'

/** A forced line end within a paragraph. */
export const lineEnd = '\n'

/** White space as one space, none beside a forced line end or at the ends; marks of motion gone. */
export function squeezeRuns(runs: readonly Run[]): Run[] {
  const out: Run[] = []
  let isAfterSpace = true
  for (const { text, font } of runs) {
    let words = text.replace(/\ufdd0/gu, '').replace(/\ufdd1/gu, ' ')
    words = words.replace(/[^\S\n]+/gu, ' ').replace(/ ?\n[\n ]*/gu, lineEnd)
    if (isAfterSpace) words = words.replace(/^[ \n]+/u, '')
    if (words.startsWith(lineEnd)) trimEnd(out)
    if (words === '') continue
    isAfterSpace = /[ \n]$/u.test(words)
    addText(out, words, font)
  }
  trimEnd(out)
  return out
}

function trimEnd(runs: Run[]): void {
  for (let last = runs.at(-1); last; last = runs.at(-1)) {
    const text = last.text.replace(/[ \n]+$/u, '')
    runs.pop()
    if (text === '') continue
    runs.push({ text, font: last.font })
    return
  }
}

/** The content of a paragraph: bold is strong, italic is emphasis, fixed width is code, web addresses are links. */
export function toPhrasing(runs: readonly Run[]): PhrasingContent[] {
  const pieces = withSpaces(squeezeRuns(runs)).flatMap(splitSpace)
  const content: PhrasingContent[] = []
  let before = ''
  pieces.forEach((piece, i) => {
    const after = pieces[i + 1]
    const font = fontFor(piece, before, after)
    for (const node of toNodes(piece.text, font)) content.push(node)
    const mark = font === 'B' || font === 'I' || font === 'BI' ? '*' : font === 'C' ? '`' : ''
    before = mark === '' ? piece.text.at(-1)! : mark
  })
  return mergeText(content)
}

/** A space between words of one font is of that font; words of code stay apart, since each is typed for itself. */
function withSpaces(runs: readonly Run[]): Run[] {
  const out: Run[] = []
  runs.forEach(({ text, font }, i) => {
    const last = out.at(-1)
    const isBetween =
      text === ' ' && last !== undefined && last.font === runs[i + 1]?.font && last.font !== 'C'
    addText(out, text, isBetween ? last.font : font)
  })
  return out
}

/** Space stands outside of marks: `** a**` would be none. */
function splitSpace({ text, font }: Run): Run[] {
  if (font === 'R') return [{ text, font }]
  return (text.match(/\n|[^\n]+/gu) ?? []).flatMap((line): Run[] => {
    const words = line.trim()
    if (words === '') return [{ text: line, font: 'R' }]
    const start = line.slice(0, line.indexOf(words))
    const end = line.slice(start.length + words.length)
    return [
      { text: start, font: 'R' as const },
      { text: words, font },
      { text: end, font: 'R' as const },
    ].filter(({ text }) => text !== '')
  })
}

const isSpace = (sign: string): boolean => sign === '' || /\s/u.test(sign)
const isPunctuation = (sign: string): boolean => /[\p{P}\p{S}]/u.test(sign)

/**
 * The font in which a piece can be marked. Where asterisks would not be read as marks (CommonMark 0.31.2 §6.2), or two
 * marked pieces meet, what is bold, and so is to be typed as it stands, becomes code; what is italic loses its mark.
 */
function fontFor({ text, font }: Run, before: string, next: Run | undefined): Font {
  if (font === 'R' || font === 'C') return font
  const points = Array.from(text)
  const after = next === undefined ? '' : Array.from(next.text)[0]!
  const opens = !isPunctuation(points[0]!) || isSpace(before) || isPunctuation(before)
  const closes = !isPunctuation(points.at(-1)!) || isSpace(after) || isPunctuation(after)
  const meets =
    before === '*' || (font === 'B' && next !== undefined && (next.font === 'I' || next.font === 'BI'))
  if (opens && closes && !meets) return font
  return font === 'B' && !text.includes('\n') ? 'C' : 'R'
}

function toNodes(text: string, font: Font): PhrasingContent[] {
  if (font === 'C') return withBreaks(text, (value) => [{ type: 'inlineCode', value }])
  const words = (value: string): PhrasingContent[] => withLinks(value)
  if (font === 'R') return withBreaks(text, words)
  if (font === 'B') return withBreaks(text, (value) => [{ type: 'strong', children: words(value) }])
  if (font === 'I') return withBreaks(text, (value) => [{ type: 'emphasis', children: words(value) }])
  return withBreaks(text, (value) => [
    { type: 'strong', children: [{ type: 'emphasis', children: words(value) }] },
  ])
}

function withBreaks(text: string, toContent: (line: string) => PhrasingContent[]): PhrasingContent[] {
  return text
    .split(lineEnd)
    .flatMap((line, i): PhrasingContent[] => [
      ...(i === 0 ? [] : [{ type: 'break' as const }]),
      ...(line === '' ? [] : toContent(line)),
    ])
}

const address = /\bhttps?:\/\/[^\s<>"'`⟨⟩“”‘’|\\^{}]+/giu

/** Web addresses in words, as links that say their own address; a full stop or a bracket behind one is none of it. */
function withLinks(text: string): PhrasingContent[] {
  if (!text.includes('://')) return [{ type: 'text', value: text }]
  const content: PhrasingContent[] = []
  let at = 0
  for (const found of text.matchAll(address)) {
    const words = found[0].replace(/[.,;:!?]+$/u, '').replace(/^([^(]*)\).*$/u, '$1')
    if (maybeWebAddress(words) === undefined || words.endsWith('//')) continue
    if (found.index > at) content.push({ type: 'text', value: text.slice(at, found.index) })
    content.push({ type: 'link', url: words, children: [{ type: 'text', value: words }] })
    at = found.index + words.length
  }
  if (at < text.length) content.push({ type: 'text', value: text.slice(at) })
  return content
}

function mergeText(content: readonly PhrasingContent[]): PhrasingContent[] {
  const out: PhrasingContent[] = []
  for (const node of content) {
    const last = out.at(-1)
    if (node.type === 'text' && last?.type === 'text') last.value += node.value
    else if (node.type === 'inlineCode' && last?.type === 'inlineCode') last.value += node.value
    else out.push(node)
  }
  return out
}
