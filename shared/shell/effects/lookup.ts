/** The rows of the table that fit a command. */
import { hasOption, noRules, readArguments, type Arguments } from '../options/arguments.ts'
import { hasRules, optionRulesOf } from '../options/table.ts'
import type { ScriptWord } from '../reading/tree.ts'
import type { SeenCommand } from '../seen.ts'
import { fileRows } from './files.ts'
import { networkRows } from './network.ts'
import { packageRows } from './packages.ts'
import { programRows } from './programs.ts'
import { narrowness, toEffectRow, type EffectRow } from './rows.ts'
import { storageRows } from './storage.ts'
import { systemRows } from './system.ts'

/** The whole table. */
export const effectRows: readonly EffectRow[] = [
  ...packageRows,
  ...systemRows,
  ...fileRows,
  ...storageRows,
  ...networkRows,
  ...programRows,
].map(toEffectRow)

const byProgram = new Map<string, EffectRow[]>()
for (const row of effectRows) {
  for (const program of row.programs) byProgram.set(program, [...(byProgram.get(program) ?? []), row])
}

/** Programs whose options mean something else before the subcommand than behind it. */
const staged = new Set(['git', 'docker', 'podman', 'nerdctl', 'docker-compose'])

/** The arguments of a command before and behind its subcommand, null behind where options may stand on either side. */
export interface ArgumentParts {
  readonly before: Arguments
  readonly subcommand: ScriptWord | null
  readonly behind: Arguments | null
}

export function argumentPartsOf({ name, words }: Pick<SeenCommand, 'name' | 'words'>): ArgumentParts {
  const program = name ?? ''
  const args = readArguments(words.slice(1), optionRulesOf(program))
  const subcommand = args.operands[0] ?? null
  const hasOwn = hasRules(`${program} ${subcommand?.value ?? ''}`)
  const at = subcommand === null ? -1 : words.indexOf(subcommand)
  if (subcommand === null || at === -1 || (!hasOwn && !staged.has(program))) {
    return { before: args, subcommand: null, behind: null }
  }
  const rules = hasOwn ? optionRulesOf(program, subcommand.value) : noRules
  const before = readArguments(
    words.slice(1, at),
    hasOwn && !staged.has(program) ? rules : optionRulesOf(program),
  )
  return { before, subcommand, behind: readArguments(words.slice(at + 1), rules) }
}

/** The arguments of a command by the rules of its options, and of those of its subcommand. */
export function argumentsOf(command: Pick<SeenCommand, 'name' | 'words'>): Arguments {
  const { before, subcommand, behind } = argumentPartsOf(command)
  if (subcommand === null || behind === null) return before
  return {
    options: [...before.options, ...behind.options],
    operands: [subcommand, ...behind.operands],
    isCertain: before.isCertain && behind.isCertain,
    endsAtOperand: behind.endsAtOperand,
  }
}

export interface FoundRows {
  readonly rows: readonly EffectRow[]
  readonly args: Arguments
  readonly program: string
}

/** The narrowest rows that fit, empty where the table has none. */
export function rowsFor(
  command: Pick<SeenCommand, 'name' | 'words'> & { readonly hasUnknownWords?: boolean },
): FoundRows {
  const program = command.name ?? ''
  const args = argumentsOf(command)
  const fitting = (byProgram.get(program) ?? []).filter((row) => fits(row, args, command))
  const most = Math.max(...fitting.map(narrowness))
  return { rows: fitting.filter((row) => narrowness(row) === most), args, program }
}

function fits(row: EffectRow, args: Arguments, command: Parameters<typeof rowsFor>[0]): boolean {
  const { words, hasUnknownWords = false } = command
  const { subcommands, options, operands, hasOperands } = row
  const given = args.operands
  const isNamed = subcommands.every((names, n) => {
    const value = given[n]?.value ?? null
    return names[0] === '*' ? given[n] !== undefined : value !== null && names.includes(value)
  })
  if (!isNamed || !options.every((names) => hasOption(args, names))) return false
  const values = words.slice(1).map(({ value, text }) => value ?? text)
  if (!operands.every((pattern) => values.some((value) => pattern.test(value)))) return false
  return hasOperands === null || (hasUnknownWords || given.length > subcommands.length) === hasOperands
}

/** Whether the table has a row for a program, whatever its arguments. */
export const isInTable = (program: string): boolean => byProgram.has(program)
