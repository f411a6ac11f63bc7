/** A file's state as a person typed or pasted it, made into the text and the record of an entry. */
import type { FileState } from '../../lab/model.ts'
import { maybeFileDiffs } from './apply.ts'
import { diffText, fileText, maybeTextShape } from './content.ts'
import { maybeMode } from './mode.ts'

/** What is said of a file beside its content, before anything is known. */
export const noFile: FileState = {
  path: '',
  owner: null,
  group: null,
  mode: null,
  form: 'content',
  endsWithNewline: true,
  lineEnds: 'lf',
  blob: null,
}

/** An entry's text and its file. */
export interface FileInput {
  readonly text: string
  readonly file: FileState
}

/**
 * What was typed in the composer as a file entry. A unified diff of one file is kept as such and names its path where
 * none is said; a text that already holds a fence stays as it is; all else is the content.
 * @param about what is said of the file so far
 * @returns undefined where no path is said
 */
export function typedFile(text: string, about: FileState): FileInput | undefined {
  const [diff, ...others] = maybeFileDiffs(text) ?? []
  const isDiff = diff !== undefined && others.length === 0
  const path = about.path.trim() || (isDiff ? pathOfDiff(diff.pathBefore, diff.pathAfter) : '')
  if (path === '') return undefined
  const file = {
    ...about,
    path,
    blob: null,
    mode: about.mode === null ? null : (maybeMode(about.mode) ?? null),
  }
  if (isDiff) return { text: diffText(diff.text), file: { ...file, form: 'diff' } }
  if (/^ {0,3}(`{3,}|~{3,})/m.test(text)) return { text, file: { ...file, form: 'content' } }
  const content = text.endsWith('\n') ? text : `${text}\n`
  const shape = maybeTextShape(content) ?? { endsWithNewline: true, lineEnds: 'lf' as const }
  return { text: fileText(content, path), file: { ...file, ...shape, form: 'content' } }
}

/** The path that a diff is about, without the letters that tools set before both sides. */
export function pathOfDiff(before: string, after: string): string {
  const path = after === '/dev/null' ? before : after
  const sides = /^a\//.test(before) || before === '/dev/null'
  return sides && /^b\//.test(path) ? path.slice(1) : path
}
