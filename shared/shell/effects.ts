/** What a command does to a machine, from a table with sources. What the table does not know stays unknown. */
import { hasOption } from './options/arguments.ts'
import { isInTable, rowsFor, type FoundRows } from './effects/lookup.ts'
import type { Effect, EffectRow } from './effects/rows.ts'
import { isRootsPath, toTouched, touchedBy, type Touched } from './effects/touched.ts'
import type { Redirection } from './reading/tree.ts'
import { toSeen, type SeenCommand } from './seen.ts'

export { effectRows } from './effects/lookup.ts'
export type { Effect, EffectRow, TouchedKind } from './effects/rows.ts'
export type { Touched } from './effects/touched.ts'

export interface CommandEffect {
  /** False where the table does not say all that it does. What it says holds all the same. */
  readonly isKnown: boolean
  /** Each once, in the order of the type. */
  readonly effects: readonly Effect[]
  readonly touches: readonly Touched[]
  /** Manual pages and standards that say so; `common practice` where there is no public text. */
  readonly sources: readonly string[]
}

const order: readonly Effect[] = ['reads', 'changes', 'destroys', 'network', 'root']

const nothing: CommandEffect = { isKnown: true, effects: [], touches: [], sources: [] }

/** What one command does, with its redirections and without its wrappers. */
export function effectOf(seen: SeenCommand): CommandEffect {
  return joined([ofProgram(seen), ...seen.redirections.map(ofRedirection)])
}

/** What all commands of a text do together. */
export function effectOfText(text: string): CommandEffect {
  return joined(toSeen(text).map(effectOf))
}

/** Whether something is lost for good that no further command brings back. */
export function isDestructive(given: string | SeenCommand): boolean {
  return toSeen(given).some((seen) => effectOf(seen).effects.includes('destroys'))
}

/** Whether the state of a machine is another afterwards, as far as is known. */
export function changesState(given: string | SeenCommand): boolean {
  return toSeen(given).some((seen) =>
    effectOf(seen).effects.some((one) => one === 'changes' || one === 'destroys'),
  )
}

function ofProgram(seen: SeenCommand): CommandEffect {
  if (seen.name === '')
    return seen.redirections.length > 0
      ? nothing
      : { ...nothing, effects: ['reads'], sources: ['POSIX.1-2017'] }
  if (seen.name === null) return { ...nothing, isKnown: false }
  const found = rowsFor(seen)
  const { rows, args } = found
  const isHelp =
    isInTable(seen.name) && args.operands.length === 0 && hasOption(args, ['--help', '--version'])
  if (isHelp && args.options.length === 1) {
    return { ...nothing, effects: ['reads'], sources: ['GNU Coding Standards, 4.8.1 and 4.8.2'] }
  }
  if (rows.length === 0) return { ...nothing, isKnown: false }
  // A service manager of one's own needs no root (systemctl(1), --user).
  const isOwn = hasOption(args, ['--user']) && ['systemctl', 'journalctl'].includes(seen.name)
  const touches = rows.flatMap((row) => touchedBy(row, args, seen.words.slice(1)))
  const unnamed = seen.hasUnknownWords && seen.wrappers.length > 0 ? unnamedBy(rows) : []
  return withPaths({
    isKnown: rows.every(({ isUnknown }) => !isUnknown),
    effects: rows.flatMap(({ effects }) => effects).filter((one) => one !== 'root' || !isOwn),
    touches: [...touches, ...unnamed],
    sources: rows.map((row) => sourceOf(row, found)),
  })
}

/** What is touched by arguments that are not written. */
function unnamedBy(rows: readonly EffectRow[]): Touched[] {
  const [kind] = rows.flatMap(({ touches }) =>
    touches.filter(({ onlyReads }) => !onlyReads).map((one) => one.kind),
  )
  const how = rows.some(({ effects }) => effects.includes('destroys')) ? 'destroyed' : 'changed'
  const isReading = rows.every(({ effects }) => !effects.includes('changes') && !effects.includes('destroys'))
  return kind === undefined ? [] : [toTouched(kind, null, isReading ? 'read' : how)]
}

/** `(8)` is the page of the program's own name, `%` its subcommand. */
function sourceOf({ source }: EffectRow, { program, args }: FoundRows): string {
  const subcommand = args.operands[0]?.value ?? ''
  return (source.startsWith('(') ? `${program}${source}` : source).replace('%', subcommand)
}

function ofRedirection({ operator, target, descriptor }: Redirection): CommandEffect {
  const isCopy = /[<>]&$/u.test(operator) && /^(?:\d+-?|-)$/u.test(target?.text ?? '-')
  if (target === null || operator === '<<<' || isCopy) return nothing
  const name = target.value
  const source = descriptor === null && operator.startsWith('&') ? 'bash(1)' : 'POSIX.1-2017'
  if (operator === '<' || operator === '<&') {
    return { ...nothing, touches: [toTouched('file', name, 'read')], sources: [source] }
  }
  if (name !== null && /^\/dev\/(?:null|tty|stdout|stderr|fd\/\d+)$/u.test(name)) return nothing
  return withPaths({
    ...nothing,
    effects: ['changes'],
    touches: [toTouched('file', name, 'changed')],
    sources: [source],
  })
}

/** Root and loss, where the paths say so: files of the system, disks. */
function withPaths(effect: CommandEffect): CommandEffect {
  const changed = effect.touches.filter(({ how }) => how !== 'read')
  const isRoots = changed.some(
    ({ kind, name }) => ['file', 'setting'].includes(kind) && name !== null && isRootsPath(name),
  )
  const isDisk = changed.some(({ kind, how }) => kind === 'device' && how === 'destroyed')
  return {
    ...effect,
    effects: [
      ...effect.effects,
      ...(isRoots || isDisk ? (['root'] as const) : []),
      ...(isDisk ? (['destroys'] as const) : []),
    ],
  }
}

function joined(parts: readonly CommandEffect[]): CommandEffect {
  const all = new Set(parts.flatMap(({ effects }) => effects))
  const touches = parts.flatMap((one) => one.touches)
  const keys = new Set<string>()
  return {
    isKnown: parts.every(({ isKnown }) => isKnown),
    effects: order.filter((one) => all.has(one)),
    touches: touches.filter(({ kind, name, how }) => {
      const key = JSON.stringify([kind, name, how])
      return !keys.has(key) && keys.add(key)
    }),
    sources: [...new Set(parts.flatMap(({ sources }) => sources))],
  }
}
