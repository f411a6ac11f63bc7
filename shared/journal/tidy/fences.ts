/**
 * Setting runs apart: the commands in an `sh` fence without their prompts, so that they copy exactly, and the answer
 * as it stands in a `text` fence behind it. A prompt that says more than `$` goes on in the fence's info string, where
 * it says who ran the commands and where (CommonMark 0.31.2 §4.5: only its first word is the language).
 */
import { visit } from 'unist-util-visit'
import { maybeTree } from '../../markdown/parse.ts'
import { applyEdits, toEdit, type Edit, type Replacement } from './edits.ts'
import { indentOf, isBlank, type Line } from './lines.ts'
import type { Run, TypedCommand } from './runs.ts'

interface Fenced {
  readonly edit: Edit
  /** What the fences must hold once Markdown reads them. */
  readonly contents: readonly string[]
}

/** The edits for those runs that Markdown reads as code once they are taken, all together. */
export function fenceRuns(text: string, lines: readonly Line[], runs: readonly Run[]): Edit[] {
  let fenced = runs.map((run, at) => fence(lines, run, runs[at + 1]))
  for (;;) {
    const isRead = readersOf(text, fenced)
    const good = fenced.filter((_, at) => isRead[at])
    if (good.length === fenced.length) return good.map(({ edit }) => edit)
    fenced = good
  }
}

function fence(lines: readonly Line[], run: Run, next: Run | undefined): Fenced {
  const commands = run.commands.filter(({ isEmpty }) => !isEmpty)
  // Inside an item of a list a fence must be set in as the item's words are, and no empty line may tear the list.
  const indent = isWithinItem(lines, run) ? indentIn(lines[run.first]!.text) : ''
  const gap = indent === '' ? '\n' : ''
  const isApart = run.first === 0 || isBlank(lines[run.first - 1])
  const isEnd = isBlank(lines[run.last + 1]) || next?.first === run.last + 1
  const answer = run.answer ? lines.slice(run.answer.first, run.answer.last + 1) : []
  const typed = commands.map((command) => ownLines(lines, command))
  const outer: Pieces = { indent, before: isApart ? '' : gap, between: gap, behind: isEnd ? '' : gap }
  return {
    contents: [typed.flat(), answer.map(({ text }) => withoutIndent(text, indentOf(indent)))]
      .filter((own) => own.length > 0)
      .map((own) => own.join('\n')),
    edit: toEdit(
      commands.length > 0 ? 'command' : 'output',
      [
        ...commandChanges(lines, run, commands, typed, outer),
        ...answerChanges(answer, commands.length > 0, outer),
      ].filter(({ from, to, insert }) => from < to || insert !== ''),
      wordsFor(run, commands.length),
    ),
  }
}

function wordsFor({ answer }: Run, commands: number): string {
  if (commands === 0) return 'Set an output apart'
  const noun = commands === 1 ? 'a command' : 'commands'
  if (!answer) return `Set ${noun} apart`
  return `Set ${noun} and ${commands === 1 ? 'its' : 'their'} answer apart`
}

interface Pieces {
  readonly indent: string
  /** Line ends before the first fence, between the two and behind the last one. */
  readonly before: string
  readonly between: string
  readonly behind: string
}

function commandChanges(
  lines: readonly Line[],
  run: Run,
  commands: readonly TypedCommand[],
  typed: readonly (readonly string[])[],
  { indent, before, behind }: Pieces,
): Replacement[] {
  const [first, last] = [commands[0], commands.at(-1)]
  if (!first || !last) return []
  const ticks = ticksFor(typed.flat())
  const head = `${before}${indent}${ticks}sh${infoOf(run.prompt)}\n${indent}`
  const foot = `\n${indent}${ticks}${run.answer ? '' : behind}`
  const changes = commands.flatMap((command, at): Replacement[] => {
    const { from } = lines[command.first]!
    const further = lines.slice(command.first + 1, command.last + 1)
    return [
      { from, to: from + command.promptLength, insert: at === 0 ? head : indent },
      ...further.map((line, n) => {
        // A further prompt (`> `) is none of the command's; the indent stays as it was.
        const own = typed[at]![n + 1]!
        return { from: line.from, to: line.end - own.length, insert: own === line.text ? '' : indent }
      }),
    ]
  })
  const end = lines[last.last]!.end
  return [...emptyChanges(lines, run, first.first), ...changes, { from: end, to: end, insert: foot }].sort(
    (a, b) => a.from - b.from || a.to - b.to,
  )
}

/** Prompts at which nothing was typed go, each with one line end. */
function emptyChanges(lines: readonly Line[], run: Run, first: number): Replacement[] {
  return run.commands
    .filter(({ isEmpty }) => isEmpty)
    .map(({ first: n }) =>
      n < first
        ? { from: lines[n]!.from, to: lines[n + 1]!.from, insert: '' }
        : { from: lines[n - 1]!.end, to: lines[n]!.end, insert: '' },
    )
}

function answerChanges(answer: readonly Line[], isBehindCommand: boolean, pieces: Pieces): Replacement[] {
  const [first, last] = [answer[0], answer.at(-1)]
  if (!first || !last) return []
  const { indent, before, between, behind } = pieces
  const ticks = ticksFor(answer.map(({ text }) => text))
  const head = `${isBehindCommand ? between : before}${indent}${ticks}text\n`
  return [
    { from: first.from, to: first.from, insert: head },
    { from: last.end, to: last.end, insert: `\n${indent}${ticks}${behind}` },
  ]
}

/** The lines of a command without its prompts: exactly what was typed. */
function ownLines(lines: readonly Line[], { first, last, promptLength }: TypedCommand): string[] {
  const [head, ...further] = lines.slice(first, last + 1).map(({ text }) => text)
  const isPrompted = further.length > 0 && further.every((text) => /^\s*>(?: |$)/u.test(text))
  return [
    head!.slice(promptLength),
    ...further.map((text) => (isPrompted ? text.replace(/^\s*> ?/u, '') : text)),
  ]
}

/** Backticks may not stand in the info string, and a lone `$` says nothing. */
function infoOf(prompt: string): string {
  return prompt === '' || prompt === '$' || prompt.includes('`') ? '' : ` ${prompt}`
}

function ticksFor(texts: readonly string[]): string {
  const runs = texts.flatMap((text) => (text.match(/`{3,}/gu) ?? []).map(({ length }) => length))
  return '`'.repeat(Math.max(2, ...runs) + 1)
}

const indentIn = (text: string): string => /^[ \t]*/u.exec(text)?.[0] ?? ''

function isWithinItem(lines: readonly Line[], run: Run): boolean {
  if (indentOf(lines[run.first]!.text) < 2) return false
  for (let above = run.first - 1; above >= 0; above -= 1) {
    const { text } = lines[above]!
    if (text.trim() === '') continue
    if (/^\s*(?:[-+*•]|\d{1,9}[.)])\s+\S/u.test(text)) return true
    if (indentOf(text) < 2) return false
  }
  return false
}

/** A line without as many columns of its indent (CommonMark 0.31.2 §4.5). */
function withoutIndent(text: string, columns: number): string {
  let at = 0
  while (at < text.length && at < columns && text[at] === ' ') at += 1
  return text.slice(at)
}

/** Of each edit, whether Markdown reads its fences as code with the contents that they must have. */
function readersOf(text: string, fenced: readonly Fenced[]): boolean[] {
  const edits = fenced.map(({ edit }) => edit)
  const tree = maybeTree(applyEdits(text, edits))
  if (!tree) return fenced.map(() => false)
  const codes: { at: number; value: string }[] = []
  visit(tree, 'code', (node) => {
    codes.push({ at: node.position?.start.offset ?? -1, value: node.value })
  })
  let shift = 0
  return fenced.map(({ edit: { replacements }, contents }) => {
    const from = replacements[0]!.from + shift
    for (const one of replacements) shift += one.insert.length - (one.to - one.from)
    const to = replacements.at(-1)!.to + shift
    const own = codes.filter(({ at }) => at >= from && at < to).map(({ value }) => value)
    return own.length === contents.length && own.every((value, at) => value === contents[at])
  })
}
