/** The text of a command that stands in the words of another: `sh -c '…'`, `ssh host …`. */
import { readScript } from '../reading/read.ts'
import { withPlaces } from '../reading/moved.ts'
import type { ScriptWord, ShellNode } from '../reading/tree.ts'

/**
 * Reads words as a text of shell, as `sh -c` and `ssh` do; null where they are not known. Places are those of the outer text
 * where the inner one stands in it as it is, otherwise those of all the words.
 * @param source the outer text
 */
export function maybeInner(words: readonly ScriptWord[], source: string): ShellNode | null {
  const [first] = words
  const last = words.at(-1)
  if (first === undefined || last === undefined) return null
  const found = words.length === 1 ? alone(first, source) : joined(words, source)
  if (found === null || found.text.trim() === '') return null
  const { root } = readScript(found.text)
  const { offset } = found
  return offset === null
    ? withPlaces(
        root,
        () => first.from,
        () => last.to,
      )
    : withPlaces(
        root,
        (at) => at + offset,
        (at) => at + offset,
      )
}

interface InnerText {
  readonly text: string
  /** What its places are behind those of the outer text, null where it stands there in another form. */
  readonly offset: number | null
}

function alone({ from, to, text, value }: ScriptWord, source: string): InnerText | null {
  const isInPlace = source.slice(from, to) === text
  const bare = text.slice(1, -1)
  if (text === value) return { text, offset: isInPlace ? from : null }
  if (/^(?:'[^']*'|"(?:[^"\\])*")$/u.test(text)) return { text: bare, offset: isInPlace ? from + 1 : null }
  if (value !== null) return { text: value, offset: null }
  // What is expanded within quotes is so before the inner shell reads it: to that shell it is text, which stays unknown.
  if (/^"(?:[^"\\]|\\.)*"$/su.test(text)) return { text: bare.replace(/\\(["\\`])/gu, '$1'), offset: null }
  return null
}

function joined(words: readonly ScriptWord[], source: string): InnerText | null {
  const [from, to] = [words[0]!.from, words.at(-1)!.to]
  if (words.every(({ text, value }) => text === value)) {
    const written = source.slice(from, to)
    const isInPlace = written.split(/[ \t]+/u).join(' ') === words.map(({ text }) => text).join(' ')
    if (isInPlace) return { text: written, offset: from }
  }
  const parts = words.map((word) =>
    word.value === null ? (alone(word, source)?.text ?? word.text) : word.value,
  )
  return { text: parts.join(' '), offset: null }
}
