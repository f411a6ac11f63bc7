/** Reads a session in order: which prompt it is at, what was typed there, where it goes down and comes back. */
import { isComplete } from '../../../shell/commands.ts'
import { candidatesOf } from './candidate.ts'
import { gapIn, verdictOn, type Verdicts } from './clusters.ts'
import { placeOfHead, type Level, type ShellLevel } from './level.ts'
import type { PromptedCommand } from './line.ts'
import { maybeAgain, maybeMet, type Met, type Standing } from './meeting.ts'
import { beforeExpansion, fence, furtherPrompt, mayBeExpanded, zshFurther, type Noted } from './noted.ts'
import { joinPlaces } from './place.ts'
import { wantsMore } from './programs.ts'

/** Where a reading stands. A new value for each line; those before stay as they were. */
export interface Session extends Standing {
  readonly found: readonly PromptedCommand[]
  /** Whether the last line that was read of a command reaches the window's edge. */
  readonly isFull: boolean
  /** Blanks at that edge that belong to what was typed. */
  readonly tail: string
  /** The last line of what is edited since the last prompt; null where no editor is known to be on. */
  readonly editedTo: number | null
}

export const newSession: Session = {
  levels: [],
  found: [],
  isFenced: false,
  isFull: false,
  tail: '',
  editedTo: null,
}

/** The session behind one more line. `found` is added to, so a session must not be gone on with twice. */
export function readNoted(before: Session, noted: Noted, verdicts: Verdicts): Session {
  const line = withoutEdge(noted, verdicts)
  const isSameEdit = line.isTyped && line.isEdited === false && line.n - 1 === before.editedTo
  const session: Session = isSameEdit
    ? { ...before, editedTo: line.n }
    : before.editedTo === null
      ? before
      : { ...before, editedTo: null }
  const last = session.found.at(-1)
  if (last && line.n === last.outputFrom) {
    const longer = maybeExpanded(session, last, line) ?? maybeFurther(session, last, line)
    if (longer) return longer
  }
  const again = isSameEdit ? maybeAgain(session, last, line, verdicts) : null
  if (again) return begin(withoutLast(session), again, line)
  const met = maybeMet(session, last, line, verdicts)
  if (met) return begin(session, met, line)
  if (last && isRowOf(session, last, line)) return joinRow(session, last, line)
  if (last && isSameEdit && line.n === last.outputFrom) return joinLine(session, last, line)
  return fence.test(line.text) ? { ...session, isFenced: !session.isFenced } : session
}

/** The line without a second prompt that stands at the window's right edge in others too. */
function withoutEdge(line: Noted, verdicts: Verdicts): Noted {
  for (const { key, rest, length } of line.candidates) {
    if (!verdictOn(verdicts, key).edges.includes(line.text.length)) continue
    const gap = gapIn(rest)
    if (gap === -1) continue
    const text = line.text.slice(0, length + gap).trimEnd()
    return { ...line, text, edge: line.text.length, candidates: candidatesOf(text) }
  }
  return line
}

function begin(session: Session, { levels, candidate, before }: Met, line: Noted): Session {
  const level = levels.at(-1)
  const hasHead = level?.kind === 'shell' && level.head !== null && line.head === level.head
  const from = hasHead ? line.n - 1 : line.n
  const command = typedIn(candidate.rest, level)
  const found = closeLast(session.found, from)
  found.push({
    from,
    typedFrom: { line: line.n, column: line.text.length - candidate.rest.length },
    outputFrom: line.n + 1,
    outputTo: null,
    command,
    typed: candidate.rest.trim(),
    before: hasHead ? line.beforeHead : before,
    place: hasHead
      ? joinPlaces(placeOfHead(line.before.slice(line.beforeHead.length)), candidate.place)
      : candidate.place,
    within: level?.kind === 'inner' ? level.prompt.name : null,
    isUnfinished: level?.kind === 'shell' && command !== '' && !isComplete(command),
  })
  const editedTo = line.isTyped ? line.n : null
  const isFull = line.isFull && command !== ''
  return { levels, found, isFenced: false, isFull, tail: isFull ? tailOf(candidate.rest) : '', editedTo }
}

/** An editor that lists how a word may go on draws its prompt anew: what stood at the one before was not run. */
function withoutLast(session: Session): Session {
  const found = session.found as PromptedCommand[]
  found.pop()
  return session
}

/** Lines that one paste put into the editor have no prompt of their own. */
const mostPasted = 500

function joinLine(session: Session, last: PromptedCommand, line: Noted): Session {
  const isShell = session.levels.at(-1)?.kind === 'shell'
  if (!isShell || last.command === '' || line.n - last.typedFrom.line > mostPasted) return session
  // fish sets further lines in as far as its prompt goes.
  const indent = ' '.repeat(last.typedFrom.column)
  const text = line.text.startsWith(indent) ? line.text.slice(indent.length) : line.text
  const command = typedIn(`${last.command}\n${text}`, session.levels.at(-1))
  const found = session.found as PromptedCommand[]
  const isUnfinished = command !== '' && !isComplete(command)
  found[found.length - 1] = { ...last, command, outputFrom: line.n + 1, isUnfinished }
  return { ...session, isFull: line.isFull }
}

/** The session with the last command as the shell printed it after its history expansion; null where it did not. */
function maybeExpanded(session: Session, last: PromptedCommand, line: Noted): Session | null {
  const kept = line.isTyped || last.command.includes('\n') ? null : beforeExpansion(last.command)
  if (kept === null || session.levels.at(-1)?.kind !== 'shell') return null
  if (!line.text.startsWith(kept) || !mayBeExpanded(last.command, line.text)) return null
  const found = session.found as PromptedCommand[]
  const command = line.text.trimEnd()
  found[found.length - 1] = { ...last, command, outputFrom: line.n + 1, isUnfinished: !isComplete(command) }
  return { ...session, isFull: false }
}

/** Whether a line is one more row of a command that reaches the window's edge, by the editor or by an open quote. */
function isRowOf({ isFull, levels }: Session, last: PromptedCommand, line: Noted): boolean {
  if (!isFull || line.n !== last.outputFrom) return false
  const level = levels.at(-1)
  return line.isTyped || (last.isUnfinished && level?.kind === 'shell' && !level.isEdited)
}

/** The session with one more row of the last command, which the editor had moved to by itself. */
function joinRow(session: Session, last: PromptedCommand, line: Noted): Session {
  const level = session.levels.at(-1)
  const command = typedIn(last.command + session.tail + line.text, level)
  const isUnfinished = level?.kind === 'shell' && command !== '' && !isComplete(command)
  const found = session.found as PromptedCommand[]
  found[found.length - 1] = { ...last, command, outputFrom: line.n + 1, isUnfinished }
  return { ...session, isFull: line.isFull, tail: tailOf(line.text) }
}

/** The blanks behind a text. */
const tailOf = (text: string): string => text.slice(text.trimEnd().length)

/** What was typed: nothing where it was given up, and nothing where a shell reads a remark only. */
function typedIn(rest: string, level: Level | undefined): string {
  const text = rest.trimEnd()
  if (text.endsWith('^C')) return ''
  const isRemark = level?.kind === 'shell' && level.sign !== '%' && /^\s*#(?:\s|$)/u.test(text)
  return isRemark ? '' : text
}

function closeLast(found: readonly PromptedCommand[], at: number): PromptedCommand[] {
  const all = found as PromptedCommand[]
  const last = all.pop()
  if (last) all.push({ ...last, outputTo: Math.max(last.outputFrom, at) })
  return all
}

/** The session with a further line of the last command, null where the line is none. */
function maybeFurther(session: Session, last: PromptedCommand, line: Noted): Session | null {
  const level = session.levels.at(-1)
  if (!level || (last.command === '' && level.kind === 'shell')) return null
  if (level.kind === 'inner' && !wantsMore(level.prompt.name, last.command)) return null
  const prefix =
    level.kind === 'inner' ? level.prompt.further?.exec(line.text)?.[0] : maybeShellFurther(level, last, line)
  if (prefix === undefined || prefix === null) return null
  const text = line.text.slice(prefix.length)
  const isGivenUp = text.endsWith('^C')
  const command = isGivenUp ? '' : `${last.command}\n${text}`
  const isUnfinished = level.kind === 'shell' && !isGivenUp && (mayNotEnd(last, text) || !isComplete(command))
  const found = session.found as PromptedCommand[]
  found[found.length - 1] = { ...last, command, outputFrom: line.n + 1, isUnfinished }
  if (level.kind === 'inner') return { ...session, isFull: line.isFull }
  return {
    ...session,
    isFull: line.isFull,
    levels: [...session.levels.slice(0, -1), { ...level, further: prefix }],
  }
}

/**
 * Whether a line of a very long command, which can only be a here-document or a quotation, cannot be its last. To read
 * all of it again for each line would take long.
 */
function mayNotEnd({ typedFrom, outputFrom }: PromptedCommand, text: string): boolean {
  const isLong = outputFrom - typedFrom.line > 200
  return isLong && text.trim() !== '' && !/^\s*\S{1,60}$|["'`;})\]]/u.test(text)
}

function maybeShellFurther(level: ShellLevel, last: PromptedCommand, { text }: Noted): string | null {
  if (!last.isUnfinished) return null
  const known = level.further?.trimEnd()
  if (known !== undefined && !zshFurther.test(known)) {
    return text === known ? known : text.startsWith(`${known} `) ? `${known} ` : null
  }
  return zshFurther.exec(text)?.[0] ?? furtherPrompt.exec(text)?.[0] ?? null
}
