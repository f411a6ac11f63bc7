/** The text of a command that stands in the words of another: `sh -c '…'`, `ssh host …`. */
import { readScript } from '../reading/read.ts'
import { withPlaces } from '../reading/moved.ts'
import type { ScriptWord, ShellNode } from '../reading/tree.ts'

export interface InnerScript {
  readonly node: ShellNode
  /** The text that was read, with places of its own. */
  readonly hasProblem: boolean
}

/**
 * Reads words as a text of shell, as `sh -c` and `ssh` do; null where they are not known. Places are those of the outer text
 * where the inner one stands in it as it is, otherwise those of all the words.
 * @param source the outer text
 */
export function maybeInner(words: readonly ScriptWord[], source: string): InnerScript | null {
  const [first] = words
  const last = words.at(-1)
  if (first === undefined || last === undefined) return null
  const found = words.length === 1 ? alone(first) : joined(words, source)
  if (found === null || found.text.trim() === '') return null
  const { root, problems } = readScript(found.text)
  const { offset } = found
  const node =
    offset === null
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
  return { node, hasProblem: problems.length > 0 }
}

interface InnerText {
  readonly text: string
  /** What its places are behind those of the outer text, null where it stands there in another form. */
  readonly offset: number | null
}

function alone({ from, text, value }: ScriptWord): InnerText | null {
  const bare = text.slice(1, -1)
  if (text === value) return { text, offset: from }
  if (/^(?:'[^']*'|"(?:[^"\\])*")$/u.test(text)) return { text: bare, offset: from + 1 }
  if (value !== null) return { text: value, offset: null }
  // What is expanded within quotes is so before the inner shell reads it: to that shell it is text, which stays unknown.
  if (/^"(?:[^"\\]|\\.)*"$/su.test(text)) return { text: bare.replace(/\\(["\\`])/gu, '$1'), offset: null }
  return null
}

function joined(words: readonly ScriptWord[], source: string): InnerText | null {
  const [from, to] = [words[0]!.from, words.at(-1)!.to]
  if (words.every(({ text, value }) => text === value)) {
    const written = source.slice(from, to)
    const isAlone = written.split(/[ \t]+/u).join(' ') === words.map(({ text }) => text).join(' ')
    if (isAlone) return { text: written, offset: from }
  }
  const parts = words.map((word) => (word.value === null ? (alone(word)?.text ?? word.text) : word.value))
  return { text: parts.join(' '), offset: null }
}
