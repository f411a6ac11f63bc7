/** Files that the person chooses in a browser: its picker, and what it gave, to be read when each one's turn comes. */
import {
  done,
  failed,
  notHeldFile,
  refusedFile,
  unreadFile,
  type ChosenFile,
  type HostAnswer,
  type HostArgument,
  type HostResult,
  type OpenedFile,
} from '../../shared/host.ts'
import {
  boundNotes,
  compareNames,
  folderBounds,
  isHiddenName,
  maybeSegments,
} from '../../shared/intake/folder-rules.ts'

export interface Picking {
  readonly accept?: readonly string[]
  readonly multiple?: boolean
  readonly isFolder?: boolean
}

/** Shows the browser's picker. No files when the person closed it. */
export function pickFiles(document: Document, picking: Picking): Promise<File[]> {
  const input = document.createElement('input')
  input.type = 'file'
  input.accept = (picking.accept ?? []).join(',')
  input.multiple = picking.multiple ?? false
  input.webkitdirectory = picking.isFolder ?? false
  input.hidden = true
  document.body.append(input)
  return new Promise<File[]>((resolve) => {
    input.addEventListener('change', () => resolve([...(input.files ?? [])]), { once: true })
    input.addEventListener('cancel', () => resolve([]), { once: true })
    input.click()
  }).finally(() => input.remove())
}

/** Reads a file up to a limit in bytes; one that cannot be read is a failure with a sentence. */
export async function readFile(file: File, name: string, limit: number): Promise<HostResult<OpenedFile>> {
  if (file.size > limit) return done(refusedFile(name, file.size, limit))
  try {
    return done({ kind: 'read', name, bytes: new Uint8Array(await file.arrayBuffer()) })
  } catch {
    return failed('not read', unreadFile(name))
  }
}

/** What the person chose in this page, each under a token, until the page goes. */
export class ChosenFiles {
  private readonly held = new Map<string, { readonly file: File; readonly name: string }>()

  constructor(
    private readonly document: Document,
    private readonly crypto: Crypto,
  ) {}

  async chooseFiles(argument: HostArgument<'chooseFiles'>): Promise<HostResult<HostAnswer<'chooseFiles'>>> {
    const files = await pickFiles(this.document, argument)
    if (files.length === 0) return done({ kind: 'cancelled' })
    return done({ kind: 'chosen', files: files.map((file) => this.hold(file, file.name)) })
  }

  async chooseFolder(): Promise<HostResult<HostAnswer<'chooseFolder'>>> {
    const files = await pickFiles(this.document, { isFolder: true, multiple: true })
    const first = files[0]
    // A picker that was closed and a folder without files look alike here.
    if (first === undefined) return done({ kind: 'cancelled' })
    const { found, notes } = withinBounds(files)
    const name = first.webkitRelativePath.split('/')[0] ?? ''
    return done({ kind: 'chosen', name, files: found.map((one) => this.hold(one.file, one.name)), notes })
  }

  async readChosenFile({
    token,
    limitBytes,
  }: HostArgument<'readChosenFile'>): Promise<HostResult<OpenedFile>> {
    const chosen = this.held.get(token)
    if (chosen === undefined) return failed('not read', notHeldFile)
    return readFile(chosen.file, chosen.name, limitBytes)
  }

  async readChosenPart({
    token,
    offset,
    length,
  }: HostArgument<'readChosenPart'>): Promise<HostResult<HostAnswer<'readChosenPart'>>> {
    const chosen = this.held.get(token)
    if (chosen === undefined) return failed('not read', notHeldFile)
    try {
      const part = await chosen.file.slice(offset, offset + length).arrayBuffer()
      return done({ bytes: new Uint8Array(part) })
    } catch {
      return failed('not read', unreadFile(chosen.name))
    }
  }

  private hold(file: File, name: string): ChosenFile {
    const token = Array.from(this.crypto.getRandomValues(new Uint8Array(16)), (byte) =>
      byte.toString(16).padStart(2, '0'),
    ).join('')
    this.held.set(token, { file, name })
    return { token, name, size: file.size, modifiedMs: file.lastModified }
  }
}

/** A folder's files by their relative names, without the folder's own name, as far as folders are looked at. */
function withinBounds(files: readonly File[]): {
  found: readonly { readonly file: File; readonly name: string }[]
  notes: string[]
} {
  const named = files
    .map((file) => ({ file, name: file.webkitRelativePath.split('/').slice(1).join('/') }))
    .filter(({ name }) => maybeSegments(name)?.some(isHiddenName) === false)
    .sort((one, other) => compareNames(one.name, other.name))
  const shallow = named.filter(({ name }) => name.split('/').length <= folderBounds.depth + 1)
  const notes = boundNotes({
    files: shallow.length > folderBounds.files,
    depth: shallow.length < named.length,
  })
  return { found: shallow.slice(0, folderBounds.files), notes: [...notes] }
}
