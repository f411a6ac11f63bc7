/**
 * Rewriting the store: after striking out, the bytes of what was struck still lie in the files of Chromium's databases, which
 * only append. So the store is written out, its files are deleted, and it is read back. Without Electron.
 *
 * At every moment one of the two is whole, and a state file says which one counts; it is replaced by renaming, after its
 * bytes are on the disk:
 *
 *   writing     the old store counts. What was written out is deleted at the next start.
 *   written     all is written out, on the disk and read back once. At the next start, before Chromium opens the profile,
 *               its storage folders are renamed away. Until the last of them is, they could be renamed back.
 *   cleared     what was written out counts. The page fills new databases from it, as often as it takes.
 *   read back   the new store counts. What was written out is deleted.
 */
import { createHash } from 'node:crypto'
import { join } from 'node:path'
import * as v from 'valibot'
import type { StoreFile } from '../shared/host.ts'
import { toReason } from './sentences.ts'
import type { StoreDisk } from './store-disk.ts'

/**
 * Folders of the profile in which Chromium keeps what a page stored or showed, and the originals that were opened. The
 * databases come first: where they cannot be moved, nothing was changed.
 */
export const storageFolders = [
  'IndexedDB',
  'Local Storage',
  'Session Storage',
  'WebStorage',
  'File System',
  'Service Worker',
  'databases',
  'blob_storage',
  'shared_proto_db',
  'Shared Dictionary',
  'Cache',
  'Code Cache',
  'GPUCache',
  'DawnCache',
  'DawnGraphiteCache',
  'DawnWebGPUCache',
  'Crashpad',
  'opened-originals',
] as const

const state = v.object({
  phase: v.picklist(['writing', 'written', 'cleared', 'read back']),
  files: v.array(v.object({ name: v.string(), size: v.number(), sha256: v.string() })),
  /** Folders that could not be deleted. */
  left: v.array(v.string()),
})
type State = Readonly<v.InferOutput<typeof state>>

/** Where rewriting stands. `told`: what the person is to know of an earlier run. */
export type Standing =
  | { readonly kind: 'none' }
  | { readonly kind: 'begun' }
  | { readonly kind: 'waiting'; readonly files: readonly StoreFile[] }
  | { readonly kind: 'told'; readonly isDone: boolean; readonly sentence: string }

/** Bytes that are hashed at once. */
const pieceBytes = 1024 * 1024

export class Rewriting {
  private standing: Standing = { kind: 'none' }
  /** All is written out: the next start of the program goes on, whatever this one still does. */
  private isWritten = false
  private readonly folder: string
  private readonly old: string
  /** What is being deleted is called this first, so that no half-deleted state is ever read. */
  private readonly gone: string

  constructor(
    private readonly profile: string,
    private readonly disk: StoreDisk,
  ) {
    this.folder = join(profile, 'rewriting')
    this.old = join(this.folder, 'old')
    this.gone = join(profile, 'rewriting-gone')
  }

  /** Goes on with what an earlier run left. To be called before Chromium opens anything in the profile. */
  resume(): void {
    this.deleteGone()
    if (!this.disk.has(this.folder)) return
    const kept = this.readState()
    if (kept === 'unreadable') this.setAside()
    else if (kept === null || kept.phase === 'writing') this.drop(interrupted)
    else if (kept.phase === 'written') this.moveAway(kept)
    else if (kept.phase === 'cleared') this.deleteOld(kept)
    else this.drop(doneSentence(kept.left), true)
  }

  /** Where it stands. What is told is told once. */
  find(): Standing {
    const { standing } = this
    if (standing.kind === 'told') this.standing = { kind: 'none' }
    return standing
  }

  get isUnderWay(): boolean {
    return this.standing.kind === 'begun' || this.standing.kind === 'waiting'
  }

  get canLeave(): boolean {
    return this.standing.kind === 'begun' && !this.isWritten
  }

  /** @throws what the system answers; then nothing has begun */
  begin(): void {
    if (this.standing.kind === 'waiting') throw new Error('a store waits to be read back')
    this.discard()
    // What an earlier one left must not be taken for this one's.
    if (this.disk.has(this.folder)) throw Object.assign(new Error('it is in use'), { code: 'EBUSY' })
    this.disk.makeFolder(this.folder)
    this.keep({ phase: 'writing', files: [], left: [] })
    this.standing = { kind: 'begun' }
  }

  /** @throws what the system answers */
  write(name: string, offset: number, bytes: Uint8Array): void {
    this.requireOpen()
    this.disk.write(this.pathOf(name), offset, bytes)
  }

  /**
   * Makes sure that all is on the disk as it was meant. From then on the old store is no more than a rest.
   * @returns the name of the first file that is not as it was meant; null where all are
   * @throws what the system answers
   */
  finish(files: readonly StoreFile[]): string | null {
    this.requireOpen()
    for (const { name } of files) this.disk.sync(this.pathOf(name))
    const wrong = this.findWrong(files)
    if (wrong !== null) return wrong
    this.keep({ phase: 'written', files: [...files], left: [] })
    this.isWritten = true
    return null
  }

  /** Gives up while the old store counts; too late once all is written out. */
  leave(): void {
    this.requireOpen()
    this.standing = { kind: 'none' }
    this.discard()
  }

  /** @throws what the system answers */
  read(name: string, offset: number, length: number): Uint8Array {
    this.require('waiting')
    return this.disk.read(this.pathOf(name), offset, length)
  }

  /** From now on the new store counts. @returns what the person is told @throws what the system answers */
  end(): string {
    this.require('waiting')
    const kept = this.readState()
    if (kept === null || kept === 'unreadable') throw new Error('the state of rewriting is gone')
    this.keep({ ...kept, phase: 'read back' })
    this.standing = { kind: 'none' }
    this.discard()
    return doneSentence(kept.left)
  }

  private moveAway(kept: State): void {
    if (this.findWrong(kept.files) !== null) return this.goBack('what was written out is damaged')
    const left: string[] = []
    try {
      this.disk.makeFolder(this.old)
    } catch (error) {
      return this.goBack(toReason(error))
    }
    for (const name of storageFolders) {
      try {
        this.moveOne(name)
      } catch (error) {
        // The old databases are all where they were as long as none has been moved.
        if (name === storageFolders[0]) return this.goBack(toReason(error))
        left.push(name)
      }
    }
    const cleared: State = { ...kept, phase: 'cleared', left }
    this.keep(cleared)
    this.deleteOld(cleared)
  }

  private moveOne(name: string): void {
    const from = join(this.profile, name)
    if (!this.disk.has(from)) return
    // One of this name was moved before a crash; nothing is overwritten before all count as cleared.
    let to = join(this.old, name)
    while (this.disk.has(to)) to += '+'
    this.disk.rename(from, to)
  }

  /** The old store counts again: what was moved is put back. */
  private goBack(why: string): void {
    for (const name of storageFolders) {
      const [from, to] = [join(this.old, name), join(this.profile, name)]
      if (!this.disk.has(from)) continue
      if (this.disk.has(to)) this.disk.rename(to, join(this.old, `${name}+`))
      this.disk.rename(from, to)
    }
    this.drop(`${interrupted} The reason: ${why}.`)
  }

  private deleteOld(kept: State): void {
    let { left } = kept
    try {
      this.disk.remove(this.old)
    } catch {
      left = [...left, 'rewriting/old']
    }
    if (left !== kept.left) this.keep({ ...kept, left })
    this.standing = { kind: 'waiting', files: kept.files }
  }

  private drop(sentence: string, isDone = false): void {
    this.standing = { kind: 'told', isDone, sentence }
    this.discard()
  }

  private discard(): void {
    if (!this.disk.has(this.folder)) return
    try {
      this.disk.remove(this.gone)
      this.disk.rename(this.folder, this.gone)
    } catch {
      // It is met again at the next start, in the same state.
      return
    }
    this.deleteGone()
  }

  private deleteGone(): void {
    try {
      if (this.disk.has(this.gone)) this.disk.remove(this.gone)
    } catch {
      // It is tried again at the next start.
    }
  }

  /** Nobody can say which store counts, so nothing is deleted. */
  private setAside(): void {
    let aside = `${this.folder}-kept`
    while (this.disk.has(aside)) aside += '+'
    this.disk.rename(this.folder, aside)
    const sentence = `Rewriting the store left something that cannot be read. Nothing was deleted: it lies in ${aside}. If labs are missing here, the lab files in that folder can be brought in.`
    this.standing = { kind: 'told', isDone: false, sentence }
  }

  private findWrong(files: readonly StoreFile[]): string | null {
    return files.find((file) => !this.isWhole(file))?.name ?? null
  }

  private isWhole({ name, size, sha256 }: StoreFile): boolean {
    const path = this.pathOf(name)
    if (!this.disk.has(path)) return false
    const hash = createHash('sha256')
    let at = 0
    for (;;) {
      const piece = this.disk.read(path, at, pieceBytes)
      if (piece.byteLength === 0) break
      hash.update(piece)
      at += piece.byteLength
    }
    return at === size && hash.digest('hex') === sha256
  }

  private readState(): State | 'unreadable' | null {
    const path = join(this.folder, 'state.json')
    if (!this.disk.has(path)) return null
    try {
      const text = Buffer.from(this.disk.read(path, 0, pieceBytes)).toString('utf8')
      const parsed = v.safeParse(state, JSON.parse(text))
      return parsed.success ? parsed.output : 'unreadable'
    } catch {
      return 'unreadable'
    }
  }

  private keep(next: State): void {
    const beside = join(this.folder, 'state.part')
    this.disk.write(beside, 0, Buffer.from(JSON.stringify(next)))
    this.disk.sync(beside)
    this.disk.rename(beside, join(this.folder, 'state.json'))
  }

  private pathOf(name: string): string {
    return join(this.folder, `out-${name}`)
  }

  private requireOpen(): void {
    this.require('begun')
    if (this.isWritten) throw new Error('all is written out already')
  }

  private require(kind: Standing['kind']): void {
    if (this.standing.kind !== kind) throw new Error(`rewriting is not ${kind} but ${this.standing.kind}`)
  }
}

const interrupted =
  'Rewriting the store was interrupted before anything was changed. The labs are as they were, and the files still hold what was struck out: start it again from the panel of the seal.'

function doneSentence(left: readonly string[]): string {
  return left.length === 0
    ? 'The store was rewritten and compared record for record: its files hold nothing of what was struck out.'
    : `The store was rewritten and compared record for record, but some old files could not be deleted (${left.join(', ')}). They may hold what was struck out. Close what uses them and rewrite the store again.`
}
