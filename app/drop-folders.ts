/** The drop folders of all labs: which one each lab has, kept in a small file beside the labs. Without Electron. */
import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import * as v from 'valibot'
import { done, failed, type HostAnswer, type HostArgument, type HostResult } from '../shared/host.ts'
import { isHiddenName } from '../shared/intake/folder-rules.ts'
import { readInside, writeWhole } from './disk.ts'
import { DropFolder, usualTimings, type Timings } from './drop-folder.ts'
import { toSentence } from './sentences.ts'

const kept = v.object({ folders: v.record(v.string(), v.string()) })

export class DropFolders {
  private readonly folders: Map<string, string>
  private readonly watched = new Map<string, DropFolder>()
  private writing: Promise<void> = Promise.resolve()

  /**
   * @param file where they are kept
   * @param tell called with a lab's id when its folder has changed
   */
  constructor(
    private readonly file: string,
    private readonly tell: (lab: string) => void,
    private readonly timings: Timings = usualTimings,
  ) {
    this.folders = readKept(file)
  }

  /** Remembers a folder that the person chose for a lab. */
  async choose(lab: string, path: string): Promise<HostResult<HostAnswer<'chooseDropFolder'>>> {
    const before = this.folders.get(lab)
    this.folders.set(lab, path)
    try {
      await this.keep()
    } catch (error) {
      this.restore(lab, before)
      return failed('not written', toSentence('The drop folder could not be remembered', error))
    }
    this.stopUnused()
    this.watch(path)
    return done({ kind: 'chosen', name: nameOf(path), path })
  }

  async find({ lab }: HostArgument<'findDropFolder'>): Promise<HostResult<HostAnswer<'findDropFolder'>>> {
    const path = this.folders.get(lab)
    if (path === undefined) return done({ kind: 'none' })
    const { kind } = await this.watch(path).look()
    return done({ kind: 'folder', name: nameOf(path), path, isReachable: kind === 'listed' })
  }

  async leave({ lab }: HostArgument<'leaveDropFolder'>): Promise<HostResult<null>> {
    const before = this.folders.get(lab)
    this.folders.delete(lab)
    try {
      await this.keep()
    } catch (error) {
      this.restore(lab, before)
      return failed('not written', toSentence('The drop folder could not be forgotten', error))
    }
    this.stopUnused()
    return done(null)
  }

  async list({ lab }: HostArgument<'listDropFolder'>): Promise<HostResult<HostAnswer<'listDropFolder'>>> {
    const path = this.folders.get(lab)
    if (path === undefined) return done({ kind: 'none' })
    const look = await this.watch(path).list()
    if (look.kind === 'listed') return done({ ...look, files: [...look.files], notes: [...look.notes] })
    const sentence = `The drop folder “${path}” cannot be read at the moment: ${look.reason}. Nothing was lost; it goes on by itself when the folder is back. Or choose another folder.`
    return done({ kind: 'unreachable', path, sentence })
  }

  async read({
    lab,
    name,
    limitBytes,
  }: HostArgument<'readDropFile'>): Promise<HostResult<HostAnswer<'readDropFile'>>> {
    const path = this.folders.get(lab)
    if (path === undefined || name.split('/').some(isHiddenName)) {
      const why = path === undefined ? 'this lab has no drop folder' : 'hidden files are left alone'
      const sentence = `“${name}” was not read, because ${why}. Nothing was changed. Choose the file or the folder yourself to take it in.`
      return failed('not read', sentence)
    }
    try {
      return done(await readInside(path, name, limitBytes))
    } catch (error) {
      return failed('not read', toSentence(`“${name}” could not be read from the drop folder`, error))
    }
  }

  /** Ends all watching. */
  stop(): void {
    for (const folder of this.watched.values()) folder.stop()
    this.watched.clear()
  }

  private watch(path: string): DropFolder {
    const watched = this.watched.get(path)
    if (watched !== undefined) return watched
    const folder = new DropFolder(path, () => this.tellLabsOf(path), this.timings)
    this.watched.set(path, folder)
    folder.start()
    return folder
  }

  private tellLabsOf(path: string): void {
    for (const [lab, folder] of this.folders) if (folder === path) this.tell(lab)
  }

  private stopUnused(): void {
    const used = new Set(this.folders.values())
    for (const [path, folder] of this.watched) {
      if (used.has(path)) continue
      folder.stop()
      this.watched.delete(path)
    }
  }

  private restore(lab: string, path: string | undefined): void {
    if (path === undefined) this.folders.delete(lab)
    else this.folders.set(lab, path)
  }

  /** One write after the other, each of all that is known then. */
  private keep(): Promise<void> {
    const write = (): Promise<void> => {
      const text = JSON.stringify({ folders: Object.fromEntries(this.folders) }, null, 2)
      return writeWhole(this.file, new TextEncoder().encode(text))
    }
    const written = this.writing.then(write)
    this.writing = written.catch(() => undefined)
    return written
  }
}

function nameOf(path: string): string {
  return basename(path) || path
}

/** Without a file, and from one that cannot be read as such, no folder: the person then chooses it again. */
function readKept(file: string): Map<string, string> {
  try {
    const parsed = v.safeParse(kept, JSON.parse(readFileSync(file, 'utf8')))
    return new Map(parsed.success ? Object.entries(parsed.output.folders) : [])
  } catch {
    return new Map()
  }
}
