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

/** The machine could not give the file's bytes, or reading them took longer than is waited for. */
export interface Unreadable {
  readonly ok: false
  readonly code: 'not-read' | 'too-long'
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

/** What a worker that takes in many things keeps to. Times in milliseconds. */
export interface IntakeBounds {
  /** So long one thing may take; then it is refused, and the worker that is stuck on it ends. */
  readonly longest: number
  /** So long an idle worker stays, since starting one costs more than reading a small file. */
  readonly idle: number
}

const usualBounds: IntakeBounds = { longest: 120_000, idle: 15_000 }

/**
 * Takes things in, one at a time, in one worker. The worker ends where a thing is called off, takes too long or breaks it,
 * and after it was idle; the next thing gets a new one.
 */
export function takeInByOneWorker(
  start: () => IntakeWorker = startWorker,
  { longest, idle }: IntakeBounds = usualBounds,
): TakeIn {
  let worker: IntakeWorker | null = null
  let idling: ReturnType<typeof setTimeout> | undefined
  const end = (): void => {
    worker?.terminate()
    worker = null
  }
  return (task, onProgress) => {
    clearTimeout(idling)
    const one = (worker ??= start())
    let cancel = (): void => undefined
    let timer: ReturnType<typeof setTimeout> | undefined
    const answer = new Promise<IntakeAnswer>((resolve, reject) => {
      const giveUp = (error: Error): void => {
        end()
        reject(error)
      }
      cancel = () => giveUp(new IntakeCancelled())
      timer = setTimeout(() => {
        end()
        resolve(tookTooLong(task.name, longest))
      }, longest)
      one.onmessage = ({ data }) => {
        if (data.kind === 'progress') onProgress(data.progress)
        else if (data.kind === 'answer') resolve(data.answer)
        else giveUp(new Error(data.reason))
      }
      one.onerror = ({ message }) => giveUp(new Error(message || 'the worker could not start'))
      one.postMessage(task, { transfer: task.kind === 'bytes' ? [task.bytes.buffer] : [] })
    }).finally(() => {
      cancel = () => undefined
      clearTimeout(timer)
      if (worker === one) idling = setTimeout(end, idle)
    })
    return { answer, cancel: () => cancel() }
  }
}

function tookTooLong(name: string, longest: number): Unreadable {
  const sentence = `“${name}” took longer than ${Math.round(longest / 1000)} seconds to read, so reading it was given up. Nothing was added and the file is unchanged: split it, or take the part that you need.`
  return { ok: false, code: 'too-long', sentence }
}
