/** How long it takes from a write to a log until its bytes are in the page, and until a bare file watcher has them. */
import { fork } from 'node:child_process'
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import type { HostBridge } from '../../../shared/host.ts'
import { launch, maybeMissing, type Launched } from '../../e2e/support/launch.ts'

declare global {
  interface Window {
    stillroomHost: HostBridge
    arrivals: [line: string, ms: number][]
  }
}

const lab = '0198a8c0-0000-7000-8000-000000000001'
const writes = 120
const betweenMs = 40

export interface FollowSpeed {
  /** Medians, in milliseconds from before the write. */
  readonly page: number
  readonly watcher: number
}

/** Writes to two logs in turn while the program and a bare watcher follow both. @throws Error where no Electron is here */
export async function measureFollowing(): Promise<FollowSpeed> {
  const missing = maybeMissing('electron')
  if (missing !== null) throw new Error(missing)
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-bench-'))
  const paths = ['logger.log', 'mast.log'].map((name) => join(folder, name))
  for (const path of paths) writeFileSync(path, '')
  const program = await launch('electron')
  const watcher = fork(join(import.meta.dirname, 'bare-watcher.mjs'), paths)
  const seen = new Map<string, number>()
  watcher.on('message', ([line, ms]: [string, number]) => seen.set(line, ms))
  try {
    for (const path of paths) await followInPage(program, path)
    const written = await writeLines(paths)
    const arrived = new Map(await program.page.evaluate(() => window.arrivals))
    return { page: median(written, arrived), watcher: median(written, seen) }
  } finally {
    watcher.kill()
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

async function writeLines(paths: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const written = new Map<string, number>()
  await wait(500)
  for (let i = 0; i < writes; i += 1) {
    const line = `line ${i}`
    written.set(line, performance.timeOrigin + performance.now())
    appendFileSync(paths[i % paths.length]!, `${line}\n`)
    await wait(betweenMs)
  }
  await wait(500)
  return written
}

async function followInPage(program: Launched, path: string): Promise<void> {
  await program.shell?.evaluate(({ dialog }, file) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [file] })
  }, path)
  await readInPage(program.page)
}

function readInPage(page: Page): Promise<void> {
  return page.evaluate(async (id) => {
    const host = window.stillroomHost
    const arrivals = (window.arrivals ??= [])
    const chosen = (await host.chooseLog({ lab: id, timingOf: null })) as { value: { log: { log: string } } }
    const { log } = chosen.value.log
    const followed = (await host.followLog({ lab: id, log, after: null })) as { value: { following: string } }
    const read = async (): Promise<void> => {
      for (;;) {
        const answer = (await host.readFollowed({ following: followed.value.following })) as {
          value: { pieces: { bytes?: Uint8Array }[] }
        }
        const now = performance.timeOrigin + performance.now()
        for (const { bytes } of answer.value.pieces)
          for (const line of new TextDecoder().decode(bytes).split('\n'))
            if (line !== '') arrivals.push([line, now])
      }
    }
    void read()
  }, lab)
}

/** @throws Error where a line did not come at all */
function median(written: ReadonlyMap<string, number>, arrived: ReadonlyMap<string, number>): number {
  const delays = [...written].map(([line, ms]) => {
    const at = arrived.get(line)
    if (at === undefined) throw new Error(`${line} did not come`)
    return at - ms
  })
  return delays.sort((a, b) => a - b)[Math.floor(delays.length / 2)]!
}

const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
