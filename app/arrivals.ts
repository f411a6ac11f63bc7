/** What comes from outside while no dialog is open. It waits until a window takes it, and one window takes each. */
import { app, BrowserWindow } from 'electron'
import {
  arrivedChannel,
  done,
  largestArrival,
  type Arrival,
  type HostAnswer,
  type HostResult,
} from '../shared/host.ts'
import { arrivedOf, beyond, type Arrived } from './arriving.ts'
import { holdFile } from './chosen.ts'
import type { Words } from './words.ts'

let waiting: Arrived[] = []
/** Looking at the disk takes time; what came first is still first. */
let looking: Promise<void> = Promise.resolve()

/** Takes in what some words name, and tells a window about it. */
export function offerWords(words: Words): void {
  if (words.words.length === 0) return
  looking = looking.then(async () => {
    const room = largestArrival - waiting.length
    const arrived = room > 0 ? await arrivedOf(words, room) : [beyond(words.words.length)]
    waiting.push(...arrived)
    tellWindow()
  })
}

/** Listens to macOS, which names files and addresses by events instead of words. Call before the program is ready. */
export function followSystem(): void {
  for (const event of ['open-file', 'open-url'] as const) {
    app.on(event as 'open-file', (given, word) => {
      given.preventDefault()
      offerWords({ words: [word], folder: '/' })
    })
  }
}

/** Gives a window all that waits, with the right to read the files among it. */
export async function takeArrivals(window: BrowserWindow): Promise<HostResult<HostAnswer<'takeArrivals'>>> {
  await looking
  const taken = waiting
  waiting = []
  return done(taken.map((one) => toArrival(window, one)))
}

function toArrival(window: BrowserWindow, arrived: Arrived): Arrival {
  return arrived.kind === 'file'
    ? { kind: 'file', file: holdFile(window, arrived.file, arrived.place) }
    : arrived
}

/** A window that is still loading, or that opens later, asks by itself when it is ready. */
function tellWindow(): void {
  const window = BrowserWindow.getFocusedWindow() ?? BrowserWindow.getAllWindows()[0]
  window?.webContents.send(arrivedChannel)
}
