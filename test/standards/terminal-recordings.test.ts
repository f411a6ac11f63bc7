/**
 * Recordings made by script(1), read here and by scriptreplay(1), both of util-linux: what is shown must be the same, byte
 * for byte, and so must the time it takes.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import type { LogEvent } from '../../shared/journal/terminal/formats/events.ts'
import { notesOf, outputOf, read, refusalOf } from '../unit/shared/journal/terminal/formats/support.ts'

const standards = process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../shared/standards')
const theirs = join(standards, 'terminal/recordings')
const ours = join(import.meta.dirname, '../fixtures/recordings/script')
const hasReplay = spawnSync('scriptreplay', ['--version']).status === 0
const hasScript = spawnSync('script', ['--version']).status === 0

/** What scriptreplay shows, faster than it was. */
function replay(folder: string, timing: string, ...log: string[]): string {
  const shown = execFileSync('scriptreplay', ['-d', '100000', '-t', timing, ...log], {
    cwd: folder,
    encoding: 'latin1',
  })
  // It ends its showing with a line end of its own.
  return shown.replace(/\n$/, '')
}

function readFiles(folder: string, log: string, timing?: string, cuts: readonly number[] = []): LogEvent[] {
  const bytes = readFileSync(join(folder, log))
  if (timing === undefined) return read(bytes, { name: log, cuts })
  return read(bytes, { name: log, cuts, timing: readFileSync(join(folder, timing)) })
}

const cases = [
  [theirs, 'classic.out', 'classic.tm', '-O'],
  [theirs, 'utf8.out', 'utf8.tm', '-O'],
  [theirs, 'advanced.io', 'advanced.tm', '-B'],
  [theirs, 'interactive.io', 'interactive.tm', '-B'],
  [ours, 'both.io', 'both.tm', '-B'],
  [ours, 'output.out', 'separate.tm', '-O'],
] as const

describe.skipIf(!hasReplay)('as scriptreplay shows it', () => {
  test.each(cases)('%s/%s with %s is read', (folder, log, timing, kind) => {
    if (!existsSync(folder)) return
    for (const cuts of [[], [1, 60, 130, 200, 300]]) {
      const events = readFiles(folder, log, timing, cuts)
      expect(outputOf(events)).toBe(replay(folder, timing, kind, log))
      expect(notesOf(events).filter((sentence) => !sentence.includes('keys that were pressed'))).toEqual([])
    }
  })

  test.each(cases)(
    '%s/%s ends %s seconds after its start, as summed from its timing file',
    (folder, log, timing) => {
      if (!existsSync(folder)) return
      const events = readFiles(folder, log, timing)
      const seconds = readFileSync(join(folder, timing), 'latin1')
        .split('\n')
        .map((line) => Number(/^(?:[A-Z] )?(\d+\.\d+) /.exec(line)?.[1] ?? 0))
        .reduce((sum, after) => sum + after, 0)
      const opened = events.find((event) => event.kind === 'opened')!
      const last = events.filter((event) => event.kind === 'output').at(-1)!
      expect(last.atMs! - opened.startedMs!).toBeCloseTo(seconds * 1000, -1)
    },
  )
})

describe('the recordings', () => {
  test('made with keys give none of them', () => {
    for (const [log, timing] of [
      ['both.io', 'both.tm'],
      ['output.out', 'separate.tm'],
    ] as const)
      expect(outputOf(readFiles(ours, log, timing))).not.toContain('secret-123')
    for (const [log, timing] of [
      ['keys.in', 'separate.tm'],
      ['keys.in'],
      ['alone.in'],
      ['both.io'],
    ] as const) {
      const events = readFiles(ours, log, timing)
      expect(refusalOf(events), log).toMatch(/^keys: /)
      expect(outputOf(events)).not.toContain('secret')
    }
  })

  test('tell the width they began with and the one they came to', () => {
    const sizes = readFiles(ours, 'both.io', 'both.tm').flatMap((event) =>
      event.kind === 'opened' || event.kind === 'resize' ? [[event.columns, event.rows]] : [],
    )
    expect(sizes).toEqual([
      [80, 24],
      [100, 30],
    ])
  })

  test('of two sessions in one file, of which script keeps the times of the last, start each at its own time', () => {
    const events = readFiles(ours, 'classic.out', 'classic.tm')
    expect(notesOf(events)).toEqual([expect.stringMatching(/of the last one only/)])
    const opened = events.filter((event) => event.kind === 'opened')
    expect(opened.map(({ startedMs }) => new Date(startedMs!).toISOString())).toEqual([
      '2026-11-25T22:22:02.000Z',
      '2026-11-25T22:22:06.000Z',
    ])
    const at = events.indexOf(opened[1]!)
    const [before, behind] = [events.slice(0, at), events.slice(at)].map((part) =>
      part.filter((event) => event.kind === 'output').map((event) => event.atMs),
    )
    expect(new Set(before)).toEqual(new Set([null]))
    expect(behind![0]! - opened[1]!.startedMs!).toBe(1)
    expect(outputOf(events.slice(0, at))).toBe(outputOf(events.slice(at)))
  })

  test.skipIf(!hasScript)('made here and now say exit code and output', () => {
    const folder = mkdtempSync(join(tmpdir(), 'stillroom-script-'))
    try {
      execFileSync('script', ['-q', '-T', 'a.tm', '-O', 'a.log', '-c', 'printf "mast\\nvane\\n"\nexit 7'], {
        cwd: folder,
        stdio: 'ignore',
        env: { ...process.env, LC_ALL: 'C' },
      })
    } finally {
      const events = readFiles(folder, 'a.log', 'a.tm')
      expect(outputOf(events)).toBe('mast\r\nvane\r\n')
      expect(events.at(-1)).toMatchObject({ kind: 'ended', exitCode: 7 })
      rmSync(folder, { recursive: true })
    }
  })
})
