/**
 * A file's content as the text of an entry: Markdown with one fence (CommonMark 0.31.2 §4.5), and back, byte for byte.
 * The fence holds the lines; what its lines cannot say (the last line end, CR) stands in the record beside it.
 */
import type { FileState } from '../../lab/model.ts'
import { languageOfFile } from './languages.ts'

/** What a text's lines alone do not say. */
export type TextShape = Pick<FileState, 'endsWithNewline' | 'lineEnds'>

/**
 * How a content stands as text. Undefined where it cannot be text that comes back byte for byte: it holds U+0000, half
 * a surrogate pair, or CR in other places than before every line feed. Such a content is kept as bytes.
 */
export function maybeTextShape(content: string): TextShape | undefined {
  if (/\0|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/.test(content))
    return undefined
  const endsWithNewline = content.endsWith('\n')
  if (!content.includes('\r')) return { endsWithNewline, lineEnds: 'lf' }
  return /\r(?!\n)|(?<!\r)\n/.test(content) ? undefined : { endsWithNewline, lineEnds: 'crlf' }
}

/**
 * The text of a file entry that holds a whole content.
 * @throws RangeError for a content of no shape (`maybeTextShape`)
 */
export function fileText(content: string, path: string): string {
  const shape = maybeTextShape(content)
  if (!shape) throw new RangeError('This content cannot be kept as text')
  const lines = content.replace(/\r\n/g, '\n')
  return fenced(shape.endsWithNewline ? lines.slice(0, -1) : lines, languageOfFile(path, content))
}

/** The text of a file entry that holds a unified diff, which always ends with a line feed. */
export function diffText(diff: string): string {
  return fenced(diff.replace(/\n$/, ''), 'diff')
}

/** The text of a file entry whose bytes are no text: they stand among the blobs. */
export const blobText = fenced('', '')

/** The content that an entry's text holds, byte for byte; undefined where it has no fence, or where it stands in a blob. */
export function contentOf(markdown: string, state: TextShape & Pick<FileState, 'blob'>): string | undefined {
  const lines = state.blob === null ? maybeFenced(markdown) : undefined
  if (lines === undefined) return undefined
  // A fence without any line is an empty file, whatever is said of its end.
  const content = `${lines.join('\n')}${state.endsWithNewline && lines.length > 0 ? '\n' : ''}`
  return state.lineEnds === 'crlf' ? content.replace(/\n/g, '\r\n') : content
}

/** The unified diff that an entry's text holds; undefined where it has no fence or an empty one. */
export function diffOf(markdown: string): string | undefined {
  const lines = maybeFenced(markdown)
  return lines === undefined || lines.length === 0 ? undefined : `${lines.join('\n')}\n`
}

/** Puts another content into the fence of an entry's text and leaves all beside it; where it has no fence, one is added. */
export function withContent(markdown: string, content: string, path: string): string {
  const fence = findFence(markdown.split('\n'))
  const next = fileText(content, path)
  if (!fence) return markdown.trim() === '' ? next : `${markdown.replace(/\n*$/, '')}\n\n${next}`
  const lines = markdown.split('\n')
  return [...lines.slice(0, fence.open), next, ...lines.slice(fence.close + 1)].join('\n')
}

function fenced(lines: string, language: string): string {
  const longest = Array.from(lines.matchAll(/`{3,}/g)).reduce((most, [run]) => Math.max(most, run.length), 2)
  const fence = '`'.repeat(longest + 1)
  return `${fence}${language}\n${lines}\n${fence}`
}

/** The lines in a text's first fence; undefined where it has none. */
function maybeFenced(markdown: string): string[] | undefined {
  const lines = markdown.split('\n')
  const fence = findFence(lines)
  if (!fence) return undefined
  const indent = new RegExp(`^ {0,${fence.indent}}`)
  const inner = lines.slice(fence.open + 1, fence.close)
  return fence.indent === 0 ? inner : inner.map((line) => line.replace(indent, ''))
}

interface Fence {
  /** Numbers of the lines with the fence's signs. A fence that is never closed ends behind the last line. */
  readonly open: number
  readonly close: number
  readonly indent: number
}

const opening = /^( {0,3})(`{3,}(?=[^`]*$)|~{3,})/

function findFence(lines: readonly string[]): Fence | undefined {
  const open = lines.findIndex((line) => opening.test(line))
  const [, blanks, signs] = opening.exec(lines[open] ?? '') ?? []
  if (blanks === undefined || signs === undefined) return undefined
  const closing = new RegExp(`^ {0,3}${signs[0]}{${signs.length},}[ \\t]*$`)
  const close = lines.findIndex((line, at) => at > open && closing.test(line))
  return { open, close: close === -1 ? lines.length : close, indent: blanks.length }
}
