/** The files that a command of a terminal's log wrote, as far as their whole content stands in the log. */
import type { FoundCommand, FoundFile, ScreenShot } from '../terminal/found.ts'
import { mayHideTabs } from './blanks.ts'
import { editedFiles } from './editor.ts'
import { writesOf, type FileWrite } from './writes.ts'

/** Contents that are known, by the path. For one machine only: the caller keeps them apart. */
export type KnownFiles = ReadonlyMap<string, string>

export interface FilesRead {
  readonly files: readonly FoundFile[]
  /** What is known after the command: contents that it may have changed otherwise are no longer in it. */
  readonly known: KnownFiles
  /** Sentences about files that were written but are not given, and why. */
  readonly notes: readonly string[]
}

type Command = Pick<FoundCommand, 'command' | 'output' | 'exitCode' | 'place'>

/** The files that a command wrote. `shots` are the screens of the alternate screen while it ran, in order. */
export function filesOf(found: Command, shots: readonly ScreenShot[]): FoundFile[] {
  return [...readFiles(found, shots, new Map()).files]
}

/**
 * The files that a command wrote, where a text is added to a content that is known already, too.
 * @param known what earlier commands of the same log left, on the same machine
 */
export function readFiles(found: Command, shots: readonly ScreenShot[], known: KnownFiles): FilesRead {
  const reading: Reading = { known: new Map(known), files: new Map(), notes: [] }
  const name = (path: string): string => path.slice(path.lastIndexOf('/') + 1)
  const writes = writesOf(found.command, found.place.directory)
  const named = [...known.keys()].filter((path) => found.command.includes(name(path)))
  // A command that was not understood may have changed every file that it names.
  if (writes.length === 0 && !isReading(found.command)) named.forEach((path) => reading.known.delete(path))
  const isSure = hasSucceeded(found)
  for (const write of writes) takeWrite(reading, isSure ? write : { ...write, way: 'unsure' }, found.command)
  for (const { path, content, isProven } of editedFiles(found.command, found.place, shots)) {
    if (path === null) reading.known.clear()
    else if (content === undefined || /^sudoedit: /m.test(found.output)) leaveOut(reading, path, seenInPart)
    else {
      keep(reading, { path, content, by: 'editor' })
      if (!isProven) reading.notes.push(`${path}: ${unproven}`)
    }
  }
  return { files: [...reading.files.values()], known: reading.known, notes: [...new Set(reading.notes)] }
}

const seenInPart =
  'was written in an editor, and the log does not show with certainty all of what was written'
const unproven =
  'its editor tells the number of lines, but not of bytes, so blanks at the ends of lines may be missing.'
const maybeTabs = 'was written, but whether blanks in it are tabs cannot be seen'

interface Reading {
  readonly known: Map<string, string>
  readonly files: Map<string, FoundFile>
  readonly notes: string[]
}

function keep({ known, files }: Reading, file: FoundFile): void {
  known.set(file.path, file.content)
  files.set(file.path, file)
}

function leaveOut({ known, files, notes }: Reading, path: string, why?: string): void {
  known.delete(path)
  files.delete(path)
  if (why !== undefined) notes.push(`${path} ${why}. Add its content by dropping the file.`)
}

function takeWrite(reading: Reading, { path, way, text }: FileWrite, command: string): void {
  if (path === null) {
    // It may have been any of them.
    reading.known.clear()
    reading.files.clear()
  } else {
    const before = way === 'added' ? reading.known.get(path) : ''
    if (way === 'unsure' || before === undefined) leaveOut(reading, path)
    else if (mayBeTabs(text, command)) leaveOut(reading, path, maybeTabs)
    else keep(reading, { path, content: before + text, by: 'heredoc' })
  }
}

/** Columns of the prompts that usually stand before the further lines of a command: none, bash's `> `, zsh's `heredoc> `. */
const promptWidths = [0, 2, 9]

/** A command as it is read off a screen has blanks where tabs were pasted. */
function mayBeTabs(text: string, command: string): boolean {
  if (command.includes('\t')) return false
  // On the command's own line it is not known how much stands before it.
  if (!command.includes('\n')) return /\S {2,}\S/.test(text)
  const isStripping = /<<-/.test(command) && /^ /m.test(text)
  return isStripping || mayHideTabs(text.split('\n'), promptWidths)
}

/** What programs and shells say when they could not write. */
const failure =
  /permission denied|not permitted|no such file|not a directory|is a directory|read-only|no space|cannot|can't|could not|failed|not found|no match|not in the sudoers|try again|error/i

function hasSucceeded({ exitCode, output, command }: Command): boolean {
  if (exitCode !== null && exitCode !== 0) return false
  // Of several commands the exit code speaks for the last one only. What tee repeats is no complaint.
  const said = output.split('\n').filter((line) => !command.includes(line.trim()))
  return !said.some((line) => failure.test(line))
}

/** Programs that change no file that they are given. */
function isReading(command: string): boolean {
  return /^(?:sudo )?(?:cat|less|more|head|tail|grep|ls|stat|diff|cmp|wc|file|sha256sum|chmod|chown|chgrp)(?: [^|<>;&`$()\n]*)?$/.test(
    command,
  )
}
