/** When two commands do the same: a normal form without harmless differences. */
import { hasOption, readArguments } from './options/arguments.ts'
import { toCommandText, type CommandParts } from './normal/command.ts'
import { readScript } from './reading/read.ts'
import type { GroupNode, ShellNode, ShellScript, SimpleNode } from './reading/tree.ts'
import { programOf, type SeenCommand } from './seen.ts'
import { maybeInner } from './wrappers/inner.ts'
import { wrappers } from './wrappers/table.ts'

/**
 * A text of shell in one form, itself a text of shell. Gone are: `sudo` and `doas` to root (also around `sh -c`), ways to
 * quote, the order of options that may stand in any, short forms of options, options that only say how talkative a program
 * is or that answer its questions, folders of the system's programs, synonyms (`apt-get install`, `ip a`), `.service`.
 * Here-documents become here-strings. Loops and conditions stay as written. A text that bash refuses is only trimmed.
 *
 * Idempotent. It says nothing of where a command runs: that two are the same on two machines is for the caller to see.
 */
export function normalForm(text: string): string {
  const script = readScript(text)
  if (script.problems.length > 0 || !script.isComplete || hasGroupWithDocument(script.root))
    return text.trim()
  return toText(script.root, script)
}

/** The normal form of one command without its wrappers. */
export function normalFormOf(seen: SeenCommand): string {
  return toCommandText(seen)
}

/** Whether two texts do the same where they run in the same place. */
export function sameCommand(one: string, other: string): boolean {
  return normalForm(one) === normalForm(other)
}

function hasGroupWithDocument(node: ShellNode): boolean {
  if (node.type === 'simple') return false
  if (node.type !== 'group') return node.parts.some(hasGroupWithDocument)
  return hasDocument(node)
}

function hasDocument(node: ShellNode): boolean {
  const own = node.type === 'simple' || node.type === 'group' ? node.redirections : []
  const parts = node.type === 'simple' ? node.substitutions : node.parts
  return own.some(({ body }) => body !== null) || parts.some(hasDocument)
}

function toText(node: ShellNode, script: ShellScript): string {
  switch (node.type) {
    case 'simple':
      return toSimpleText(node, script.text)
    case 'pipeline': {
      const parts = node.parts.map((one) => toText(one, script))
      const joined = parts.map((one, n) => (n === 0 ? one : `${node.joints[n - 1] ?? '|'} ${one}`)).join(' ')
      return `${node.isTimed ? 'time ' : ''}${node.isNegated ? '! ' : ''}${joined}`
    }
    case 'list':
      return node.parts
        .map((one, n) => {
          const joint = node.joints[n] ?? ';'
          if (n === node.parts.length - 1) return toText(one, script) + (joint === '&' ? ' &' : '')
          return `${toText(one, script)}${joint === ';' ? ';' : ` ${joint}`} `
        })
        .join('')
    case 'group':
      return toGroupText(node, script)
  }
}

function toGroupText(node: GroupNode, script: ShellScript): string {
  const written = script.text.slice(node.from, node.to).trim()
  const [body] = node.parts
  if (node.redirections.length > 0 || body === undefined) return written
  if (node.kind === 'subshell') return `(${toText(body, script)})`
  if (node.kind !== 'braces') return written
  const inner = toText(body, script)
  return `{ ${inner}${/&$/u.test(inner) ? '' : ';'} }`
}

function toSimpleText(node: SimpleNode, source: string): string {
  const parts = withoutSudo(node, source)
  return typeof parts === 'string' ? parts : toCommandText(parts)
}

/** Options of sudo that leave root, the folder and the command as they are. */
const plainSudo = ['-E', '-H', '-n', '-S', '-A', '-k', '-B', '-N', '-p', '-u']

/** A command without `sudo` and `doas` to root and without a bare `env`; a text where it was one for a shell. */
function withoutSudo(parts: CommandParts, source: string): CommandParts | string {
  const [first] = parts.words
  const name = first?.value ?? null
  if (name === null) return parts
  if (name === 'env') return withoutEnv(parts)
  const wrapper = ['sudo', 'doas'].includes(programOf(name))
    ? wrappers.find(({ names }) => names[0] === name)
    : undefined
  if (wrapper === undefined) return parts
  const args = readArguments(parts.words.slice(1), wrapper.rules)
  const isPlain = args.options.every(({ rule, value }) => {
    if (rule === null || !rule.names.some((one) => plainSudo.includes(one))) return false
    return !rule.names.includes('-u') || value?.value === 'root'
  })
  const [inner] = args.operands
  if (!isPlain || !args.isCertain || inner === undefined || hasOption(args, wrapper.without)) return parts
  if (/^[A-Za-z_]\w*=/u.test(inner.text) || inner.value === null || inner.value.startsWith('-')) return parts
  const bare = { ...parts, words: args.operands }
  return unwrappedShell(bare, source) ?? withoutSudo(bare, source)
}

/** `sudo sh -c 'text'` where the text is all there is. */
function unwrappedShell({ words, assignments, redirections }: CommandParts, source: string): string | null {
  const [shell, option, script] = words
  const isShell = ['sh', 'bash', 'dash'].includes(shell?.value ?? '') && option?.value === '-c'
  if (!isShell || script === undefined || script.value === null || words.length !== 3) return null
  if (assignments.length > 0 || redirections.length > 0) return null
  const inner = maybeInner([script], source)
  const [only] = inner?.type === 'list' && inner.parts.length === 1 ? inner.parts : []
  if (only?.type !== 'simple') return null
  const text = normalForm(script.value)
  return text === '' ? null : text
}

function withoutEnv(parts: CommandParts): CommandParts {
  const rest = parts.words.slice(1)
  const count = rest.findIndex(({ text }) => !/^[A-Za-z_]\w*=/u.test(text))
  if (count < 1 || rest[count]!.value === null || /^-/u.test(rest[count]!.value)) return parts
  const given = rest.slice(0, count).map(({ from, to, text, value }) => {
    const written = value ?? text
    const at = written.indexOf('=')
    return {
      from,
      to,
      text,
      name: written.slice(0, at),
      value: value === null ? null : written.slice(at + 1),
    }
  })
  return { ...parts, assignments: [...parts.assignments, ...given], words: rest.slice(count) }
}
