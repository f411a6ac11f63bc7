/** A command as the units that can stand alone in a procedure, and what each of them is known by. */
import { writesOf } from '../../journal/files/writes.ts'
import { maybeWholePath } from '../../journal/files/paths.ts'
import type { Outcome } from '../../lab/model.ts'
import { remembered } from '../../lab/remembered.ts'
import { effectOf, effectOfText, type CommandEffect } from '../../shell/effects.ts'
import { readScript } from '../../shell/reading/read.ts'
import type { Joint, ShellNode } from '../../shell/reading/tree.ts'
import { normalForm, normalFormOf } from '../../shell/same.ts'
import { seenCommands, type SeenCommand } from '../../shell/seen.ts'

/** One part of a list: what stands between `&&`, `||` and `;`. A loop or a condition is one. */
export interface Unit {
  /** In the command's text, UTF-16 code units. */
  readonly from: number
  readonly to: number
  readonly text: string
  /** What joins it to the unit behind it; `;` for the last. */
  readonly joint: Joint
}

/** The units of a command, in order. What cannot be read, and what holds a document, is one unit. */
export function unitsOf(command: string): Unit[] {
  const { root, problems, isComplete } = readScript(command)
  const whole: Unit = { from: 0, to: command.length, text: command, joint: ';' }
  if (problems.length > 0 || !isComplete || command.includes('<<')) return [whole]
  const units = flat(root, ';', command)
  return units.length < 2 ? [whole] : units
}

/** A line is a list in the list of lines. @param joint what stands behind the node */
function flat(node: ShellNode, joint: Joint, command: string): Unit[] {
  if (node.type !== 'list') {
    const { from, to } = node
    return [{ from, to, text: command.slice(from, to), joint }]
  }
  const last = node.parts.length - 1
  return node.parts.flatMap((part, n) => {
    const own = node.joints[n] ?? ';'
    return flat(part, n === last && own === ';' ? joint : own, command)
  })
}

/**
 * What is known of each unit by how the whole command ended (POSIX.1-2017, XCU §2.9.3): where it succeeded, so did those
 * that `&&` joins to the last one; of all others nothing is known.
 */
export function outcomesOfUnits(units: readonly Unit[], whole: Outcome): Outcome[] {
  if (units.length === 1 || whole === 'unknown') return units.map(() => whole)
  const known = units.map((): Outcome => 'unknown')
  for (let at = units.length - 1; at >= 0; at -= 1) {
    const before = units[at - 1]?.joint
    if (whole === 'failed') {
      // Only where it ran for sure.
      if (before === ';') known[at] = 'failed'
      break
    }
    if (units[at]!.joint === '&' || before === '||') break
    known[at] = 'succeeded'
    if (before !== '&&') break
  }
  return known
}

/** What one unit does, and by what it is the same as another one. */
export interface Meaning {
  /** Equal for units that do the same where they run in the same place. */
  readonly key: string
  /** The file that it sets as a whole, with its content; null for anything else. */
  readonly sets: { readonly path: string; readonly content: string } | null
  readonly effect: CommandEffect
  /** Names of what it changes or destroys, files with whole paths; null among them for what is not known. */
  readonly changed: readonly Touch[]
  /** The program, where the unit is one command. */
  readonly program: string | null
  /** The host that all of it runs on by `ssh`; null for where it is typed. */
  readonly host: string | null
}

export interface Touch {
  /** `file /etc/hosts`; null where it is not known. */
  readonly name: string | null
  readonly isDestroyed: boolean
}

/** So many meanings are kept: a journal is read anew with every entry that is written. */
const MOST_KNOWN = 20_000

/** @param directory where it runs; null where that is not known */
export const meaningOf: (text: string, directory: string | null) => Meaning = remembered(
  MOST_KNOWN,
  (text, directory) => `${directory ?? ''}\0${text}`,
  readMeaning,
)

function readMeaning(text: string, directory: string | null): Meaning {
  const seen = seenCommands(text)
  const effect = effectOfText(text)
  const host = hostOf(seen)
  const sets = host === null ? setsOf(text, directory) : null
  return {
    key: sets ? fileKey(sets.path, sets.content) : host === null ? normalForm(text) : farKey(seen),
    sets,
    effect,
    changed: seen.flatMap((one) => touchesOf(one, directory)),
    program: seen.length === 1 ? seen[0]!.name : null,
    host,
  }
}

/** What a file's state is known by, whatever set it. */
export const fileKey = (path: string, content: string): string => `file ${path}\n${content}`

function touchesOf(seen: SeenCommand, directory: string | null): Touch[] {
  const changed = effectOf(seen).touches.filter(({ how }) => how !== 'read')
  const touches = changed.flatMap(({ kind, name, how }) =>
    namesOf(seen, name).map((one) => ({
      name: one === null ? null : `${kind} ${nameIn(kind, one, directory)}`,
      isDestroyed: how === 'destroyed',
    })),
  )
  return seen.name === 'openssl' && touches.length === 0 ? outputsOf(seen, directory) : touches
}

/** What `openssl` writes is named by options that all of its commands share (openssl(1)). */
function outputsOf({ words }: SeenCommand, directory: string | null): Touch[] {
  return words.flatMap(({ value }, n) => {
    if (!['-out', '-keyout'].includes(words[n - 1]?.value ?? '')) return []
    return [{ name: value === null ? null : `file ${nameIn('file', value, directory)}`, isDestroyed: false }]
  })
}

const intoFolder = new Set(['cp', 'mv', 'ln', 'install'])

/** What is put into a folder is known by its name there. */
function namesOf({ name, words }: SeenCommand, target: string | null): (string | null)[] {
  if (target === null || !target.endsWith('/') || !intoFolder.has(name ?? '')) return [target]
  const sources = words.slice(1, -1).filter(({ text }) => !text.startsWith('-'))
  if (words.at(-1)?.value !== target || sources.length === 0) return [target]
  return sources.map(({ value }) =>
    value === null ? null : target + value.slice(value.lastIndexOf('/') + 1),
  )
}

const nameIn = (kind: string, name: string, directory: string | null): string =>
  kind === 'file' ? (maybeWholePath(name, directory) ?? name).replace(/(?<=.)\/$/u, '') : name

function hostOf(seen: readonly SeenCommand[]): string | null {
  const [first, ...rest] = seen.map(({ host }) => (host.is === 'named' ? host.name : null))
  return first !== undefined && rest.every((one) => one === first) ? first : null
}

const farKey = (seen: readonly SeenCommand[]): string => seen.map(normalFormOf).join('; ')

/** Programs whose writing of a file is all that they do. */
const writers = new Set(['cat', 'echo', 'printf', 'tee', ':', 'true'])

function setsOf(text: string, directory: string | null): Meaning['sets'] {
  const { root } = readScript(text)
  const seen = seenCommands(text)
  if (root.parts.length !== 1 || !seen.every(({ name }) => name !== null && writers.has(name))) return null
  const [write, ...more] = writesOf(text, directory)
  if (!write || more.length > 0 || write.way !== 'whole' || write.path === null) return null
  return { path: write.path, content: write.text }
}
