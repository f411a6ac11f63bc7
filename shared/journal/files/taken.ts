/** Files that were dropped, and texts that were pasted, as states of a file. */
import type { FileState } from '../../lab/model.ts'
import { maybeFileDiffs } from './apply.ts'
import { blobText, diffText, fileText, maybeTextShape } from './content.ts'

/** A text for an entry with what its record says beside it, of a path that was told or is still to be named. */
export interface TakenFile {
  readonly text: string
  readonly state: FileState
  /** The bytes that stand in `blobs` under `state.blob`, null for a text. */
  readonly bytes: Uint8Array | null
}

/** Stands in every runtime that this program uses, but not in ECMAScript's own library. WHATWG Encoding Standard. */
const DecoderOfRuntime = (
  globalThis as unknown as {
    TextDecoder: new (
      label: string,
      options: { fatal: boolean; ignoreBOM: boolean },
    ) => { decode(bytes: Uint8Array): string }
  }
).TextDecoder

/**
 * A dropped file: its text where its bytes are UTF-8 and come back exactly, else the bytes themselves.
 * @param path the file's path, or its name where only that is known
 * @param sha256 the SHA-256 of the bytes, lower-case hex
 */
export function fileFromDrop(path: string, bytes: Uint8Array, sha256: string): TakenFile {
  const content = maybeText(bytes)
  const shape = content === undefined ? undefined : maybeTextShape(content)
  if (content === undefined || !shape) {
    const state = { ...unknownState(path), blob: sha256 }
    return { text: blobText, state, bytes }
  }
  return { text: fileText(content, path), state: { ...unknownState(path), ...shape }, bytes: null }
}

/** A pasted content. Undefined where it cannot be kept as text (`maybeTextShape`). */
export function fileFromPaste(path: string, content: string): TakenFile | undefined {
  const shape = maybeTextShape(content)
  if (!shape) return undefined
  return { text: fileText(content, path), state: { ...unknownState(path), ...shape }, bytes: null }
}

/**
 * The files of a pasted unified diff, one for each path in it. Undefined where the text is no diff, or not a whole one.
 * The prefixes `a/` and `b/` that version control systems put before paths are taken off where both stand there.
 */
export function filesFromDiff(text: string): TakenFile[] | undefined {
  const isCrlf = /\r\n/.test(text) && !/(?<!\r)\n/.test(text)
  return maybeFileDiffs(isCrlf ? text.replace(/\r\n/g, '\n') : text)?.map((diff) => {
    const path = pathOfDiff(diff.pathBefore, diff.pathAfter)
    const isEnded = diff.hunks.at(-1)?.newer.at(-1)?.endsWith('\n') !== false
    // Behind `@@` lines of a file with CR, each line of the diff ends with CR as well.
    const hasCr = diff.hunks.every(({ older, newer }) =>
      [...older, ...newer].every((line) => /\r\n$|[^\n]$/.test(line)),
    )
    const state = { ...unknownState(path), form: 'diff', endsWithNewline: isEnded } as const
    const lines = hasCr ? diff.text.replace(/\r\n/g, '\n') : diff.text
    return { text: diffText(lines), state: { ...state, lineEnds: hasCr ? 'crlf' : 'lf' }, bytes: null }
  })
}

function pathOfDiff(before: string, after: string): string {
  const isPrefixed = /^(?:a\/|\/dev\/null$)/.test(before) && /^(?:b\/|\/dev\/null$)/.test(after)
  const path = after === '/dev/null' ? before : after
  return isPrefixed && path !== '/dev/null' ? path.slice(2) : path
}

function maybeText(bytes: Uint8Array): string | undefined {
  try {
    return new DecoderOfRuntime('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes)
  } catch {
    return undefined
  }
}

const unknownState = (path: string): FileState => ({
  path,
  owner: null,
  group: null,
  mode: null,
  form: 'content',
  endsWithNewline: true,
  lineEnds: 'lf',
  blob: null,
})
