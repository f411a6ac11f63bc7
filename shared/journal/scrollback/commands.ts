/** The commands that stand in the Markdown of an action. */
import type { Code, InlineCode, Nodes, Paragraph, Parent } from 'mdast'
import { maybeTree } from '../../markdown/parse.ts'
import { splitCommands } from '../../shell/commands.ts'
import { commandLikelihood } from '../../shell/likely.ts'
import { learnPrompts, promptsOf } from '../terminal/prompts/learn.ts'
import type { PromptedCommand } from '../terminal/prompts/line.ts'
import { codeLines, paragraphLines, type SourceLine } from './source-lines.ts'

export interface MarkdownCommand {
  /** Where it stands in the Markdown, UTF-16 code units. Within a list or a quotation the range holds their signs. */
  readonly from: number
  readonly to: number
  /** Exactly what is to be run: no prompt, no line end behind it. */
  readonly command: string
  /** What told it: a fenced block, code in a line, a prompt before it, or its words alone. */
  readonly by: 'fence' | 'inline' | 'prompt' | 'words'
}

const shellLanguages = new Set(['sh', 'bash', 'zsh', 'ksh', 'dash', 'fish', 'shell', 'shellscript'])
/** Blocks that show a terminal: only what stands behind a prompt was typed. */
const sessionLanguages = new Set([
  'console',
  'terminal',
  'shell-session',
  'shellsession',
  'sh-session',
  'bash-session',
])

/**
 * The commands in a Markdown text, in order:
 *
 * - in a block of code for a shell: behind prompts where there are any, else every command in it
 * - in a block without a language: behind prompts, else all of it where all of it reads like commands
 * - in a line: code that reads like a command with an argument, or that is the whole paragraph
 * - in plain text: behind a prompt, and a paragraph whose every line surely is a command
 *
 * A command over several lines (joined lines, here-documents, quotes, loops) is one.
 */
export function commandsOf(markdown: string): MarkdownCommand[] {
  const tree = maybeTree(markdown)
  if (!tree) return []
  const found: MarkdownCommand[] = []
  walk(tree, markdown, found)
  return found.sort((a, b) => a.from - b.from)
}

function walk(node: Nodes, markdown: string, found: MarkdownCommand[]): void {
  if (node.type === 'code') found.push(...inBlock(node, markdown))
  else if (node.type === 'inlineCode') found.push(...inCode(node, markdown, false))
  else if (node.type === 'paragraph') found.push(...inParagraph(node, markdown))
  else if ('children' in node) for (const child of (node as Parent).children) walk(child, markdown, found)
}

function inBlock(node: Code, markdown: string): MarkdownCommand[] {
  const language = (node.lang ?? '').toLowerCase()
  const isShell = shellLanguages.has(language)
  if (language !== '' && !isShell && !sessionLanguages.has(language)) return []
  const lines = codeLines(node, markdown)
  const prompted = behindPrompts(lines, true)
  if (prompted.length > 0 && !(isShell && isScript(lines, prompted))) {
    return prompted.map((one) => fromPrompt(one, lines))
  }
  if (sessionLanguages.has(language)) return []
  const all = inScript(lines)
  return isShell || all.every(({ command }) => commandLikelihood(command.split('\n')[0] ?? '') >= 1)
    ? all
    : []
}

/**
 * Whether a block for a shell is a script all the same: a line with `#` is a remark there, not root's prompt, and
 * something is to be run before the first line that looks like a prompt.
 */
function isScript(lines: readonly SourceLine[], prompted: readonly PromptedCommand[]): boolean {
  const isRoots = prompted.every(
    ({ place, within }) => within === null && place.isRoot && place.host === null,
  )
  const above = lines.slice(0, prompted[0]?.from ?? 0)
  return (
    isRoots ||
    prompted.every((one) => isRedirection(one, lines)) ||
    above.some(({ text }) => /^\s*[^\s#]/u.test(text))
  )
}

/** Whether what looks like a prompt is a command up to where its output is sent: `zcat readings.gz > /tmp/readings`. */
function isRedirection({ typedFrom, within }: PromptedCommand, lines: readonly SourceLine[]): boolean {
  const prompt = lines[typedFrom.line]?.text.slice(0, typedFrom.column).trimEnd() ?? ''
  return within === null && /^\S+ .*>$/u.test(prompt) && commandLikelihood(prompt.slice(0, -1)) >= 1
}

/** Every command of a script. */
function inScript(lines: readonly SourceLine[]): MarkdownCommand[] {
  const script = lines.map(({ text }) => text).join('\n')
  const toSource = (at: number): number => {
    let rest = at
    for (const { text, from } of lines) {
      if (rest <= text.length) return from + rest
      rest -= text.length + 1
    }
    return lines.at(-1)?.from ?? 0
  }
  return splitCommands(script).map(({ text, from, to }) => ({
    from: toSource(from),
    to: toSource(to),
    command: text,
    by: 'fence',
  }))
}

/** @param isCode whether every line with a bare sign was meant as a prompt */
function behindPrompts(lines: readonly SourceLine[], isCode: boolean): PromptedCommand[] {
  const shown = lines.map(({ text }) =>
    isCode && /^[$%] \S/u.test(text) ? { text: text.trimEnd(), isEdited: true } : { text: text.trimEnd() },
  )
  return promptsOf(learnPrompts(shown)).filter(({ command }) => command.trim() !== '')
}

function fromPrompt(
  { typedFrom, outputFrom, command }: PromptedCommand,
  lines: readonly SourceLine[],
): MarkdownCommand {
  const first = lines[typedFrom.line]
  const last = lines[outputFrom - 1]
  const from = (first?.from ?? 0) + typedFrom.column
  const to = (last?.from ?? 0) + (last?.text.trimEnd().length ?? 0)
  return { from, to, command, by: 'prompt' }
}

function inParagraph(node: Paragraph, markdown: string): MarkdownCommand[] {
  const lines = paragraphLines(node, markdown)
  const prompted = behindPrompts(lines, false)
  if (prompted.length > 0) return prompted.map((one) => fromPrompt(one, lines))
  const isPlain = node.children.every(({ type }) => type === 'text')
  if (isPlain && lines.every(({ text }) => isSurelyCommand(text))) {
    return inScript(lines).map((one) => ({ ...one, by: 'words' as const }))
  }
  const isAlone = node.children.length === 1
  return codesIn(node).flatMap((code) => inCode(code, markdown, isAlone))
}

function codesIn(node: Parent): InlineCode[] {
  return node.children.flatMap((child) => {
    if (child.type === 'inlineCode') return [child]
    return 'children' in child ? codesIn(child) : []
  })
}

/** A known name with an option, an operator or a path, and nothing of prose. */
function isSurelyCommand(line: string): boolean {
  return (
    commandLikelihood(line) >= 3 &&
    splitCommands(line).every(({ isComplete, problem }) => isComplete && problem === null)
  )
}

function inCode({ value, position }: InlineCode, markdown: string, isAlone: boolean): MarkdownCommand[] {
  const start = position?.start.offset
  const end = position?.end.offset
  if (start === undefined || end === undefined) return []
  const bare = value.replace(/^[$%] (?=\S)/u, '').trim()
  const [one, ...more] = splitCommands(bare)
  if (!one || more.length > 0 || !one.isComplete || one.problem !== null) return []
  const likelihood = commandLikelihood(bare)
  const isEnough = bare !== value.trim() || likelihood >= (startsWithPath(bare) ? 3 : 2)
  if (!(isAlone && likelihood >= 1 && !startsWithPath(bare)) && !(isEnough && /\s/u.test(bare))) return []
  const at = markdown.slice(start, end).indexOf(bare)
  // A line end within code is shown as a blank; then the place of the words is that of the code.
  const from = at === -1 ? start : start + at
  return [{ from, to: at === -1 ? end : from + bare.length, command: bare, by: 'inline' }]
}

const startsWithPath = (text: string): boolean => /^[~/]/u.test(text)
