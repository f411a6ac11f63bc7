/** Reading a text of shell with the library's grammar of bash. */
import { forEachChild, parse, type Command, type CommandNode, type SyntaxNode, type Statement } from 'unbash'
import { splitCommands } from '../commands.ts'
import type { ShellCommand } from '../syntax.ts'
import { withPlaces } from './moved.ts'
import { toAssignment, toArgument, toRedirection, toWord, type Places } from './words.ts'
import type {
  Assignment,
  GroupKind,
  GroupNode,
  Joint,
  ListNode,
  Redirection,
  ScriptWord,
  ShellNode,
  ShellProblem,
  ShellScript,
  SimpleNode,
  Surrounding,
} from './tree.ts'

interface Around {
  readonly places: Places
  readonly within: readonly Surrounding[]
  readonly problems: ShellProblem[]
}

/**
 * Reads a whole text: a command, a line with several, a script. Whatever is broken is left out of the tree and named in
 * `problems`; it never throws.
 */
export function readScript(text: string): ShellScript {
  const problems: ShellProblem[] = []
  // A line end as on Windows is one; the places stay.
  const read = parse(text.replace(/\r\n/gu, ' \n'))
  const same = (at: number): number => Math.max(0, Math.min(at, text.length))
  const around: Around = { places: { text, from: same, to: same }, within: [], problems }
  noteErrors(read, around)
  const root = toList(read.commands, around, 0, text.length)
  const own = splitCommands(text)
  if (problems.length === 0) problems.push(...secondOpinion(text, own))
  return { text, root, problems, isComplete: own.every(({ isComplete }) => isComplete) }
}

/**
 * The library lets through `name(` without its other bracket and what releases of bash behind 5.2 added. The older
 * grammar does not; its word counts where the library has none. A here-document without an end is no mistake to bash.
 */
function secondOpinion(text: string, own: readonly ShellCommand[]): ShellProblem[] {
  return own.flatMap(({ from, problem, isComplete, text: one }) => {
    if (problem !== null) return [{ at: from, message: problem }]
    const isOpen = !isComplete && !/<<-?/u.test(one) && !/\\\n?$/u.test(text)
    return isOpen ? [{ at: from, message: 'It is not finished.' }] : []
  })
}

/** What `bash -n` would refuse; empty where it accepts the text. */
export function findProblems(text: string): readonly ShellProblem[] {
  return readScript(text).problems
}

/** All simple commands of a tree in the order in which they are written, also in loops, functions and substitutions. */
export function simpleCommandsOf(node: ShellNode): SimpleNode[] {
  switch (node.type) {
    case 'simple':
      return [node, ...node.substitutions.flatMap(simpleCommandsOf)]
    case 'group':
      return [...node.substitutions, ...node.parts].flatMap(simpleCommandsOf).sort((a, b) => a.from - b.from)
    default:
      return node.parts.flatMap(simpleCommandsOf)
  }
}

function noteErrors(
  read: { readonly errors?: readonly { message: string; pos: number }[] | undefined },
  around: Around,
): void {
  for (const { message, pos } of read.errors ?? [])
    around.problems.push({ at: around.places.from(pos), message: `${message}.` })
}

function toList(statements: readonly Statement[], around: Around, from: number, to: number): ListNode {
  const joints = statements.map(({ background }): Joint => (background === true ? '&' : ';'))
  return { type: 'list', from, to, parts: statements.map(({ command }) => toNode(command, around)), joints }
}

function toNode(node: Statement['command'] | CommandNode, around: Around): ShellNode {
  const { places } = around
  const place = { from: places.from(node.pos), to: places.to(node.end) }
  if (node.type === 'Command') return toSimple(node, around)
  if (node.type === 'AndOr') {
    const parts = node.commands.map((one) => toNode(one, around))
    return { type: 'list', ...place, parts, joints: [...node.operators, ';'] }
  }
  if (node.type === 'Pipeline') {
    return {
      type: 'pipeline',
      ...place,
      parts: node.commands.map((one) => toNode(one, around)),
      joints: node.operators,
      isNegated: node.prefixes.filter(({ type }) => type === 'Negation').length % 2 === 1,
      isTimed: node.prefixes.some(({ type }) => type === 'Time'),
    }
  }
  if (node.type === 'Redirected') {
    const inner = toGroup(node.command, around)
    const redirections = node.redirects.map((one) => toRedirection(one, places))
    return { ...inner, ...place, redirections: [...inner.redirections, ...redirections] }
  }
  return toGroup(node, around)
}

function toSimple(node: Command, around: Around): SimpleNode {
  const { places } = around
  const assignments: Assignment[] = []
  const words: ScriptWord[] = []
  const redirections: Redirection[] = []
  for (const one of node.prefix) {
    if (one.type === 'Assignment') assignments.push(toAssignment(one, places))
    else redirections.push(toRedirection(one, places))
  }
  if (node.name !== undefined) words.push(toWord(node.name, places))
  for (const one of node.suffix) {
    if (one.type === 'Word') words.push(toWord(one, places))
    else if (one.type === 'Assignment') words.push(toArgument(one, places))
    else redirections.push(toRedirection(one, places))
  }
  return {
    type: 'simple',
    from: places.from(node.pos),
    to: places.to(node.end),
    assignments,
    words,
    redirections,
    within: around.within,
    substitutions: substitutionsIn(node, around),
  }
}

const kinds = {
  If: 'if',
  For: 'for',
  ArithmeticFor: 'for',
  Select: 'select',
  Subshell: 'subshell',
  BraceGroup: 'braces',
  Case: 'case',
  TestCommand: 'test',
  ArithmeticCommand: 'arithmetic',
  Function: 'function',
  Coproc: 'coproc',
} as const satisfies Record<string, GroupKind>

type Grouped = Exclude<CommandNode, { type: 'Command' | 'Redirected' }>

function toGroup(node: Grouped, around: Around): GroupNode {
  const kind: GroupKind = node.type === 'While' ? node.kind : kinds[node.type]
  const inner: Around = { ...around, within: [...around.within, kind] }
  const parts: ShellNode[] = []
  const words: ScriptWord[] = []
  const redirections: Redirection[] = []
  const substitutions: ShellNode[] = []
  const take = (child: SyntaxNode): void => {
    if (child.type === 'CompoundList') {
      parts.push(toList(child.commands, inner, inner.places.from(child.pos), inner.places.to(child.end)))
    } else if (child.type === 'Elif' || child.type === 'CaseItem') forEachChild(child, take)
    else if (child.type === 'Word') {
      words.push(toWord(child, inner.places))
      substitutions.push(...substitutionsIn(child, inner))
    } else if (child.type === 'Redirect' || child.type === 'HereString' || child.type === 'HereDoc') {
      redirections.push(toRedirection(child, inner.places))
    } else if (isCommand(child)) parts.push(toNode(child, inner))
    else substitutions.push(...substitutionsIn(child, inner))
  }
  forEachChild(node, take)
  return {
    type: 'group',
    kind,
    from: around.places.from(node.pos),
    to: around.places.to(node.end),
    parts,
    words,
    redirections,
    substitutions,
  }
}

const commandTypes = new Set<string>([
  ...Object.keys(kinds),
  'While',
  'Command',
  'Redirected',
  'Pipeline',
  'AndOr',
])

function isCommand(node: SyntaxNode): node is Statement['command'] {
  return commandTypes.has(node.type)
}

/** The scripts in the words of a node. */
function substitutionsIn(node: SyntaxNode, around: Around): ShellNode[] {
  const inner: Around = { ...around, within: [...around.within, 'substitution'] }
  const found: ShellNode[] = []
  const look = (child: SyntaxNode): void => {
    if (child.type !== 'Script') return forEachChild(child, look)
    noteErrors(child, around)
    const [from, to] = [around.places.from(child.pos), around.places.to(child.end)]
    if (child.source === undefined) found.push(toList(child.commands, inner, from, to))
    else found.push(...toUnescaped(child.commands, inner, child.source, node))
  }
  forEachChild(node, look)
  return found
}

/** Backquotes with escapes in them: their script is another text, so that all of it stands where its word does. */
function toUnescaped(
  statements: readonly Statement[],
  around: Around,
  source: string,
  host: SyntaxNode,
): ShellNode[] {
  const [from, to] = [around.places.from(host.pos), around.places.to(host.end)]
  const places: Places = { text: source, from: (at) => at, to: (at) => at }
  const list = toList(statements, { ...around, places }, 0, source.length)
  return [
    withPlaces(
      list,
      () => from,
      () => to,
    ),
  ]
}
