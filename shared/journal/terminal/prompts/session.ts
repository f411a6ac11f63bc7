/** Reads a session in order: which prompt it is at, what was typed there, where it goes down and comes back. */
import { isComplete } from '../../../shell/commands.ts'
import { commandLikelihood } from '../../../shell/likely.ts'
import { candidatesOf, type Candidate } from './candidate.ts'
import { headKey, maybeHead, promptScore, scoreOf, type Clusters } from './clusters.ts'
import { isNamed, isOf, placeBehind, placeOfHead, signOf, type Level, type ShellLevel } from './level.ts'
import type { PromptedCommand, PromptPlace } from './line.ts'
import { fence, furtherPrompt, zshFurther, type Noted } from './noted.ts'
import { joinPlaces } from './place.ts'
import { innerPrompts, isEnding, isPrinter, mayBeTyped, openingOf, wantsMore } from './programs.ts'

/** Where a reading stands. A new value for each line; those before stay as they were. */
export interface Session {
  readonly levels: readonly Level[]
  readonly found: readonly PromptedCommand[]
  /** Whether an output has opened a Markdown fence and not closed it. */
  readonly isFenced: boolean
  /** Whether the last line that was read of a command reaches the window's edge. */
  readonly isFull: boolean
}

export const newSession: Session = { levels: [], found: [], isFenced: false, isFull: false }

interface Met {
  readonly levels: readonly Level[]
  readonly candidate: Pick<Candidate, 'rest' | 'place'>
  readonly before: string
}

/** The session behind one more line. `found` is added to, so a session must not be gone on with twice. */
export function readNoted(session: Session, line: Noted, clusters: Clusters): Session {
  const last = session.found.at(-1)
  if (last && line.n === last.outputFrom) {
    const longer = maybeFurther(session, last, line)
    if (longer) return longer
  }
  const met = maybeMet(session, last, line, clusters)
  if (met) return begin(session, met, line)
  if (last && isRowOf(session, last, line)) return joinRow(session, last, line)
  return fence.test(line.text) ? { ...session, isFenced: !session.isFenced } : session
}

function begin(session: Session, { levels, candidate, before }: Met, line: Noted): Session {
  const level = levels.at(-1)
  const hasHead = level?.kind === 'shell' && level.head !== null && headKey(line.before) === level.head
  const from = hasHead ? line.n - 1 : line.n
  const command = typedIn(candidate.rest, level)
  const found = closeLast(session.found, from)
  found.push({
    from,
    typedFrom: { line: line.n, column: line.text.length - candidate.rest.length },
    outputFrom: line.n + 1,
    outputTo: null,
    command,
    before,
    place: hasHead ? joinPlaces(placeOfHead(line.before), candidate.place) : candidate.place,
    within: level?.kind === 'inner' ? level.prompt.name : null,
    isUnfinished: level?.kind === 'shell' && command !== '' && !isComplete(command),
  })
  return { levels, found, isFenced: false, isFull: line.isFull && command !== '' }
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
  const command = typedIn(last.command + line.text, level)
  const isUnfinished = level?.kind === 'shell' && command !== '' && !isComplete(command)
  const found = session.found as PromptedCommand[]
  found[found.length - 1] = { ...last, command, outputFrom: line.n + 1, isUnfinished }
  return { ...session, isFull: line.isFull }
}

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
  const isUnfinished = level.kind === 'shell' && !isGivenUp && !isComplete(command)
  const found = session.found as PromptedCommand[]
  found[found.length - 1] = { ...last, command, outputFrom: line.n + 1, isUnfinished }
  if (level.kind === 'inner') return { ...session, isFull: line.isFull }
  return {
    ...session,
    isFull: line.isFull,
    levels: [...session.levels.slice(0, -1), { ...level, further: prefix }],
  }
}

function maybeShellFurther(level: ShellLevel, last: PromptedCommand, { text }: Noted): string | null {
  if (!last.isUnfinished) return null
  const known = level.further?.trimEnd()
  if (known !== undefined && !zshFurther.test(known)) {
    return text === known ? known : text.startsWith(`${known} `) ? `${known} ` : null
  }
  return zshFurther.exec(text)?.[0] ?? furtherPrompt.exec(text)?.[0] ?? null
}

/** The prompt in a line, with the levels that hold there. Null where the line is output. */
function maybeMet(
  session: Session,
  last: PromptedCommand | undefined,
  line: Noted,
  clusters: Clusters,
): Met | null {
  const isPrompt = (key: string): boolean => scoreOf(clusters, key) >= promptScore
  const { levels } = session
  for (let depth = levels.length; depth > 0; depth--) {
    const kept = levels.slice(0, depth)
    const met = maybeKnown(session, kept, last, line, isPrompt)
    if (met) return met
  }
  return (
    maybeInner(session, last, line) ??
    maybeNew(session, last, line, clusters) ??
    maybeMidLine(session, last, line, isPrompt)
  )
}

/** A prompt of a level that the session is at or comes back to. */
function maybeKnown(
  session: Session,
  kept: readonly Level[],
  last: PromptedCommand | undefined,
  line: Noted,
  isPrompt: (key: string) => boolean,
): Met | null {
  const level = kept.at(-1)
  if (!level) return null
  const isBack = kept.length < session.levels.length
  if (level.kind === 'inner') {
    const prefix = level.prompt.prompt.exec(line.text)?.[0]
    if (prefix === undefined || (isBack && !leadsBack(last, line))) return null
    if (!mayBeTyped(level.prompt.name, line.text.slice(prefix.length))) return null
    return {
      levels: kept,
      candidate: { rest: line.text.slice(prefix.length), place: level.around },
      before: '',
    }
  }
  for (const candidate of line.candidates) {
    if (!isOf(level, candidate, isPrompt) || !hasItsHead(level, line)) continue
    if (
      isBack ? !mayComeBack(session, level, last, line) : !isPlausible(level, candidate, session, last, line)
    )
      continue
    // Of two lines the editor is switched on in the upper or in the lower one, as the cursor happens to stand.
    const isEdited = level.head === null && (level.isEdited || line.isEdited === true)
    const edited = { ...level, isEdited }
    const place = joinPlaces(candidate.place, level.around)
    return { levels: [...kept.slice(0, -1), edited], candidate: { rest: candidate.rest, place }, before: '' }
  }
  return null
}

const hasItsHead = (level: ShellLevel, line: Noted): boolean =>
  level.head === null || headKey(line.before) === level.head

function leadsBack(last: PromptedCommand | undefined, line: Noted): boolean {
  if (last && isEnding(last.command)) return true
  return /^(?:logout|exit|Connection to \S+ closed\.?|Shared connection to \S+ closed\.?|Terminated|Killed|Hangup)$/u.test(
    line.before.trim(),
  )
}

function mayComeBack(
  session: Session,
  level: ShellLevel,
  last: PromptedCommand | undefined,
  line: Noted,
): boolean {
  if (leadsBack(last, line)) return true
  if (level.isEdited && line.isEdited === false) return false
  if (level.form === 'bare' || session.isFenced) return false
  return (
    session.levels.at(-1)?.kind === 'inner' || level.form !== 'account' || !isPrinter(last?.command ?? '')
  )
}

/** Whether a line with the prompt that the session is at is one, and not a text that looks like it. */
function isPlausible(
  level: ShellLevel,
  candidate: Candidate,
  session: Session,
  last: PromptedCommand | undefined,
  line: Noted,
): boolean {
  if (line.isEdited === true) return true
  if (level.isEdited && line.isEdited === false) return false
  if (level.form !== 'bare' || level.head !== null) return true
  if (session.isFenced) return false
  const { rest } = candidate
  const isPrinted = isPrinter(last?.command ?? '')
  if (rest.trim() === '') return !isPrinted || !'#>'.includes(level.sign)
  const score = commandLikelihood(rest)
  if (isPrinted) return score >= 1 || (score >= 0 && isUnknown(rest, line.after))
  return score > 0 || (score === 0 && (!/\s/u.test(rest.trim()) || isAnswered(rest, line.after)))
}

/** Whether the line behind says that no command has this name, as shells do. */
function isUnknown(rest: string, after: string | null): boolean {
  const name = rest.trim().split(/\s/u)[0] ?? ''
  return after !== null && after.includes(name) && /not found|no such file/iu.test(after)
}

/** Whether the line behind complains about the command's name, as shells do. */
function isAnswered(rest: string, after: string | null): boolean {
  const name = rest.trim().split(/\s/u)[0] ?? ''
  return after !== null && after.includes(name) && /not found|no such file|unknown|:/iu.test(after)
}

/** The first prompt of a program that the last command started. */
function maybeInner(session: Session, last: PromptedCommand | undefined, line: Noted): Met | null {
  if (!last) return null
  const opening = openingOf(last.command)
  if (opening?.kind !== 'inner') return null
  const names = innerPrompts.filter(
    ({ by }) => isNamed(opening.name)?.by.source === by.source || opening.name === 'python',
  )
  const prompt = names.find(
    (inner) => inner.prompt.test(line.text) && (inner.name === opening.name || inner.name === 'pdb'),
  )
  if (!prompt) return null
  const rest = line.text.slice(prompt.prompt.exec(line.text)?.[0].length ?? 0)
  return {
    levels: [...session.levels, { kind: 'inner', prompt, around: last.place }],
    candidate: { rest, place: last.place },
    before: '',
  }
}

/** A prompt of a shell that was not met before. */
function maybeNew(
  session: Session,
  last: PromptedCommand | undefined,
  line: Noted,
  clusters: Clusters,
): Met | null {
  const opening = last && openingOf(last.command)
  const top = session.levels.at(-1)
  for (const candidate of line.candidates) {
    const score = scoreOf(clusters, candidate.key)
    const isSure =
      line.isEdited === true || (!session.isFenced && score >= promptScore && isSelfEvident(candidate))
    const isFirst = top === undefined && isSure
    const isOpened = opening?.kind === 'shell' && score >= 1 && isSelfEvident(candidate)
    if (!isFirst && !isOpened && !isStrong(candidate, score, session, last)) continue
    const head = maybeHead(clusters, candidate.key) ?? loneHead(candidate, line, clusters)
    if (head !== null && headKey(line.before) !== head) continue
    const around = last && top ? placeBehind(last.command, last.place) : placeOfHead(null)
    const level: ShellLevel = {
      kind: 'shell',
      key: candidate.key,
      form: candidate.form,
      identity: candidate.identity,
      sign: signOf(candidate),
      lead: Math.max(0, line.text.indexOf(candidate.identity)),
      shape: candidate.leadShape,
      head,
      isEdited: head === null && line.isEdited === true,
      further: null,
      around,
    }
    return {
      levels: [...session.levels, level],
      candidate: { rest: candidate.rest, place: joinPlaces(candidate.place, around) },
      before: '',
    }
  }
  return null
}

/** A prompt met once, whose upper line names an account. */
function loneHead(candidate: Candidate, line: Noted, clusters: Clusters): string | null {
  if (candidate.form !== 'bare' && candidate.form !== 'sign') return null
  if ((clusters.get(candidate.key)?.lines ?? 0) > 1 || !/[\w.-]+@[\w.-]+/u.test(line.before)) return null
  const key = headKey(line.before)
  return key === '' ? null : key
}

/** Whether a first prompt is one by itself: it says who or where, or a command follows it. */
function isSelfEvident(candidate: Candidate): boolean {
  if (candidate.form === 'account' || candidate.form === 'folder') return true
  if (candidate.rest.trim() === '') return candidate.form !== 'bare' || signOf(candidate) === '$'
  const score = commandLikelihood(candidate.rest)
  return candidate.form === 'bare' ? score >= 1 : score > -1
}

/** Whether a prompt counts though no command led to it: its account, or its machine's name with another sign. */
function isStrong(
  candidate: Candidate,
  score: number,
  session: Session,
  last: PromptedCommand | undefined,
): boolean {
  if (session.levels.length === 0 || session.isFenced || isPrinter(last?.command ?? '')) return false
  if (candidate.form === 'account') return score >= promptScore
  const top = session.levels.at(-1)
  return candidate.form === 'name' && top?.kind === 'shell' && top.identity === candidate.identity
}

/** A prompt behind an output that had no line end. Only an account tells it. */
function maybeMidLine(
  session: Session,
  last: PromptedCommand | undefined,
  line: Noted,
  isPrompt: (key: string) => boolean,
): Met | null {
  const level = session.levels.at(-1)
  if (!last || level?.kind !== 'shell' || level.form !== 'account' || level.head !== null) return null
  const at = line.text.lastIndexOf(level.identity) - level.lead
  if (at <= 0) return null
  const candidate = candidatesOf(line.text.slice(at)).find((one) => isOf(level, one, isPrompt))
  if (!candidate || session.isFenced) return null
  const isSamePlace = samePlace(candidate.place, last.place)
  if (isPrinter(last.command) && !isSamePlace) return null
  const place = joinPlaces(candidate.place, level.around)
  return {
    levels: session.levels,
    candidate: { rest: candidate.rest, place },
    before: line.text.slice(0, at),
  }
}

const samePlace = (a: PromptPlace, b: PromptPlace): boolean =>
  a.directory === b.directory && a.folder === b.folder
