/** The rule about commands that lead to another place and stay there. */
import type { Surrounding } from '../../../shell/reading/tree.ts'
import type { SeenCommand } from '../../../shell/seen.ts'
import { faultAt, partOf, type Reading, type ReadRow } from '../reading.ts'
import { practice, type Rule } from '../rule.ts'

/** Where a command leads for all that follow. */
interface Way {
  readonly to: string
  readonly is: 'folder' | 'machine or user'
}

const silentPlace: Rule = {
  id: 'silent place',
  name: 'A change of place is said',
  why: 'Who stands in another folder, on another machine or as another user than meant runs the right command at the wrong place.',
  source: practice,
  declares: [],
  find: (reading) =>
    reading.rows.flatMap((row) => {
      const way = row.commands.flatMap((command) => wayOf(command.seen)).at(-1)
      const command = [...row.commands].reverse().find(({ seen }) => wayOf(seen).length > 0)
      if (!way || !command || isSaid(reading, row, way)) return []
      const says =
        way.is === 'folder'
          ? `From here on everything happens in ${way.to}`
          : `From here on everything happens through “${way.to}”`
      return [faultAt(row, command.part, command, `${says}, and neither this step nor the next says so.`)]
    }),
}

/** What a command does to the place of those after it. What runs in a subshell changes nothing outside. */
function wayOf(seen: SeenCommand): Way[] {
  if (seen.within.some((one) => apart.has(one)) || seen.host.is !== 'same') return []
  const given = seen.words.slice(1).filter(({ value }) => !value?.startsWith('-'))
  const first = given[0]?.value ?? null
  if (seen.name === 'cd' || seen.name === 'pushd')
    return seen.wrappers.length > 0 || first === null || first === '~' ? [] : [{ to: first, is: 'folder' }]
  const wrapper = seen.wrappers[0]
  const isEntering = wrapper ? isShell(seen) : seen.name !== null && isLeftAlone(seen, first)
  if (!isEntering) return []
  const words = wrapper ? wrapper.words : seen.words
  return [{ to: words.map(({ text }) => text).join(' '), is: 'machine or user' }]
}

/** A wrapper with no command behind it, so that a shell of its own is left waiting. */
function isLeftAlone({ name, words }: SeenCommand, first: string | null): boolean {
  const options = words.map(({ value }) => value)
  if (name === 'ssh') return first !== null && !options.includes('-N') && !options.includes('-f')
  if (name === 'sudo' || name === 'doas') return options.includes('-i') || options.includes('-s')
  return name === 'su' || (name === 'chroot' && first !== null)
}

const isShell = ({ name, words }: SeenCommand): boolean =>
  (name === 'su' && words.every(({ value }) => value !== '-c')) ||
  (['sh', 'bash', 'zsh', 'dash', 'ksh', 'fish'].includes(name ?? '') &&
    words.slice(1).every(({ value }) => value?.startsWith('-') === true && !/c/u.test(value)))

const apart: ReadonlySet<Surrounding> = new Set(['subshell', 'function', 'coproc', 'substitution'])

/** It is said by the place of this row or of the next one, or by the words of the instruction. */
function isSaid({ rows }: Reading, row: ReadRow, way: Way): boolean {
  const next = rows.slice(rows.indexOf(row) + 1).find((one) => one.row.level !== 'section')
  if (next === undefined) return true
  const { place } = row.row
  const isSaidNext =
    next.row.isPlaceSaid && (way.is !== 'folder' || (next.row.place?.directory ?? null) !== null)
  if (isSaidNext) return true
  if (way.is === 'folder') {
    const folder = place?.directory ?? null
    if (folder !== null && sameFolder(folder, way.to)) return true
  } else if ([place?.host, place?.user].some((name) => typeof name === 'string' && way.to.includes(name)))
    return true
  const read = partOf(row, 'do')
  const told = [
    ...(read?.sentences ?? []).map(({ text }) => text),
    ...(read?.code ?? []).map(({ value }) => value),
  ]
  return told.some((words) => words.includes(way.to.split(' ').at(-1)!))
}

const sameFolder = (one: string, other: string): boolean =>
  one.replace(/\/+$/u, '') === other.replace(/\/+$/u, '')

export const placeRules: readonly Rule[] = [silentPlace]
