/** Taking in plain text and Markdown. */
import { maybeTree } from '../markdown/parse.ts'
import { plainWords, toOneLine, wordsOf } from '../markdown/words.ts'
import { isBinaryText, maybeBinaryKind } from './binary.ts'
import { toCleanText } from './clean-text.ts'
import { decodeText, type Decoded } from './decode.ts'
import { maxTextBytes, maxTitle } from './limits.ts'
import { empty, nothingStated, notText, tooLarge, type Intake } from './taken.ts'

const markdownName = /\.(?:md|markdown|mdown|mkd)$/iu

/** Says whether a file's name is one of Markdown (RFC 7763 §6 names `.md` and `.markdown`). */
export function isMarkdownName(name: string): boolean {
  return markdownName.test(name)
}

/**
 * Takes in the bytes of a text file. The words stay as they are; only what no text may hold is replaced.
 * @param name the file's name, which becomes the title where the text has none
 */
export function intakeText(name: string, bytes: Uint8Array): Intake {
  if (bytes.length > maxTextBytes) return tooLarge(name, bytes.length, maxTextBytes)
  const binary = maybeBinaryKind(bytes)
  if (binary !== undefined) return notText(name, binary)
  const decoded = decodeText(bytes)
  if (isBinaryText(decoded.text)) return notText(name, 'holds more control characters than any text does')
  return fromDecoded(name, decoded)
}

/** Takes in a text that was typed, pasted or dropped. */
export function intakePastedText(name: string, text: string): Intake {
  // Each UTF-16 code unit is at least one byte of UTF-8.
  if (text.length > maxTextBytes) return tooLarge(name, text.length, maxTextBytes)
  return fromDecoded(name, { text, encoding: 'utf-8', isDamaged: false })
}

function fromDecoded(name: string, decoded: Decoded): Intake {
  const { text, notes } = toCleanText(decoded.text)
  if (text.trim() === '') return empty(name)
  const isMarkdown = isMarkdownName(name)
  return {
    ok: true,
    title: (isMarkdown ? maybeHeading(text) : undefined) ?? titleOfName(name),
    address: null,
    kind: isMarkdown ? 'markdown' : 'text',
    text,
    mediaType: isMarkdown ? 'text/markdown' : 'text/plain',
    ...nothingStated,
    notes: [...encodingNotes(decoded), ...notes],
  }
}

/** Sentences about an encoding that was not UTF-8. */
export function encodingNotes(decoded: Decoded): readonly string[] {
  if (decoded.isDamaged)
    return [`Some bytes mean nothing in ${decoded.encoding} and were replaced by the sign \ufffd.`]
  return decoded.encoding === 'utf-8' ? [] : [`It was read as ${decoded.encoding}.`]
}

/** The words of the first heading, looked for near the text's beginning. */
function maybeHeading(text: string): string | undefined {
  const tree = maybeTree(text.slice(0, 20_000))
  const found = tree?.children.find((node) => node.type === 'heading')
  const words = found ? toOneLine(wordsOf(found)) : ''
  return words === '' ? undefined : toTitle(words)
}

/** A file's name without its folder and ending, as a title. */
export function titleOfName(name: string): string {
  const base = name.replace(/^.*[/\\]/u, '')
  return toTitle(base.replace(/\.[A-Za-z0-9]{1,8}$/u, '') || base) || 'Untitled'
}

/** Any words as a title: one line, not endless. */
export function toTitle(words: string): string {
  const points = Array.from(toOneLine(words.slice(0, maxTitle * 20)))
  return points.length <= maxTitle ? points.join('') : `${points.slice(0, maxTitle - 1).join('')}…`
}

/** A title for a text that has no name: its first words. */
export function titleOfWords(text: string): string {
  return plainWords(text.slice(0, 2000), 80) || 'Untitled'
}
