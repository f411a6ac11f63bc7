/**
 * Two logs that are followed at once, in the program and by a bare watcher, in one run: how long it takes from a write
 * until what was written is shown.
 *
 * The bare watcher is a window of the same Electron that does nothing but `fs.watch`, `fs.read` and putting the text
 * into its page. A watcher without a window would be quicker, but shows nothing: on a screen nothing is shown before
 * the next frame, in whichever program, and the share of that waiting would then count for one side only. For the
 * same reason its page watches and reads by itself, which spares it the way from one process to another that a
 * sandboxed page must go: it is as quick as a window can be.
 *
 * Both note the time by the same lines of code: a MutationObserver sees the words, and behind the next frame it is
 * `Date.now()`, the one clock that all processes share. The program's is the offer, which it can make only when it has
 * interpreted the bytes, found the prompt behind them, and made a command and its output of them.
 */
import type * as Fs from 'node:fs'
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { _electron, type ElectronApplication, type Page } from '@playwright/test'
import { maybeElectron } from '../../../build/programs.mjs'
import { ensureDisplay } from '../../e2e/support/display.ts'
import { launch, sandboxSwitches, type Launched } from '../../e2e/support/launch.ts'
import { followLog, openLogs, sayWidth } from '../../e2e/support/logs.ts'
import { beginProject } from '../../e2e/support/panes.ts'
import { quantile } from './keys.ts'

const WRITES = 120
/** Milliseconds between two writes to one log: evenly spread, so that they fall anywhere between two frames. */
const LEAST_GAP = 60
const MOST_GAP = 460

/** Milliseconds from each write to behind the frame that shows it. */
interface Delays {
  readonly ours: readonly number[]
  readonly bare: readonly number[]
}

let known: Promise<Delays> | undefined

/** The delay that this share of the writes does not exceed, in milliseconds. */
export async function delay(of: keyof Delays, share: number): Promise<number> {
  return quantile((await (known ??= measure()))[of], share)
}

/** How many times as long as the bare watcher's. */
export const ratio = async (share: number): Promise<number> =>
  (await delay('ours', share)) / (await delay('bare', share))

/** A log's text for one command: learned from the prompt in the one log, marked (OSC 133) in the other. */
const logs = [
  { name: 'gate.log', prompt: 'root@gate:/etc# ', run: '', end: '' },
  {
    name: 'weather.log',
    prompt: '\u001b]133;A\u0007mira@weather:~$ \u001b]133;B\u0007',
    run: '\u001b]133;C\u0007',
    end: '\u001b]133;D;0\u0007',
  },
] as const

async function measure(): Promise<Delays> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-follow-'))
  const paths = logs.map(({ name }) => join(folder, name))
  logs.forEach(({ prompt }, i) => writeFileSync(paths[i]!, prompt))
  const program = await launch('electron')
  let bare: ElectronApplication | undefined
  try {
    await followBoth(program, paths)
    bare = await startBare()
    const page = await bare.firstWindow()
    await watchBarely(page, paths)
    await noteShown(program.page)
    await noteShown(page)
    await program.page.waitForTimeout(1500)
    const written = await writeBoth(paths)
    await program.page.waitForTimeout(1500)
    return { ours: await delaysIn(program.page, written), bare: await delaysIn(page, written) }
  } finally {
    await bare?.close()
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

async function followBoth(program: Launched, paths: readonly string[]): Promise<void> {
  await beginProject(program.page, 'Follow two machines')
  const panel = await openLogs(program.page)
  for (const path of paths) await sayWidth(await followLog(program, panel, path), 80)
}

async function startBare(): Promise<ElectronApplication> {
  const executablePath = maybeElectron()
  if (executablePath === null) throw new Error('Electron is not here')
  const folder = join(import.meta.dirname, 'bare-watcher')
  const env = { ...(process.env as Record<string, string>), DISPLAY: await ensureDisplay() }
  return _electron.launch({ executablePath, args: [folder, ...sandboxSwitches(executablePath)], env })
}

/** All that the bare watcher does. */
async function watchBarely(page: Page, paths: readonly string[]): Promise<void> {
  await page.evaluate((files) => {
    const fs = (window as unknown as { require: (name: string) => typeof Fs }).require('fs')
    for (const path of files) {
      const place = document.body.appendChild(document.createElement('pre'))
      const file = fs.openSync(path, 'r')
      const buffer = new Uint8Array(65_536)
      fs.watch(path, () => {
        const length = fs.readSync(file, buffer)
        if (length > 0) place.append(new TextDecoder().decode(buffer.subarray(0, length)))
      })
    }
  }, paths)
}

/** Begins to note, for each `reading-…` that comes to stand in the page, the time behind the frame that shows it. */
async function noteShown(page: Page): Promise<void> {
  await page.evaluate(() => {
    const shown: Record<string, number> = {}
    const seen = new Set<string>()
    ;(window as unknown as { shown: Record<string, number> }).shown = shown
    // No function here has a name of its own: what runs the figures would add a call that the page does not know.
    new MutationObserver((changes) => {
      // What runs now is told beside the offers, before a command has ended.
      const texts = changes.flatMap(({ addedNodes, target }) =>
        (target as Element).closest('.st-log-running')
          ? []
          : Array.from(addedNodes, (node) =>
              (node as Element).classList?.contains('st-log-running') ? '' : (node.textContent ?? ''),
            ),
      )
      const fresh = Array.from(texts.join(' ').matchAll(/reading-[a-z]+-\d+/g), ([word]) => word).filter(
        (word) => !seen.has(word),
      )
      if (fresh.length === 0) return
      for (const word of fresh) seen.add(word)
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel()
        port1.onmessage = () => fresh.forEach((word) => (shown[word] = Date.now()))
        port2.postMessage(null)
      })
    }).observe(document.body, { childList: true, subtree: true })
  })
}

/** Writes to both logs by turns at random moments. @returns when each word was written */
async function writeBoth(paths: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const written = new Map<string, number>()
  await Promise.all(
    logs.map(async ({ name, prompt, run, end }, i) => {
      for (let n = 0; n < WRITES; n++) {
        const gap = LEAST_GAP + Math.random() * (MOST_GAP - LEAST_GAP)
        await new Promise((go) => setTimeout(go, gap))
        const word = `reading-${name.slice(0, name.indexOf('.'))}-${n}`
        const bytes = `echo ${word}\r\n${run}1017 hPa\r\n3.4 °C\r\n${end}${prompt}`
        written.set(word, Date.now())
        appendFileSync(paths[i]!, bytes)
      }
    }),
  )
  return written
}

async function delaysIn(page: Page, written: ReadonlyMap<string, number>): Promise<number[]> {
  const shown = await page.evaluate(() => (window as unknown as { shown: Record<string, number> }).shown)
  return [...written].map(([word, at]) => {
    const seen = shown[word]
    if (seen === undefined) throw new Error(`${word} was never shown`)
    return seen - at
  })
}
