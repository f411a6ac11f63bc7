/**
 * The drop folder of the open lab: what a browser saves there comes in as it appears, each file once. Several windows may
 * show the lab, so they look one after the other, and the second finds that all is taken.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { DropFile } from '../../../../shared/host.ts'
import { maxFileBytes } from '../../../../shared/intake/limits.ts'
import type { OpenLab } from '../../../db/lab.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { unknownOf, type IntakeItem, type ItemEnd } from '../intakeQueue.ts'
import { placeNow, takeItems, toLoaded } from '../taking.ts'
import {
  earlierOf,
  filesToTake,
  isDropMemory,
  memoryFor,
  noMemory,
  withoutGone,
  withSeen,
  type DropMemory,
} from './dropMemory.ts'

export type DropFolderState =
  | { readonly kind: 'unknown' }
  | { readonly kind: 'none' }
  /** This host has none; the sentence says what to do instead. */
  | { readonly kind: 'unsupported'; readonly sentence: string }
  | {
      readonly kind: 'folder'
      readonly path: string
      /** What is wrong with it, or what was left out, in sentences. */
      readonly notes: readonly string[]
    }

const settingKey = 'drop folder taken'
/** What was taken is written down this often while many files come in, in milliseconds. */
const writeEvery = 500

export class DropFolderWatch {
  readonly store: StoreApi<DropFolderState> = createStore<DropFolderState>(() => ({ kind: 'unknown' }))
  private looking: Promise<void> | null = null
  private isWanted = false

  constructor(private readonly workspace: Workspace) {
    workspace.host.onDropFolderChanged((lab) => {
      if (lab === workspace.state.lab?.id) this.look()
    })
  }

  /** Looks into the folder and takes in what is new, unless it is being done. */
  look(): void {
    this.isWanted = true
    this.looking ??= this.lookAsWanted().finally(() => {
      this.looking = null
    })
  }

  /** Lets the person name the folder. */
  async choose(): Promise<void> {
    const { lab } = placeNow(this.workspace)
    const result = await this.workspace.host.chooseDropFolder({ lab: lab.id })
    if (!result.ok) this.workspace.say('problem', result.sentence)
    else if (result.value.kind === 'chosen') this.look()
  }

  /** Forgets the folder. Its files and what came of them stay. */
  async leave(): Promise<void> {
    const { lab } = placeNow(this.workspace)
    const result = await this.workspace.host.leaveDropFolder({ lab: lab.id })
    if (result.ok) this.store.setState({ kind: 'none' }, true)
    else this.workspace.say('problem', result.sentence)
  }

  private async lookAsWanted(): Promise<void> {
    while (this.isWanted) {
      this.isWanted = false
      const { lab, view } = this.workspace.state
      if (!lab || !view) return
      try {
        await navigator.locks.request(`stillroom drop folder ${lab.id}`, () => this.lookAlone(lab))
      } catch (error) {
        // A lab that was closed meanwhile cannot be read; what is left is taken when it is opened again.
        if (this.workspace.state.lab === lab) throw error
      }
    }
  }

  private async lookAlone(lab: OpenLab): Promise<void> {
    const { host } = this.workspace
    const found = await host.findDropFolder({ lab: lab.id })
    if (!found.ok) return this.store.setState({ kind: 'unsupported', sentence: found.sentence }, true)
    if (found.value.kind === 'none') return this.store.setState({ kind: 'none' }, true)
    const { path } = found.value
    const listed = await host.listDropFolder({ lab: lab.id })
    const show = (notes: readonly string[]): void =>
      this.store.setState({ kind: 'folder', path, notes }, true)
    if (!listed.ok) return show([listed.sentence])
    if (listed.value.kind === 'none') return this.store.setState({ kind: 'none' }, true)
    if (listed.value.kind === 'unreachable') return show([listed.value.sentence])
    show(listed.value.notes)
    await this.take(lab, path, listed.value.files)
  }

  private async take(lab: OpenLab, path: string, files: readonly DropFile[]): Promise<void> {
    const kept = await lab.findSetting(settingKey)
    const memory = new MemoryWriter(lab, memoryFor(isDropMemory(kept) ? kept : noMemory, path))
    const wanted = filesToTake(memory.now, files)
    // Whoever went elsewhere while the folder was listed gets the files when they come back.
    if (wanted.length === 0 || this.workspace.state.lab !== lab || !this.workspace.state.view) return
    memory.change(withoutGone(memory.now, files))
    const byItem = new Map(wanted.map((file) => [this.toItem(lab, file, memory.now), file]))
    const known = new Set(memory.now.digests)
    await takeItems(this.workspace, [...byItem.keys()], {
      isQuiet: true,
      wasTaken: (sha256) => known.has(sha256),
      onEnd: (item, end, sha256) => {
        const isOver = end.kind === 'cancelled' || (end.kind === 'failed' && this.workspace.state.lab !== lab)
        if (!isOver) memory.change(withSeen(memory.now, byItem.get(item)!, sourceOf(end), sha256))
      },
    })
    await memory.write()
  }

  private toItem(lab: OpenLab, { name }: DropFile, memory: DropMemory): IntakeItem {
    const load = async () =>
      toLoaded(await this.workspace.host.readDropFile({ lab: lab.id, name, limitBytes: maxFileBytes }), name)
    return { ...unknownOf, name, task: load, wayIn: 'drop folder', again: earlierOf(memory, name) }
  }
}

function sourceOf(end: ItemEnd): ReturnType<typeof earlierOf> {
  return 'source' in end ? (end.source?.id ?? null) : null
}

/** Writes the memory down now and then, so that a crash costs little. What is taken twice then is known by its bytes. */
class MemoryWriter {
  private timer: ReturnType<typeof setTimeout> | null = null

  constructor(
    private readonly lab: OpenLab,
    public now: DropMemory,
  ) {}

  change(memory: DropMemory): void {
    this.now = memory
    this.timer ??= setTimeout(() => void this.write().catch(() => undefined), writeEvery)
  }

  async write(): Promise<void> {
    if (this.timer !== null) clearTimeout(this.timer)
    this.timer = null
    await this.lab.keepSetting(settingKey, this.now)
  }
}

const watches = new WeakMap<Workspace, DropFolderWatch>()

/** The window's watch over drop folders. */
export function dropFolderOf(workspace: Workspace): DropFolderWatch {
  const known = watches.get(workspace)
  if (known) return known
  const watch = new DropFolderWatch(workspace)
  watches.set(workspace, watch)
  return watch
}
