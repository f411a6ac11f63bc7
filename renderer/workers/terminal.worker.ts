/** Reads one log of a terminal. */
import './windowOfWorker.ts'
import { LogDriver } from '../../shared/journal/terminal/driver.ts'
import { Measuring } from '../../shared/journal/terminal/formats/sessions.ts'
import type { LogAnswer, LogRequest } from './terminal.ts'

const say = (answer: LogAnswer): void => postMessage(answer)

/** Bytes of a finished log that are interpreted between two words about how far it is. */
const STRIDE = 256 * 1024

let driver: LogDriver | null = null
let last: Promise<void> = Promise.resolve()

addEventListener('message', ({ data }: MessageEvent<LogRequest>) => {
  // What is said of the size must not wait behind what waits for it.
  if (data.kind === 'size') void driver?.setSize(data.size).catch(fail)
  else last = last.then(() => work(data)).catch(fail)
})

function fail(error: unknown): void {
  say({ kind: 'broken', reason: String(error) })
}

async function work(request: LogRequest): Promise<void> {
  switch (request.kind) {
    case 'live': {
      const { name, isTimed, size } = request
      driver = new LogDriver({ name, isLive: true, isTimed, measured: null }, size, say)
      return
    }
    case 'finished':
      return readFinished(request)
    case 'bytes':
      await driver?.push(request.bytes, request.arrivedMs)
      return say({ kind: 'taken' })
    case 'timing':
      await driver?.pushTiming(request.bytes)
      return say({ kind: 'taken' })
    case 'end':
      await driver?.end()
      return say({ kind: 'ended' })
    case 'size':
      return
  }
}

async function readFinished({ name, log, timing, size }: LogRequest & { kind: 'finished' }): Promise<void> {
  const measuring = new Measuring()
  if (timing) measuring.push(log)
  const measured = timing ? measuring.end() : null
  driver = new LogDriver({ name, isLive: false, isTimed: timing !== null, measured }, size, say)
  if (timing) await driver.pushTiming(timing)
  for (let from = 0; from < log.length; from += STRIDE) {
    await driver.push(log.subarray(from, from + STRIDE), null)
    say({ kind: 'share', share: Math.min(1, (from + STRIDE) / log.length) })
  }
  await driver.end()
  say({ kind: 'ended' })
}
