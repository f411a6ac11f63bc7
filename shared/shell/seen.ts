/** What really runs: commands seen through `sudo`, `env`, `ssh`, `sh -c` and the like. */
import { hasOption, maybeValue, type Arguments } from './options/arguments.ts'
import { readScript } from './reading/read.ts'
import type {
  Assignment,
  Redirection,
  ScriptWord,
  ShellNode,
  SimpleNode,
  Surrounding,
} from './reading/tree.ts'
import { maybeInner } from './wrappers/inner.ts'
import type { Wrapper } from './wrappers/table.ts'
import { commandIn, isText, maybeWrapper, readWrapped, switchedUser } from './wrappers/use.ts'
import { named, same, toDestination, toUser, unknown, type Party } from './wrappers/whereabouts.ts'

/** A wrapper as it was used. */
export interface WrapperUse {
  readonly name: string
  readonly source: string
  /** Its words up to the command that it runs. */
  readonly words: readonly ScriptWord[]
  readonly from: number
  readonly to: number
}

/** One command that a text runs, without its wrappers. */
export interface SeenCommand {
  readonly from: number
  readonly to: number
  /** The program without its folder. Null where an expansion decides; empty where only redirections or assignments stand. */
  readonly name: string | null
  /** The program and its arguments. */
  readonly words: readonly ScriptWord[]
  readonly assignments: readonly Assignment[]
  readonly redirections: readonly Redirection[]
  /** Outermost first. */
  readonly wrappers: readonly WrapperUse[]
  readonly user: Party
  readonly host: Party
  /** A container, a network namespace, another process's namespaces. */
  readonly container: Party
  /** The folder that is its root. */
  readonly root: Party
  /** Whether it runs any number of times: in a loop, by `xargs`, `watch` or `find`. */
  readonly isRepeated: boolean
  /** Whether it gets arguments that are not written: from `xargs`, `find`, an expansion. */
  readonly hasUnknownWords: boolean
  readonly within: readonly Surrounding[]
}

interface Context {
  readonly source: string
  readonly wrappers: readonly WrapperUse[]
  readonly user: Party
  readonly host: Party
  readonly container: Party
  readonly root: Party
  readonly isRepeated: boolean
  readonly addsWords: boolean
  readonly depth: number
  /** Whether the text was given by an expansion, so that substitutions in it have run already. */
  readonly isExpanded: boolean
}

/** How deep commands in commands are followed; a person writes two or three. */
const DEEPEST = 8

/** Every command that a text runs, in the order in which they are written. */
export function seenCommands(text: string): SeenCommand[] {
  return seenIn(readScript(text).root, text)
}

/** Every command of a tree that was read from a text. */
export function seenIn(node: ShellNode, source: string): SeenCommand[] {
  const context: Context = {
    source,
    wrappers: [],
    user: same,
    host: same,
    container: same,
    root: same,
    isRepeated: false,
    addsWords: false,
    depth: 0,
    isExpanded: false,
  }
  return throughNode(node, context)
}

/** What is given a text or a command: the commands in it. */
export function toSeen(given: string | SeenCommand): SeenCommand[] {
  return typeof given === 'string' ? seenCommands(given) : [given]
}

/** Whether a command surely runs as root because of what stands before it. */
export const isAsRoot = ({ user }: SeenCommand): boolean => user.is === 'named' && user.name === 'root'

/** The name of a program without the folder that it lies in. */
export const programOf = (value: string): string => value.slice(value.lastIndexOf('/') + 1)

function throughNode(node: ShellNode, context: Context): SeenCommand[] {
  if (node.type === 'simple') {
    const inner = (context.isExpanded ? [] : node.substitutions).flatMap((one) => throughNode(one, context))
    return [...throughSimple(node, node.words, [...node.assignments], context), ...inner]
  }
  if (node.type !== 'group') return node.parts.flatMap((one) => throughNode(one, context))
  const found = [...node.substitutions, ...node.parts].flatMap((one) => throughNode(one, context))
  if (node.redirections.length === 0) return found.sort((a, b) => a.from - b.from)
  const { from, to, redirections } = node
  const bare: SimpleNode = {
    type: 'simple',
    from,
    to,
    assignments: [],
    words: [],
    redirections,
    within: [],
    substitutions: [],
  }
  return [...found, toCommand(bare, [], [], context)].sort((a, b) => a.from - b.from)
}

function toCommand(
  node: SimpleNode,
  words: readonly ScriptWord[],
  assignments: readonly Assignment[],
  context: Context,
): SeenCommand {
  const [first] = words
  const isOuter = words.length === node.words.length
  const isLoop = node.within.some((one) => ['for', 'while', 'until', 'select'].includes(one))
  return {
    from: isOuter ? node.from : first!.from,
    to: node.to,
    name: first === undefined ? '' : first.value === null ? null : programOf(first.value),
    words,
    assignments,
    redirections: node.redirections,
    wrappers: context.wrappers,
    user: context.user,
    host: context.host,
    container: context.container,
    root: context.root,
    isRepeated: context.isRepeated || isLoop,
    hasUnknownWords: context.addsWords || words.some(({ value }) => value === null),
    within: node.within,
  }
}

function throughSimple(
  node: SimpleNode,
  words: readonly ScriptWord[],
  assignments: readonly Assignment[],
  context: Context,
): SeenCommand[] {
  const name = programOf(words[0]?.value ?? '')
  const own = (): SeenCommand[] => [toCommand(node, words, assignments, context)]
  if (context.depth >= DEEPEST || name === '') return own()
  if (name === 'find') return throughFind(node, words, assignments, context)
  const found = maybeWrapper(name, words)
  if (found === null) return own()
  const { wrapper, rest } = found
  const args = readWrapped(wrapper, rest)
  if (wrapper.without.some((option) => hasOption(args, [option]))) return own()
  const inner = commandIn(wrapper, args)
  if (inner.length === 0) return own()
  const taken = wrapper.takesAssignments ? inner.findIndex((one) => !isAssignment(one)) : 0
  const head = taken === -1 ? inner : inner.slice(0, taken)
  const command = taken === -1 ? [] : inner.slice(taken)
  if (command.length === 0) return own()
  const used = words.slice(0, Math.max(1, words.indexOf(command[0]!)))
  const use: WrapperUse = {
    name: [name, ...wrapper.subcommands].join(' '),
    source: wrapper.source,
    words: used,
    from: words[0]!.from,
    to: used.at(-1)!.to,
  }
  const next = within(wrapper, args, {
    ...context,
    depth: context.depth + 1,
    wrappers: [...context.wrappers, use],
  })
  const all = [...assignments, ...head.map(toAssigned)]
  if (isText(wrapper, args)) {
    const read = maybeInner(wrapper.handing.as === 'text' ? command : command.slice(0, 1), context.source)
    // Redirections stand outside of a text, and are the outer shell's.
    const outer = node.redirections.length === 0 ? [] : [toCommand({ ...node, words: [] }, [], [], context)]
    if (read === null) return own()
    // Substitutions in a text that is expanded first are the outer shell's, and found there.
    const isExpanded = command.some(({ value }) => value === null)
    return [...throughNode(read, { ...next, isExpanded: next.isExpanded || isExpanded }), ...outer]
  }
  return throughSimple(node, command, all, next)
}

/** Who and where, inside of a wrapper. */
function within(wrapper: Wrapper, args: Arguments, context: Context): Context {
  const [first = null] = args.operands
  const option = maybeValue(args, wrapper.userOption)
  const isAsked = wrapper.userOption.length > 0 && hasOption(args, wrapper.userOption)
  let { user, host, container, root } = context
  if (wrapper.firstOperand === 'host') ({ host, user } = toDestination(first))
  if (wrapper.firstOperand === 'container') container = namedBy(first)
  if (wrapper.firstOperand === 'root') root = namedBy(first)
  if (wrapper.names.some((one) => ['nsenter', 'unshare', 'systemd-nspawn'].includes(one))) container = unknown
  if (wrapper.firstOperand === 'container' && wrapper.subcommands[0] !== 'netns') user = unknown
  if (isAsked) user = toUser(option)
  else if (wrapper.handing.as === 'option') user = switchedUser(args)
  else if (wrapper.user !== null) user = named(wrapper.user)
  return {
    ...context,
    user,
    host,
    container,
    root,
    isRepeated: context.isRepeated || wrapper.isRepeated,
    addsWords: context.addsWords || wrapper.addsWords,
  }
}

const namedBy = (word: ScriptWord | null): Party => (word?.value ? named(word.value) : unknown)

const assigned = /^([A-Za-z_]\w*)=(.*)$/su

const isAssignment = ({ text }: ScriptWord): boolean => assigned.test(text)

function toAssigned({ from, to, text, value }: ScriptWord): Assignment {
  const [, name = '', given = ''] = assigned.exec(value ?? text) ?? []
  return { from, to, text, name, value: value === null ? null : given }
}

/** `find … -exec command {} \;` runs a command for what it finds. */
function throughFind(
  node: SimpleNode,
  words: readonly ScriptWord[],
  assignments: readonly Assignment[],
  context: Context,
): SeenCommand[] {
  const found: SeenCommand[] = [toCommand(node, words, assignments, context)]
  for (let n = 1; n < words.length; n += 1) {
    if (!/^-(?:exec|execdir|ok|okdir)$/u.test(words[n]!.value ?? '')) continue
    const length = words.slice(n + 1).findIndex(({ value }) => value === ';' || value === '+')
    const end = length === -1 ? words.length : n + 1 + length
    const inner = words
      .slice(n + 1, end)
      .map((word) => (word.value?.includes('{}') ? { ...word, value: null } : word))
    if (inner.length === 0) continue
    const use: WrapperUse = {
      name: 'find -exec',
      source: 'find(1)',
      words: words.slice(0, n + 1),
      from: words[0]!.from,
      to: words[n]!.to,
    }
    const next: Context = {
      ...context,
      depth: context.depth + 1,
      wrappers: [...context.wrappers, use],
      isRepeated: true,
      addsWords: true,
    }
    const place = { ...node, from: inner[0]!.from, to: inner.at(-1)!.to, redirections: [], words: inner }
    found.push(...throughSimple(place, inner, [], next))
    n = end
  }
  return found
}
