/** Photos that wait to be placed in the journal by the times at which they were taken. They stay while the panel is closed. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { CameraSays } from '../../../../shared/journal/pictures/camera.ts'
import { momentTaken } from '../../../../shared/journal/pictures/clock.ts'
import { toPictureMarkdown } from '../../../../shared/journal/pictures/named.ts'
import type { Blob as KeptBytes } from '../../../../shared/lab/model.ts'
import { compareMoments, type Moment } from '../../../../shared/lab/moment.ts'
import { writeEntries } from '../../../store/gestures.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { readPicture, toKeptBytes } from './pictureFiles.ts'

export interface Photo {
  readonly id: number
  readonly file: File
  readonly says: CameraSays
  /** Of the file as it lies on the disk, shown small. */
  readonly url: string
  readonly description: string
}

export interface PhotosState {
  readonly photos: readonly Photo[]
  /** How many files are still to be read. */
  readonly reading: number
  /** Seconds by which a camera's clock was ahead, by the camera's name. */
  readonly ahead: ReadonlyMap<string, number>
  readonly leavesOutPlace: boolean
  readonly isAdding: boolean
  /** What could not be taken, a sentence for each file. */
  readonly refusals: readonly string[]
}

const nothing: PhotosState = {
  photos: [],
  reading: 0,
  ahead: new Map(),
  leavesOutPlace: true,
  isAdding: false,
  refusals: [],
}

const settingOf = (camera: string): string => `camera clock: ${camera}`

export class Photos {
  readonly store: StoreApi<PhotosState> = createStore(() => nothing)
  private count = 0

  constructor(private readonly workspace: Workspace) {
    // Nothing crosses between labs.
    workspace.store.subscribe((now, before) => {
      if (now.lab?.id !== before.lab?.id) this.clear()
    })
  }

  /** Reads what the cameras say of files, one by one: their bytes are in memory only as long as that takes. */
  async add(files: readonly File[]): Promise<void> {
    const { store, workspace } = this
    const { lab } = workspace.state
    store.setState(({ reading }) => ({ reading: reading + files.length, refusals: [] }))
    const { cameraSays } = await import('../../../../shared/journal/pictures/camera.ts')
    for (const file of files) {
      const read = await readPicture(file)
      if (workspace.state.lab !== lab) return
      store.setState(({ reading }) => ({ reading: reading - 1 }))
      if (!read.ok) {
        store.setState(({ refusals }) => ({ refusals: [...refusals, read.sentence] }))
        continue
      }
      const says = cameraSays(read.bytes)
      await this.learnClock(says.camera)
      const url = URL.createObjectURL(file)
      const photo: Photo = { id: ++this.count, file, says, url, description: '' }
      store.setState(({ photos }) => ({ photos: [...photos, photo] }))
    }
  }

  private async learnClock(camera: string): Promise<void> {
    if (camera === '' || this.store.getState().ahead.has(camera)) return
    const kept = await this.workspace.state.lab?.findSetting(settingOf(camera))
    if (typeof kept === 'number' && Number.isFinite(kept)) this.setAhead(camera, kept)
  }

  /** Says how far a camera's clock was off, in seconds. It is remembered for a camera that has a name. */
  setAhead(camera: string, seconds: number): void {
    this.store.setState(({ ahead }) => ({ ahead: new Map(ahead).set(camera, seconds) }))
    if (camera !== '') void this.workspace.requireLab().keepSetting(settingOf(camera), seconds)
  }

  describe(id: number, description: string): void {
    this.store.setState(({ photos }) => ({
      photos: photos.map((photo) => (photo.id === id ? { ...photo, description } : photo)),
    }))
  }

  leaveOutPlace(leavesOutPlace: boolean): void {
    this.store.setState({ leavesOutPlace })
  }

  drop(id: number): void {
    const { photos } = this.store.getState()
    for (const photo of photos) if (photo.id === id) URL.revokeObjectURL(photo.url)
    this.store.setState({ photos: photos.filter((photo) => photo.id !== id) })
  }

  clear(): void {
    for (const { url } of this.store.getState().photos) URL.revokeObjectURL(url)
    this.store.setState({ ...nothing, leavesOutPlace: this.store.getState().leavesOutPlace })
  }

  /** Makes an observation of each photo, at its time, all by one act. @returns whether they stand */
  async write(): Promise<boolean> {
    const { store, workspace } = this
    const { photos, isAdding, leavesOutPlace, ahead } = store.getState()
    if (isAdding || photos.length === 0) return false
    store.setState({ isAdding: true, refusals: [] })
    try {
      const ready: { readonly moment: Moment; readonly blob: KeptBytes; readonly text: string }[] = []
      const refusals: string[] = []
      for (const photo of photos) {
        const kept = await toKept(photo.file, leavesOutPlace)
        if (!kept.ok) refusals.push(kept.sentence)
        else {
          const { blob } = kept
          const text = toPictureMarkdown({ ...photo, sha256: blob.sha256, name: photo.file.name })
          ready.push({ moment: timeOf(photo, ahead).moment, blob, text })
        }
      }
      // All or none: a batch of which some are missing would have to be sorted out by hand.
      if (refusals.length > 0) {
        store.setState({ refusals })
        return false
      }
      ready.sort((one, other) => compareMoments(one.moment, other.moment))
      const blobs = new Map(ready.map(({ blob }) => [blob.sha256, blob]))
      const words = ready.length === 1 ? 'One photo added.' : `${ready.length} photos added at their times.`
      const inputs = ready.map(
        ({ moment, text }) => ({ kind: 'observation', text, happened: moment }) as const,
      )
      const isDone = await writeEntries(workspace, inputs, [...blobs.values()], words)
      if (isDone) this.clear()
      return isDone
    } finally {
      store.setState({ isAdding: false })
    }
  }
}

type Kept =
  { readonly ok: true; readonly blob: KeptBytes } | { readonly ok: false; readonly sentence: string }

async function toKept(file: File, leavesOutPlace: boolean): Promise<Kept> {
  const read = await readPicture(file)
  if (!read.ok) return read
  const { withoutPlace } = await import('../../../../shared/journal/pictures/without-place.ts')
  const bytes = leavesOutPlace ? withoutPlace(read.bytes) : read.bytes
  if (bytes) return { ok: true, blob: await toKeptBytes(bytes, read.picture.mediaType) }
  return {
    ok: false,
    sentence: `“${file.name}” is damaged, so that nobody can say whether it holds the place where it was taken. Nothing was added yet: take it out of the list, or keep the places.`,
  }
}

/** How a photo's time is known. */
export type TimeFrom = 'camera' | 'camera without an offset' | 'file'

/** When a photo was taken: as its camera says, set right; else as the file was last written. */
export function timeOf(
  { says, file }: Pick<Photo, 'says' | 'file'>,
  ahead: ReadonlyMap<string, number>,
): { readonly moment: Moment; readonly from: TimeFrom } {
  const { taken, camera } = says
  const moment = taken && momentTaken(taken, ahead.get(camera) ?? 0, offsetAt)
  if (moment) return { moment, from: taken.offset === null ? 'camera without an offset' : 'camera' }
  const written = file.lastModified - new Date(file.lastModified).getTimezoneOffset() * 60_000
  return { moment: momentTaken({ local: written, offset: null }, 0, offsetAt)!, from: 'file' }
}

/** Minutes east of UTC on this machine, when the clock on the wall shows `local`. */
export function offsetAt(local: number): number {
  const wall = new Date(local)
  const here = new Date(
    wall.getUTCFullYear(),
    wall.getUTCMonth(),
    wall.getUTCDate(),
    wall.getUTCHours(),
    wall.getUTCMinutes(),
    wall.getUTCSeconds(),
  )
  return -Math.round(here.getTimezoneOffset())
}

const known = new WeakMap<Workspace, Photos>()

export function photosOf(workspace: Workspace): Photos {
  const photos = known.get(workspace) ?? new Photos(workspace)
  known.set(workspace, photos)
  return photos
}

/** Opens the panel, with files that are to be placed. */
export function openPhotos(workspace: Workspace, files: readonly File[]): void {
  workspace.set({ panel: { kind: 'photos' } })
  if (files.length > 0) void photosOf(workspace).add(files)
}
