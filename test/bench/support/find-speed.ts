/** The libraries' figures, each measured once in a process of its own, one behind the other. */
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import type { LibraryName } from './find-libraries.ts'

/** Milliseconds of the processor. */
export interface Times {
  readonly p50: number
  readonly p95: number
  /** Of how many queries; fewer than were there of a library that needs seconds for one. */
  readonly asked: number
}

export interface LibraryFigures {
  /** Mean average precision on CACM, words whole. */
  readonly map: number
  readonly buildMs: number
  /** What it holds in memory when all is added. */
  readonly bytes: number
  /** Two words as they are; the last a beginning; the last a beginning and the first misspelt. */
  readonly whole: Times
  readonly typing: Times
  readonly wrong: Times
  /** Share of the misspelt words that were found. */
  readonly found: number
  /** For one changed entry, on average. */
  readonly updateMs: number
  /** From what was kept to the first answer; null where what is to be kept is longer than one text can be. */
  readonly loadMs: number | null
  readonly savedBytes: number | null
}

const known = new Map<LibraryName, LibraryFigures>()

export function figuresOf(name: LibraryName): LibraryFigures {
  let figures = known.get(name)
  if (!figures) known.set(name, (figures = measureApart(name)))
  return figures
}

function measureApart(name: LibraryName): LibraryFigures {
  const script = join(import.meta.dirname, 'find-run.ts')
  const said = execFileSync(
    process.execPath,
    ['--expose-gc', '--max-old-space-size=8000', '--import', 'tsx', script, name],
    {
      encoding: 'utf8',
      maxBuffer: 1 << 26,
      stdio: ['ignore', 'pipe', 'inherit'],
    },
  )
  return JSON.parse(said.trim().split('\n').at(-1)!) as LibraryFigures
}
