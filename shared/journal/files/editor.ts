/** Files that an editor wrote, read from the screens that it showed. */
import type { FoundPlace, ScreenShot } from '../terminal/found.ts'
import { isNano, nanoSaves } from './nano.ts'
import { isDevicePath, maybeWholePath } from './paths.ts'
import { sequenceOf, withoutSudo } from './sequence.ts'
import { vimSaves } from './vim.ts'

/** One time that an editor said it had written a file. */
export interface EditorSave {
  /** As the editor showed it; perhaps cut. */
  readonly path: string
  /** Undefined where not all of the text was seen, or where it can be read in more than one way. */
  readonly content: string | undefined
  /** Whether a number of bytes vouches for the content, and not of lines alone. */
  readonly isProven: boolean
}

export interface EditedFile {
  /** Null where it is not known which file it was. */
  readonly path: string | null
  readonly content: string | undefined
  readonly isProven: boolean
}

const editors =
  /^(?:\/usr\/bin\/|\/bin\/)?(?:nano|rnano|pico|vi|vim|vim\.(?:tiny|basic|nox)|editor|sensible-editor)$/
const options = /^[-+]/

/** Each file that an editor wrote by this command, with what it wrote last. Empty where the command starts no editor. */
export function editedFiles(command: string, place: FoundPlace, shots: readonly ScreenShot[]): EditedFile[] {
  const started = maybeEditor(command, place.directory)
  if (!started) return []
  const saves = shots.some(isNano) ? nanoSaves(shots) : vimSaves(shots)
  const last = new Map<string | null, EditedFile>()
  for (const { path, ...saved } of saves) {
    const whole = maybeSavedPath(path, started)
    if (whole === null || !isDevicePath(whole)) last.set(whole, { path: whole, ...saved })
  }
  return [...last.values()]
}

interface Started {
  readonly here: string | null
  /** The files that were named to the editor, whole. */
  readonly named: readonly string[]
  /** Whether the editor works on copies that are put in place afterwards. */
  readonly isCopied: boolean
}

function maybeEditor(command: string, directory: string | null): Started | undefined {
  const found = sequenceOf(command, directory).flatMap(({ pipe, here }): Started[] => {
    const { words, isElsewhere } = withoutSudo(pipe[0]!)
    const all = pipe[0]!.words.map(({ value }) => value)
    const isCopied = all[0] === 'sudoedit' || (all[0] === 'sudo' && /^(?:-e|--edit)$/.test(all[1] ?? ''))
    const [name, ...rest] = isCopied ? ['sudoedit', ...words.filter((word) => word !== 'sudoedit')] : words
    if (pipe.length > 1 || name === undefined || !(isCopied || editors.test(name))) return []
    const from = isElsewhere ? null : here
    const named = rest.flatMap((word) =>
      word === undefined || options.test(word) ? [] : (maybeWholePath(word, from) ?? []),
    )
    return [{ here: from, named, isCopied }]
  })
  return found.length === 1 ? found[0] : undefined
}

/** Which file is meant by the path that an editor shows: one that was named to it, else the path itself. */
function maybeSavedPath(shown: string, { here, named, isCopied }: Started): string | null {
  const tail = shown.replace(/^(?:\.\.\.|<)/, '')
  const isCut = tail !== shown
  const whole = isCut ? undefined : maybeWholePath(tail, here)
  if (isCopied) {
    const copied = named.filter((path) => isCopyOf(path, tail))
    return copied.length === 1 ? copied[0]! : null
  }
  if (whole !== undefined && named.includes(whole)) return whole
  // A home may be shown as `~` or in full; the end of the path tells.
  const ends = named.filter(
    (path) => (isCut || /^~/.test(path) || /^~/.test(tail) || here === null) && endsAlike(path, tail),
  )
  if (ends.length === 1) return ends[0]!
  return whole ?? null
}

/** Whether the shorter of two paths is the end of the other, apart from a home at its beginning. */
function endsAlike(path: string, shown: string): boolean {
  const [a, b] = [path, shown].map((one) => one.replace(/^~[^/]*\//, ''))
  const [long, short] = a!.length >= b!.length ? [a!, b!] : [b!, a!]
  return (
    short !== '' &&
    (long === short || long.endsWith(`/${short}`) || (shown === short && long.endsWith(short)))
  )
}

/** sudo(8) names a copy after its file, with letters of its own before the ending. */
function isCopyOf(path: string, copy: string): boolean {
  const [name, copied] = [path, copy].map((one) => one.slice(one.lastIndexOf('/') + 1)) as [string, string]
  const dot = name.lastIndexOf('.')
  const [stem, ending] = dot > 0 ? [name.slice(0, dot), name.slice(dot)] : [name, '']
  return (
    copied === name ||
    (copied.startsWith(stem) && copied.endsWith(ending) && copied.length - name.length >= 6)
  )
}
