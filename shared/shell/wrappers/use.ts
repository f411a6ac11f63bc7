/** How a wrapper was used: its options, and the command that it was given. */
import { hasOption, maybeValue, readArguments, type Arguments } from '../options/arguments.ts'
import type { ScriptWord } from '../reading/tree.ts'
import { wrappers, type Wrapper } from './table.ts'
import { named, toUser, type Party } from './whereabouts.ts'

export interface FoundWrapper {
  readonly wrapper: Wrapper
  /** The words behind its name and subcommands. */
  readonly rest: readonly ScriptWord[]
}

export function maybeWrapper(name: string, words: readonly ScriptWord[]): FoundWrapper | null {
  for (const wrapper of wrappers) {
    if (!wrapper.names.includes(name)) continue
    const rest = behindSubcommands(words.slice(1), wrapper.subcommands)
    if (rest !== null) return { wrapper, rest }
  }
  return null
}

/** What stands behind the subcommands; options between the name and them are passed over. */
function behindSubcommands(
  words: readonly ScriptWord[],
  wanted: readonly string[],
): readonly ScriptWord[] | null {
  let rest = words
  for (const one of wanted) {
    const at = rest.findIndex(({ value }) => value === one)
    const isBehindOptions = rest.slice(0, Math.max(at, 0)).every(({ value }, n) => {
      const before = rest[n - 1]?.value ?? ''
      return /^-/u.test(value ?? '') || /^-/u.test(before)
    })
    if (at === -1 || !isBehindOptions) return null
    rest = rest.slice(at + 1)
  }
  return rest
}

export function readWrapped(wrapper: Wrapper, words: readonly ScriptWord[]): Arguments {
  const { handing, userOption, rules, firstOperand } = wrapper
  const args = readArguments(words, rules)
  // ssh(1) takes options on both sides of the host.
  if (firstOperand === 'host') return withLater(args, readArguments(args.operands.slice(1), rules))
  if (handing.as !== 'option' || (userOption.length > 0 && hasOption(args, userOption))) return args
  return readArguments(words, { ...rules, endsAtOperand: false })
}

function withLater(args: Arguments, later: Arguments): Arguments {
  return {
    options: [...args.options, ...later.options],
    operands: [...args.operands.slice(0, 1), ...later.operands],
    isCertain: args.isCertain && later.isCertain,
    endsAtOperand: true,
  }
}

/** The words of the command that a wrapper runs. */
export function commandIn(wrapper: Wrapper, args: Arguments): readonly ScriptWord[] {
  const { handing, operands, userOption } = wrapper
  if (handing.as === 'option' && !(userOption.length > 0 && hasOption(args, userOption))) {
    const value = maybeValue(args, [handing.option])
    return value === null ? [] : [value]
  }
  if (handing.as === 'first word' && !hasOption(args, ['-c'])) return []
  const rest = args.operands.slice(operands).filter(({ value }, n) => n > 0 || value !== '--')
  return isLockText(wrapper, args) ? rest.slice(1) : rest
}

/** `flock file -c '…'`: the option stands behind the file. */
function isLockText({ names }: Wrapper, { operands }: Arguments): boolean {
  return names.includes('flock') && /^(?:-c|--command)$/u.test(operands[1]?.value ?? '')
}

/** Whether the command is a text for a shell, in which operators count. */
export function isText(wrapper: Wrapper, args: Arguments): boolean {
  const { handing, userOption, names } = wrapper
  if (isLockText(wrapper, args)) return true
  if (handing.as === 'option') return !(userOption.length > 0 && hasOption(args, userOption))
  if (names.includes('watch') && hasOption(args, ['-x', '--exec'])) return false
  return handing.as !== 'words'
}

/** The user that `su` and `runuser` become: root where none is named. */
export function switchedUser({ operands }: Arguments): Party {
  const word = operands.find(({ value }) => value !== '-')
  return word === undefined ? named('root') : toUser(word)
}
