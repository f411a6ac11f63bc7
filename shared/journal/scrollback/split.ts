/** Terminal scrollback that was pasted in one piece, split into commands and what they answered. */
import { readFiles, type KnownFiles } from '../files/found-files.ts'
import type { FoundCommand, FoundPlace } from '../terminal/found.ts'
import { learnPrompts, promptsOf } from '../terminal/prompts/learn.ts'
import type { PromptedCommand, PromptPlace, ScreenLine } from '../terminal/prompts/line.ts'

/** Control sequences (ECMA-48) that some programs leave in what they copy. */
const control = new RegExp(
  [
    String.raw`\u001b(?:\[[0-?]*[ -/]*[@-~]|\][^\u0007\u001b]*(?:\u0007|\u001b\\)|[@-_])`,
    String.raw`[\u0000-\u0008\u000b-\u001f\u007f]`,
  ].join('|'),
  'gu',
)
const narrowest = 40
const usualWidths = new Set([80, 100, 120, 132, 160])

const joined =
  'Two lines were joined: the first is as wide as the window seems to have been, and the command was not at its end.'
const maybeCut =
  'The command’s line is as wide as the window seems to have been. If the terminal wrapped it there, the rest of the command stands at the head of the output.'
const unfinished =
  'The command is not finished: the shell would have asked for a further line, which is not in the text.'

/**
 * The commands of pasted scrollback, in order, or null where it does not look like a terminal's: where no prompt has a
 * command behind it that is known by its form or by how it recurs. One prompt alone is enough where its form is well
 * known. Text before the first prompt, and what stands behind a prompt at which nothing was typed, is given as an output
 * whose `command` is empty.
 */
export function splitScrollback(text: string): FoundCommand[] | null {
  const lines = text
    .replace(/\r\n?/gu, '\n')
    .replace(/\u00a0/gu, ' ')
    .split('\n')
  const shown = withWidth(lines.map((line) => line.replace(control, '').trimEnd()))
  const prompts = promptsOf(learnPrompts(shown))
  if (prompts.every(({ command }) => command === '')) return null
  const found: FoundCommand[] = []
  const before = outputOf(shown, 0, prompts[0])
  if (before !== '') found.push({ ...nothingFound, output: before })
  let known: KnownFiles = new Map()
  for (const [n, prompt] of prompts.entries()) {
    const one = foundOf(prompt, prompts[n + 1], shown)
    if (prompt.command === '' && one.output === '') continue
    const files = readFiles(one, [], known)
    known = files.known
    found.push({ ...one, files: files.files, notes: [...one.notes, ...files.notes] })
  }
  return found
}

const nothingFound: FoundCommand = {
  command: '',
  output: '',
  exitCode: null,
  place: { host: null, user: null, directory: null },
  started: null,
  ended: null,
  foundBy: 'prompt',
  files: [],
  notes: [],
}

function foundOf(
  prompt: PromptedCommand,
  next: PromptedCommand | undefined,
  lines: readonly ScreenLine[],
): FoundCommand {
  const { command, place, outputFrom, isUnfinished, typedFrom } = prompt
  const rows = outputFrom - typedFrom.line
  const isFull = lines[outputFrom - 1]?.isFull === true
  const output = outputOf(lines, outputFrom, next)
  const notes = [
    ...(rows > command.split('\n').length ? [joined] : []),
    ...(isFull && output !== '' ? [maybeCut] : []),
    ...(isUnfinished ? [unfinished] : []),
  ]
  return { ...nothingFound, command, output, place: toFoundPlace(place), notes }
}

/** The lines up to the next prompt, with what stands before it in its own line. Empty lines at the end do not count. */
function outputOf(lines: readonly ScreenLine[], from: number, next: PromptedCommand | undefined): string {
  const rows = lines.slice(from, next?.from ?? lines.length).map(({ text }) => text)
  if (next && next.before !== '') rows.push(next.before)
  return rows.join('\n').replace(/^(?:[ \t]*\n)+|\s+$/gu, '')
}

function toFoundPlace({ host, user, directory, isRoot }: PromptPlace): FoundPlace {
  return { host, user: user ?? (isRoot ? 'root' : null), directory }
}

/** Marks the lines that are as wide as the window was, where the text lets one see how wide that is. */
function withWidth(lines: readonly string[]): ScreenLine[] {
  const widest = lines.reduce((most, line) => Math.max(most, line.length), 0)
  const atEdge = lines.filter((line) => line.length === widest).length
  const isKnown = widest >= narrowest && (atEdge > 1 || usualWidths.has(widest))
  return lines.map((text) => (isKnown && text.length === widest ? { text, isFull: true } : { text }))
}
