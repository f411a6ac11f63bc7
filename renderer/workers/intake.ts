/** Taking in text away from the screen: reading, cleaning and digesting happen in a worker, so that typing never waits. */
import type { Bookmarks } from '../../shared/intake/bookmarks/link.ts'
import type { Refused, TakenIn } from '../../shared/intake/taken.ts'

/** What is to be taken in. A file is read in the worker; bytes that the host has read already move over to it. */
export type IntakeTask =
  | { readonly kind: 'file'; readonly name: string; readonly file: Blob }
  | { readonly kind: 'bytes'; readonly name: string; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly kind: 'html'; readonly name: string; readonly html: string; readonly address: string | null }
  | { readonly kind: 'text'; readonly name: string; readonly text: string }

/** What was taken in, one document or many links (`kind: 'bookmarks'`), with the original bytes and their lower-case hex SHA-256 (FIPS 180-4). */
export type IntakeAnswer = (TakenIn & Original) | (Bookmarks & Original) | Refused | Unreadable

export interface Original {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly sha256: string
}

/** The machine could not give the file's bytes. */
export interface Unreadable {
  readonly ok: false
  readonly code: 'not-read'
  readonly sentence: string
}

/** What the worker says: how far it is, the answer, or that it broke. */
export type IntakeMessage =
  | { readonly kind: 'progress'; readonly progress: IntakeProgress }
  | { readonly kind: 'answer'; readonly answer: IntakeAnswer }
  | { readonly kind: 'broken'; readonly reason: string }

export interface IntakeProgress {
  readonly doing: 'reading' | 'cleaning'
  /** 0 to 1, or null while that is not known. */
  readonly share: number | null
  /** The page of a paged document that is being read: its place from 1 on, and how many there are. */
  readonly page?: { readonly at: number; readonly of: number }
}

/** Work under way. */
export interface Intaking {
  /** Rejects with IntakeCancelled after `cancel`, with another error only where the program is wrong. */
  readonly answer: Promise<IntakeAnswer>
  cancel(): void
}

/** The person called it off. Never shown. */
export class IntakeCancelled extends Error {
  constructor() {
    super('taking in was called off')
    this.name = 'IntakeCancelled'
  }
}

/** How things are taken in; a parameter of whoever needs it, so that a test can do without workers. */
export type TakeIn = (task: IntakeTask, onProgress: (progress: IntakeProgress) => void) => Intaking

/** The part of a worker that is needed here. */
export interface IntakeWorker {
  onmessage: ((event: { readonly data: IntakeMessage }) => void) | null
  onerror: ((event: { readonly message: string }) => void) | null
  postMessage(task: IntakeTask, options: { transfer: ArrayBuffer[] }): void
  terminate(): void
}

const startWorker = (): IntakeWorker =>
  new Worker(new URL('./intake.worker.ts', import.meta.url), { type: 'module' }) as unknown as IntakeWorker

/** Takes one thing in, in a worker of its own that ends with the work. */
export function takeInByWorker(
  task: IntakeTask,
  onProgress: (progress: IntakeProgress) => void,
  start: () => IntakeWorker = startWorker,
): Intaking {
  const worker = start()
  let cancel = (): void => undefined
  const answer = new Promise<IntakeAnswer>((resolve, reject) => {
    cancel = () => reject(new IntakeCancelled())
    worker.onmessage = ({ data }) => {
      if (data.kind === 'progress') onProgress(data.progress)
      else if (data.kind === 'answer') resolve(data.answer)
      else reject(new Error(data.reason))
    }
    worker.onerror = ({ message }) => reject(new Error(message || 'the worker could not start'))
    worker.postMessage(task, { transfer: task.kind === 'bytes' ? [task.bytes.buffer] : [] })
  }).finally(() => worker.terminate())
  return { answer, cancel: () => cancel() }
}
