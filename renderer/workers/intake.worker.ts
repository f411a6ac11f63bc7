/** Reads, cleans and digests one thing, away from the screen. */
import { intakeAnyFile, type FileIntake } from '../../shared/intake/any-file.ts'
import { intakePastedHtml } from '../../shared/intake/html.ts'
import { intakePastedText } from '../../shared/intake/text.ts'
import type { IntakeAnswer, IntakeMessage, IntakeProgress, IntakeTask } from './intake.ts'
import { pdfWays } from './pdf.ts'

const say = (message: IntakeMessage, transfer: ArrayBuffer[] = []): void => postMessage(message, { transfer })
const tell = (progress: IntakeProgress): void => say({ kind: 'progress', progress })

const tellPage = (at: number, of: number): void =>
  tell({ doing: 'cleaning', share: (at - 1) / of, page: { at, of } })

addEventListener('message', ({ data }: MessageEvent<IntakeTask>) => {
  void take(data).then(
    (answer) => say({ kind: 'answer', answer }, answer.ok ? [answer.bytes.buffer] : []),
    (error: unknown) => say({ kind: 'broken', reason: String(error) }),
  )
})

async function take(task: IntakeTask): Promise<IntakeAnswer> {
  const bytes = await bytesOf(task)
  if (!bytes)
    return {
      ok: false,
      code: 'not-read',
      sentence: `“${task.name}” could not be read. Nothing was added. See whether the file is still there and may be read.`,
    }
  tell({ doing: 'cleaning', share: null })
  const intake = await clean(task, bytes)
  return intake.ok ? { ...intake, bytes, sha256: await sha256Of(bytes) } : intake
}

async function clean(task: IntakeTask, bytes: Uint8Array): Promise<FileIntake> {
  switch (task.kind) {
    case 'file':
    case 'bytes':
      return intakeAnyFile(task.name, bytes, pdfWays(tellPage))
    case 'html':
      return intakePastedHtml(task.name, task.html, task.address)
    case 'text':
      return intakePastedText(task.name, task.text)
  }
}

/** The original bytes; of what was pasted, its UTF-8 form. Null where the machine does not give them. */
async function bytesOf(task: IntakeTask): Promise<Uint8Array<ArrayBuffer> | null> {
  if (task.kind === 'bytes') return task.bytes
  if (task.kind === 'file') return readFile(task.file).catch(() => null)
  return new TextEncoder().encode(task.kind === 'html' ? task.html : task.text)
}

async function readFile(file: Blob): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = new Uint8Array(file.size)
  const reader = file.stream().getReader()
  let at = 0
  for (;;) {
    const { done, value } = await reader.read()
    if (done) return at === bytes.length ? bytes : bytes.slice(0, at)
    bytes.set(value, at)
    at += value.length
    tell({ doing: 'reading', share: at / file.size })
  }
}

/** Lower-case hex SHA-256 (FIPS 180-4). */
async function sha256Of(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
