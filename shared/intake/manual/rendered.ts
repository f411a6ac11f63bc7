/** A manual page as `man` prints it: a running head, sections at the first column, text further in, a foot. */
import type { Heading, RootContent } from 'mdast'
import { settleLists, text } from './blocks.ts'
import { aboutOf, maybeStatedDate, titleOfPage, type Found } from './found.ts'
import { indentOf, toBlocks, type Layout } from './layout.ts'

/** Columns of the longest line that may be a running head. */
const maxHeadLine = 2000
const headLine = /^(\S[^()]*\([^()\s]+\))(?:\s.*)?\s\1$/u

/** Says whether a text begins with a running head, by its first few thousand letters. */
export function startsAsRendered(beginning: string): boolean {
  return headOf(beginning.split('\n').find((line) => line.trim() !== '') ?? '') !== undefined
}

/** The page's name and section, at both ends of the line; a long one is printed over the words before it. */
function headOf(line: string): string | undefined {
  const words = line.trim()
  if (words.length > maxHeadLine) return undefined
  return headLine.exec(words)?.[1] ?? maybeOverprinted(words)
}

function maybeOverprinted(words: string): string | undefined {
  const last = /(\S{8,})\([^()\s]+\)$/u.exec(words)
  const start = last ? last[0].lastIndexOf(words.slice(0, 6)) : -1
  return last && start > 0 && last.index > 0 ? last[0].slice(start) : undefined
}

/** The page in a text whose letters are already as they are read; undefined where the text is none. */
export function maybeRendered(all: string): Found | undefined {
  const lines = all.replace(/\f/gu, '\n').split('\n').map(toSpaces)
  const start = lines.findIndex((line) => line !== '')
  const head = headOf(lines[start] ?? '')
  if (head === undefined) return undefined
  const { body, foot } = withoutHeads(lines.slice(start + 1), head)
  if (!body.some((line) => /^\S/u.test(line)) || !body.some((line) => /^ {2,}\S/u.test(line)))
    return undefined
  const name = aboutOf(namePartOf(body))
  const page = `${name.name ?? head.replace(/\(.*/u, '').toLowerCase()}${head.slice(head.indexOf('('))}`
  const content = toContent(body, layoutOf(body))
  return { title: titleOfPage(page, name.about), content, author: null, dated: datedOf(foot), notes: [] }
}

/** Tabs of eight columns, none at the end. */
function toSpaces(line: string): string {
  let out = ''
  if (!line.includes('\t')) return line.trimEnd()
  for (const sign of line) out += sign === '\t' ? ' '.repeat(8 - (out.length % 8)) : sign
  return out.trimEnd()
}

function isHead(line: string, head: string): boolean {
  const isLikely = line.startsWith(head) && line.endsWith(head) && line.length <= maxHeadLine
  return isLikely && headLine.test(line)
}

/** Pages for printers repeat head and foot on each sheet. The foot is the last line at the first column. */
function withoutHeads(lines: readonly string[], head: string): { body: string[]; foot: string } {
  const body = lines.filter((line) => !isHead(line.trim(), head))
  const last = lastIndex(body)
  const line = body[last] ?? ''
  const isFoot = /^\S.*\s{2,}\S/u.test(line) || line.endsWith(head)
  return isFoot ? { body: body.slice(0, last), foot: line } : { body, foot: '' }
}

function lastIndex(lines: readonly string[]): number {
  for (let i = lines.length - 1; i >= 0; i -= 1) if (lines[i] !== '') return i
  return -1
}

function datedOf(foot: string): string | null {
  for (const part of foot.split(/\s{2,}/u)) {
    const date = maybeStatedDate(part)
    if (date !== null) return date
  }
  return null
}

/** The words of the first section. */
function namePartOf(body: readonly string[]): string {
  const start = body.findIndex((line) => /^\S/u.test(line)) + 1
  const end = body.findIndex((line, i) => i > start && (line === '' || /^\S/u.test(line)))
  return body
    .slice(start, end < 0 ? undefined : end)
    .map((line) => line.trim())
    .join(' ')
}

function layoutOf(body: readonly string[]): Layout {
  const indents = body.filter((line) => line !== '').map(indentOf)
  const count = (indent: number): number => indents.filter((one) => one === indent).length
  // Text stands 7 columns in as man(7) has it, 5 as mdoc(7) has it.
  const base = [7, 5, 8, 4].reduce((best, one) => (count(one) > count(best) ? one : best), 7)
  const width = body.reduce((most, line) => Math.max(most, line.length), 0)
  return { base, width: Math.min(width, 200), firstLine: 0 }
}

function toContent(body: readonly string[], layout: Layout): RootContent[] {
  const content: RootContent[] = []
  let section: string[] = []
  const close = (): void => {
    content.push(...toBlocks(section, layout))
    section = []
  }
  body.forEach((line, at) => {
    const depth = depthOf(body, at, layout)
    if (depth === undefined) section.push(line)
    else {
      close()
      content.push({ type: 'heading', depth, children: [text(line.trim())] })
    }
  })
  close()
  settleLists(content)
  return content
}

/** Sections stand at the first column, subsections two or three further in and alone above their text. */
function depthOf(body: readonly string[], at: number, { base }: Layout): Heading['depth'] | undefined {
  const line = body[at]!
  const indent = indentOf(line)
  if (line === '') return undefined
  if (indent === 0) return 2
  const isAlone = (body[at - 1] ?? '') === '' || indentOf(body[at - 1]!) === 0
  return indent < base && indent <= 3 && isAlone && indentOf(body[at + 1] ?? '') >= base ? 3 : undefined
}
