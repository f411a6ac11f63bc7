/** A command line that is a plain sequence of pipelines, and where each of them runs. */
import { splitCommands } from '../../shell/commands.ts'
import type { ShellCommand, SimpleCommand } from '../../shell/syntax.ts'
import { goesOnBehindDelimiter, maybeLiteralPath } from './literal.ts'
import { maybeWholePath } from './paths.ts'

export interface Pipeline {
  readonly pipe: readonly SimpleCommand[]
  /** The directory it runs in, null where that is not known. */
  readonly here: string | null
}

/**
 * The pipelines of a command that certainly run one after the other where all goes well. Empty where the command is
 * anything more: conditions, loops, functions, groups, `||`, `&`.
 */
export function sequenceOf(command: string, directory: string | null): Pipeline[] {
  const lines = splitCommands(command)
  if (lines.some(({ problem, isComplete }) => problem !== null || !isComplete)) return []
  const redirects = lines.flatMap(({ simple }) => simple.flatMap((one) => one.redirects))
  if (redirects.some(({ body }) => body !== null && goesOnBehindDelimiter(body))) return []
  let here = directory
  const sequence: Pipeline[] = []
  for (const line of lines) {
    for (const pipe of pipelinesOf(line, command)) {
      sequence.push({ pipe, here })
      here = directoryAfter(pipe, here)
    }
  }
  return sequence
}

/** The pipelines of a line that is a plain sequence of them; none where it is anything more. */
function pipelinesOf(line: ShellCommand, script: string): SimpleCommand[][] {
  const pipelines: SimpleCommand[][] = []
  let end = line.from
  for (const simple of line.simple) {
    const between = withoutDocuments(script, end, simple.from, line.simple)
    if (simple.isSubstituted) continue
    if (pipelines.length > 0 && /^\s*\|&?\s*$/.test(between)) pipelines.at(-1)!.push(simple)
    else if (pipelines.length > 0 ? /^\s*(?:&&|;|\n)\s*$/.test(between) : between.trim() === '')
      pipelines.push([simple])
    else return []
    end = endOf(simple)
  }
  return /^\s*;?\s*$/.test(withoutDocuments(script, end, line.to, line.simple)) && line.redirects.length === 0
    ? pipelines
    : []
}

/** Where a command ends on its line: behind the redirection of its document, too. */
const endOf = ({ to, redirects }: SimpleCommand): number => Math.max(to, ...redirects.map((one) => one.to))

/** What stands between two commands, without the here-documents that are written there, comments and joined lines. */
function withoutDocuments(
  script: string,
  from: number,
  to: number,
  commands: readonly SimpleCommand[],
): string {
  let text = ''
  let at = from
  const bodies = commands.flatMap(({ redirects }) => redirects.flatMap(({ body }) => body ?? []))
  for (const body of bodies.sort((a, b) => a.from - b.from)) {
    if (body.from < from || body.from > to) continue
    text += script.slice(at, body.from)
    // The line with the delimiter goes with its document.
    const end = script.indexOf('\n', body.to)
    at = end === -1 ? script.length : end
  }
  return (text + script.slice(at, Math.max(at, to))).replace(/\\\n/g, ' ').replace(/(^|\s)#.*$/gm, '$1')
}

function directoryAfter(pipe: readonly SimpleCommand[], here: string | null): string | null {
  const [name, ...rest] = pipe[0]!.words.map(maybeLiteralPath)
  if (pipe.length > 1 || name === undefined) return pipe.length > 1 ? here : null
  if (!['cd', 'pushd', 'popd', 'eval', '.', 'source'].includes(name)) return here
  const [path] = rest
  return name === 'cd' && rest.length === 1 && path ? (maybeWholePath(path, here) ?? null) : null
}

export interface Words {
  /** Undefined words are not sure. */
  readonly words: readonly (string | undefined)[]
  readonly isOtherUser: boolean
  /** The command runs in another directory than the one that was typed in. */
  readonly isElsewhere: boolean
}

/** The words of a command without sudo and its options before them. */
export function withoutSudo(command: SimpleCommand): Words {
  const words = command.words.map(maybeLiteralPath)
  if (words[0] !== 'sudo' && words[0] !== 'doas') return { words, isOtherUser: false, isElsewhere: false }
  let at = 1
  while (words[at]?.startsWith('-') === true) at += /^-[ugpCDRTh]$/.test(words[at]!) ? 2 : 1
  const isElsewhere = words.slice(1, at).some((word) => /^-[A-Za-z]*[iDR]|^--(?:login|ch)/.test(word ?? ''))
  return { words: words.slice(at), isOtherUser: true, isElsewhere }
}
