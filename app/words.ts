/**
 * The words of a command line that a person meant: files, folders and addresses of our scheme. Without Electron.
 *
 * A further start hands its command line to the running program. Electrons before the change of August 2026
 * (github.com/electron/electron/pull/52628) read at most 32 KiB of it and, where it is longer, may end the running program
 * as one that does not answer. So a long command line is put into a file first, and the program starts anew with a short one.
 */
import { randomBytes } from 'node:crypto'
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join, resolve } from 'node:path'
import * as v from 'valibot'

/** A command line's words, and the folder that relative ones start from. */
export interface Words {
  readonly words: readonly string[]
  readonly folder: string
}

/** The switch that names the file with the words of a long command line. */
const wordsSwitch = '--stillroom-words='

/**
 * The words of a command line that are no switches. Everything behind `--` counts, as is usual (POSIX.1-2017 §12.2).
 *
 * @param argv the program first
 * @param appPath in development the folder that Electron was told to run, which is no word of the person's; else null
 */
export function wordsOf(argv: readonly string[], folder: string, appPath: string | null): Words {
  const { words } = split(argv, folder, appPath)
  return { words, folder }
}

function split(
  argv: readonly string[],
  folder: string,
  appPath: string | null,
): { words: readonly string[]; others: readonly string[] } {
  const rest = argv.slice(1)
  const own = appPath === null ? 0 : placeOfProgram(rest, folder, appPath)
  const marker = rest.indexOf('--', own)
  const before = rest.slice(own, marker === -1 ? undefined : marker)
  const behind = marker === -1 ? [] : rest.slice(marker + 1)
  const isSwitch = (word: string): boolean => word.startsWith('-')
  return {
    words: [...before.filter((word) => !isSwitch(word)), ...behind].filter((word) => word !== ''),
    others: [...rest.slice(0, own), ...before.filter(isSwitch)],
  }
}

/** A command line (without the program) that starts the program again, without the words that were meant once. */
export function lineWithoutWords(argv: readonly string[], folder: string, appPath: string | null): string[] {
  return [...split(argv, folder, appPath).others]
}

/** How many words belong to starting Electron itself: up to the folder that it runs. */
function placeOfProgram(words: readonly string[], folder: string, appPath: string): number {
  const named = words.findIndex((word) => resolve(folder, word) === resolve(appPath))
  return (named === -1 ? words.findIndex((word) => !word.startsWith('-')) : named) + 1
}

/** A command line of more bytes is not handed to the running program as it is. Half of what is safe. */
const longestLine = 16 * 1024

/**
 * Puts the words of a long command line into a file, and gives the short command line (without the program) to start with
 * instead; null when the line is short already.
 */
export function maybeShortLine(
  argv: readonly string[],
  folder: string,
  appPath: string | null,
  keptIn: string,
): readonly string[] | null {
  const bytes = [...argv, folder].reduce((sum, word) => sum + Buffer.byteLength(word) + 1, 0)
  const { words, others } = split(argv, folder, appPath)
  if (bytes <= longestLine || words.length === 0) return null
  const id = randomBytes(8).toString('hex')
  writeFileSync(wordsFile(keptIn, id), JSON.stringify({ words, folder }), { mode: 0o600, flag: 'wx' })
  return [...others, wordsSwitch + id]
}

const keptWords = v.strictObject({ words: v.array(v.string()), folder: v.string() })

/** The words that a long command line put into a file, which is removed; none when it is not there or no such file. */
export function takeKeptWords(argv: readonly string[], keptIn: string): Words | null {
  const id = argv.find((word) => word.startsWith(wordsSwitch))?.slice(wordsSwitch.length) ?? ''
  if (!/^[0-9a-f]{16}$/.test(id)) return null
  const file = wordsFile(keptIn, id)
  try {
    const parsed = v.safeParse(keptWords, JSON.parse(readFileSync(file, 'utf8')))
    return parsed.success ? parsed.output : null
  } catch {
    return null
  } finally {
    rmSync(file, { force: true })
  }
}

function wordsFile(keptIn: string, id: string): string {
  return join(keptIn, `words-${id}.json`)
}
