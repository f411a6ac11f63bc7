/**
 * Owner, group and mode of files as `ls -l` and `stat` print them (POSIX.1-2017, "ls"; GNU coreutils manual, "stat
 * invocation"). Only what is sure is given: known options, regular files, and names that stand as they are.
 */
import type { FileState } from '../../lab/model.ts'
import { splitCommands } from '../../shell/commands.ts'
import type { FoundCommand } from '../terminal/found.ts'
import { maybeMode } from './mode.ts'
import { maybeWholePath } from './paths.ts'

/** What a listing says of one file. */
export type Ownership = Pick<FileState, 'path' | 'owner' | 'group' | 'mode'>

/** What a command's output says of files, in order. A path may come twice. */
export function ownershipsIn({
  command,
  output,
  place,
}: Pick<FoundCommand, 'command' | 'output' | 'place'>): Ownership[] {
  const words = maybeWords(command)
  const program = words?.shift()
  if (!words || !program) return []
  const options = words.filter((word) => /^-./.test(word))
  const paths = words.filter((word) => !/^-./.test(word))
  const found =
    program === 'ls' && isPlainLong(options)
      ? listed(output, paths)
      : program === 'stat' && options.length === 0
        ? described(output)
        : []
  return found.flatMap(({ path, ...rest }) => {
    const whole = maybeWholePath(path, place.directory)
    return whole === undefined ? [] : [{ path: whole, ...rest }]
  })
}

/** The words of a lone simple command, without a plain `sudo` before it. */
function maybeWords(command: string): string[] | undefined {
  const [line, ...more] = splitCommands(command)
  if (!line || line.problem !== null || more.length > 0) return undefined
  const [simple, ...others] = line.simple
  // Anything but the words themselves, such as a pipe, stands outside of them.
  if (!simple || others.length > 0 || simple.redirects.length > 0 || simple.assignments.length > 0)
    return undefined
  if (simple.from !== line.from || simple.to !== line.to) return undefined
  const words = simple.words.map(({ value }) => value)
  if (words.some((word) => word === null)) return undefined
  return (words[0] === 'sudo' ? words.slice(1) : words) as string[]
}

/** Options that leave the columns of a long listing, and the names in it, as they are. */
function isPlainLong(options: readonly string[]): boolean {
  const known =
    /^(?:-[1aAdhlnrStUcuX]+|--(?:all|almost-all|directory|human-readable|full-time|numeric-uid-gid|time-style=(?:full|long)-iso|color(?:=\w+)?))$/
  const isLong = options.some((option) => /^-[^-]*[ln]|^--(?:full-time|numeric)/.test(option))
  return isLong && options.every((option) => known.test(option))
}

const day = String.raw`(?:\p{L}{2,6}\.? +\d{1,2}|\d{1,2}\.? +\p{L}{2,6}\.?) +(?:\d\d:\d\d|\d{4})|\d{4}-\d\d-\d\d \d\d:\d\d(?::\d\d\.\d+ [+-]\d{4})?`
const row = new RegExp(
  String.raw`^(-[rwxsStT-]{9})[.+@]? +\d+ (\S+) +(\S+) +[\d.,]+[A-Za-z]? +(?:${day}) (\S.*)$`,
  'u',
)

function listed(output: string, paths: readonly string[]): Ownership[] {
  const found: Ownership[] = []
  let header: string | null = paths.length === 0 ? '.' : paths.length === 1 ? paths[0]! : null
  let folder: string | null = null
  for (const line of output.split('\n')) {
    const named = /^(\S.*):$/.exec(line)?.[1]
    if (named !== undefined && paths.includes(named)) header = named
    if (/^total \d/.test(line)) folder = header
    const [, shown, owner, group, name] = row.exec(line) ?? []
    if (name === undefined || /^['"$]|\\/.test(name)) continue
    // Before any folder's total, the rows are of the files that were asked for.
    if (folder === null && !paths.includes(name)) continue
    const path = folder === null ? name : `${folder}/${name}`
    found.push({ path, owner: known(owner!), group: known(group!), mode: maybeMode(shown!) ?? null })
  }
  return found
}

const known = (name: string): string | null => (name === '?' ? null : name)

const regularFile =
  /^ {2}File: (\S.*)\n {2}Size: .* regular (?:empty )?file\n(?:.*\n)?Access: \((\d{4})\/-[rwxsStT-]{9}\) +Uid: \( *\d+\/ *(\S+)\) +Gid: \( *\d+\/ *(\S+)\)$/gm

function described(output: string): Ownership[] {
  return Array.from(output.matchAll(regularFile), ([, path, mode, owner, group]) => {
    const name = (text: string): string | null => (text === 'UNKNOWN' ? null : text)
    return { path: path!, owner: name(owner!), group: name(group!), mode: maybeMode(mode!) ?? null }
  }).filter(({ path }) => !/^['‘"]/.test(path))
}
