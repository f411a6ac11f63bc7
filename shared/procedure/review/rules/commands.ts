/** Rules about how commands are written. */
import { effectOf } from '../../../shell/effects.ts'
import { findPasted, type Pasted } from '../../../shell/pasted.ts'
import { findProblems } from '../../../shell/reading/read.ts'
import {
  faultAt,
  placeIn,
  type ReadPart,
  type Reading,
  type ReadRow,
  type Script,
  type Seen,
} from '../reading.ts'
import { once } from '../once.ts'
import { remembered, type Rule } from '../rule.ts'
import type { FaultPlace, Mend } from '../types.ts'

const problemsOf = once((script: Script) => findProblems(script.text))
const pastedIn = once((script: Script) => findPasted(script.text))
const isForRoot = once((seen: Seen['seen']) => effectOf(seen).effects.includes('root'))

interface Written {
  readonly row: ReadRow | null
  readonly read: ReadPart
  readonly script: Script
}

/** Scripts of all parts but those that say what a machine answers. */
const scriptsOf = ({ all }: Reading): Written[] =>
  all.flatMap(({ row, read }) =>
    read.part.kind === 'expect' ? [] : read.scripts.map((script) => ({ row, read, script })),
  )

const refusedCommand: Rule = {
  id: 'refused command',
  name: 'Commands that the shell accepts',
  why: 'A command with a missing quote does nothing, or waits for the rest of it.',
  source: remembered('bash(1), -n; POSIX.1-2017, Shell Command Language, 2.10 Shell Grammar'),
  declares: ['pasted prompt'],
  find: (reading) =>
    scriptsOf(reading).flatMap(({ row, read, script }) =>
      problemsOf(script)
        .slice(0, 1)
        .map(({ at, message }) => {
          const from = Math.min(at, Math.max(script.text.length - 1, 0))
          const range = lineAround(script, from)
          return faultAt(row, read.part, range, `bash refuses this: ${message}`)
        }),
    ),
}

function lineAround(script: Script, at: number) {
  const from = script.text.lastIndexOf('\n', Math.max(at - 1, 0)) + 1
  const end = script.text.indexOf('\n', Math.max(at, from))
  return { start: placeIn(script, from), end: placeIn(script, end < 0 ? script.text.length : end) }
}

const pastedPrompt: Rule = {
  id: 'pasted prompt',
  name: 'Commands without prompts and output',
  why: 'A prompt or an answer that is copied along is run as a command.',
  source: remembered('Google developer documentation style guide, Command-line syntax'),
  declares: ['refused command', 'no expect'],
  find: (reading) =>
    scriptsOf(reading).flatMap(({ row, read, script }) =>
      pastedIn(script).map((line) => pastedFault(row, read, script, line)),
    ),
}

function pastedFault(row: ReadRow | null, { part }: ReadPart, script: Script, line: Pasted): FaultPlace {
  const range = { start: placeIn(script, line.from), end: placeIn(script, line.to) }
  if (line.is === 'output')
    return faultAt(
      row,
      part,
      range,
      'This reads like an answer, not like a command. It belongs into “expect”.',
    )
  const mend: Mend = {
    does: 'edit',
    label: 'Take the prompt away',
    edits: [{ part: part.id, ...range, insert: '' }],
  }
  return faultAt(row, part, range, 'A prompt stands before the command.', mend)
}

const sudoAsRoot: Rule = {
  id: 'sudo as root',
  name: 'One way to be root',
  why: 'Who follows must know as whom: with sudo at one place and without at the next, one of them fails.',
  source: remembered('sudo(8); sudo is for running a command as another user'),
  declares: [],
  find: ({ rows }) => {
    const uses = rows.flatMap((row) => row.commands.flatMap((command) => maybeUse(row, command)))
    const unsaid = uses.filter(({ isRoot }) => !isRoot)
    const withSudo = unsaid.filter(({ sudo }) => sudo !== null)
    const isMixed = withSudo.length > 0 && withSudo.length < unsaid.length
    // Where nobody says as whom, the way of most commands is the procedure's way.
    const isBare = withSudo.length * 2 <= unsaid.length
    return uses.flatMap((use) => {
      if (use.isRoot)
        return use.sudo ? [sudoFault(use, 'This step is followed as root; sudo is not needed.')] : []
      if (!isMixed || (use.sudo !== null) !== isBare) return []
      return [
        use.sudo
          ? sudoFault(use, 'Most commands of this procedure that need root are run without sudo.')
          : faultAt(
              use.row,
              use.command.part,
              use.command,
              'It needs root, and most other commands here have sudo.',
            ),
      ]
    })
  },
}

interface RootUse {
  readonly row: ReadRow
  readonly command: Seen & { readonly part: ReadPart['part'] }
  readonly sudo: { readonly from: number; readonly isPlain: boolean } | null
  readonly isRoot: boolean
}

/** A command that needs root or has it from sudo; none that runs elsewhere or as somebody else. */
function maybeUse(row: ReadRow, command: RootUse['command']): RootUse[] {
  const { wrappers, host, container, user } = command.seen
  if (host.is !== 'same' || container.is !== 'same') return []
  const isRoot = row.row.place?.user === 'root'
  const sudo = wrappers.find(({ name }) => name === 'sudo' || name === 'doas')
  if (sudo && user.is === 'named' && user.name === 'root')
    return [{ row, command, isRoot, sudo: { from: sudo.from, isPlain: sudo.words.length === 1 } }]
  const needsRoot = isForRoot(command.seen)
  return wrappers.length === 0 && needsRoot ? [{ row, command, isRoot, sudo: null }] : []
}

function sudoFault({ row, command, sudo }: RootUse, sentence: string): FaultPlace {
  const { part } = command
  const at = part.text.slice(0, command.start).search(/(?:sudo|doas)\s+$/u)
  const start = at < 0 ? command.start : at
  const own = part.text.slice(start, command.end)
  const word = /^(?:sudo|doas)\s+/u.exec(own)?.[0]
  const range = { start, end: command.end }
  const isPlain = sudo?.isPlain === true && word !== undefined
  const mend: Mend | null = isPlain
    ? {
        does: 'edit',
        label: 'Take sudo away',
        edits: [{ part: part.id, start, end: start + word.length, insert: '' }],
      }
    : null
  return faultAt(row, part, range, sentence, mend)
}

export const commandRules: readonly Rule[] = [refusedCommand, pastedPrompt, sudoAsRoot]
