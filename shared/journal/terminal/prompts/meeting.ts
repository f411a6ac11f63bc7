/** Whether a line holds a prompt: of a level that the session is at or comes back to, or a new one. */
import { commandLikelihood } from '../../../shell/likely.ts'
import { candidatesOf, placeAt, type Candidate } from './candidate.ts'
import { verdictOn, type Verdicts, type Verdict } from './clusters.ts'
import { EDITED_HEAD, headKey } from './heads.ts'
import { isNamed, isOf, placeBehind, placeOfHead, type Level, type ShellLevel } from './level.ts'
import type { PromptedCommand, PromptPlace } from './line.ts'
import type { Noted } from './noted.ts'
import { joinPlaces } from './place.ts'
import { innerPrompts, isEnding, isPrinter, mayBeTyped, openingOf, type Opening } from './programs.ts'
import { maybeSetPrompt } from './set-prompt.ts'

/** Where a session stands, as far as it matters for what the next line is. */
export interface Standing {
  /** The prompts that it has come through; it is at the last. */
  readonly levels: readonly Level[]
  /** Whether an output has opened a Markdown fence and not closed it. */
  readonly isFenced: boolean
}

export interface Met {
  readonly levels: readonly Level[]
  readonly candidate: { readonly rest: string; readonly place: PromptPlace }
  readonly before: string
}

/** What the last command leads to is asked of every line of its output. */
const remembered = new WeakMap<PromptedCommand, { readonly opening: Opening; readonly isPrinter: boolean }>()

function leadsOf(last: PromptedCommand): { readonly opening: Opening; readonly isPrinter: boolean } {
  let leads = remembered.get(last)
  if (!leads)
    remembered.set(last, (leads = { opening: openingOf(last.command), isPrinter: isPrinter(last.command) }))
  return leads
}

const isPrinted = (last: PromptedCommand | undefined): boolean =>
  last !== undefined && leadsOf(last).isPrinter

/** The prompt in a line, with the levels that hold there. Null where the line is output. */
export function maybeMet(
  session: Standing,
  last: PromptedCommand | undefined,
  line: Noted,
  verdicts: Verdicts,
): Met | null {
  const isPrompt = (key: string): boolean => verdictOn(verdicts, key).isPrompt
  const { levels } = session
  if (isHeadOfNext(line, verdicts) || isHeadOf(levels.at(-1), line)) return null
  const renamed = maybeRenamed(levels, last, line) ?? maybeBehindOutput(session, line, isPrompt)
  if (renamed) return renamed
  for (let depth = levels.length; depth > 0; depth--) {
    const kept = levels.slice(0, depth)
    const met = maybeKnown(session, kept, last, line, isPrompt)
    if (met) return met
  }
  return (
    maybeInner(session, last, line) ??
    maybeNew(session, last, line, verdicts) ??
    maybeMidLine(session, last, line, isPrompt)
  )
}

/** The prompt that the session is at, drawn anew while its line is still being edited. */
export function maybeAgain(
  session: Standing,
  last: PromptedCommand | undefined,
  line: Noted,
  verdicts: Verdicts,
): Met | null {
  const isPrompt = (key: string): boolean => verdictOn(verdicts, key).isPrompt
  return maybeKnown(session, session.levels, last, { ...line, isEdited: true }, isPrompt)
}

/** Whether a line is the upper one of a prompt whose lower one stands behind it. */
function isHeadOfNext({ text, after, isEdited, editedAt }: Noted, verdicts: Verdicts): boolean {
  const own = isEdited === true ? text.slice(editedAt ?? 0) : text
  const key = after === null ? '' : headKey(own) || (isEdited === true ? EDITED_HEAD : '')
  return key !== '' && candidatesOf(after ?? '').some((one) => verdictOn(verdicts, one.key).head === key)
}

/** Whether a line is the upper one of the prompt that the session is at, whatever a search in the history put below it. */
function isHeadOf(level: Level | undefined, { text, isEdited, editedAt }: Noted): boolean {
  if (level?.kind !== 'shell' || level.head === null || level.head === EDITED_HEAD) return false
  return isEdited === true && headKey(text.slice(editedAt ?? 0)) === level.head
}

/** The first prompt of a program that was given another one just now. */
function maybeRenamed(levels: readonly Level[], last: PromptedCommand | undefined, line: Noted): Met | null {
  const level = levels.at(-1)
  if (!last || level?.kind !== 'inner') return null
  const prompt = maybeSetPrompt(level.prompt, last.command)
  const prefix = prompt?.prompt.exec(line.text)?.[0]
  if (!prompt || prefix === undefined) return null
  return {
    levels: [...levels.slice(0, -1), { ...level, prompt }],
    candidate: { rest: line.text.slice(prefix.length), place: level.around },
    before: '',
  }
}

/** A prompt of a level that the session is at or comes back to. */
function maybeKnown(
  session: Standing,
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
    const isSame = isOf(level, candidate, isPrompt) || (!isBack && isRestyled(level, candidate, last, line))
    if (!isSame || !hasItsHead(level, line) || lacksEdge(level, line)) continue
    if (
      isBack ? !mayComeBack(session, level, last, line) : !isPlausible(level, candidate, session, last, line)
    )
      continue
    const isEdited = level.isEdited || atEditor(level.head, line) === true
    const edge = line.edge === null && isRoomy(level, line) ? null : level.edge
    const edited = { ...level, isEdited, edge, met: level.met + 1 }
    const place = joinPlaces(placeAt(candidate), level.around)
    return { levels: [...kept.slice(0, -1), edited], candidate: { rest: candidate.rest, place }, before: '' }
  }
  return null
}

/** Whether an editor that is on at another prompt with the same sign is the same shell's: nothing led to another. */
function isRestyled(
  level: ShellLevel,
  candidate: Candidate,
  last: PromptedCommand | undefined,
  line: Noted,
): boolean {
  if (!level.isEdited || line.isEdited !== true || level.sign !== candidate.sign) return false
  if (level.form === 'account' || candidate.form === 'account' || !last) return false
  return leadsOf(last).opening === null && !leadsBack(last, line)
}

/**
 * Whether an editor was on at a prompt; undefined where that is not known. Of two lines it is switched on in the upper or in
 * the lower one, as the cursor happens to stand.
 */
function atEditor(head: string | null, { isEdited, isTyped }: Noted): boolean | undefined {
  return isEdited === undefined || head === null ? isEdited : isTyped
}

const hasItsHead = (level: ShellLevel, line: Noted): boolean =>
  level.head === null || line.head === level.head

function leadsBack(last: PromptedCommand | undefined, line: Noted): boolean {
  if (last && isEnding(last.command)) return true
  return /^(?:logout|exit|Connection to \S+ closed\.?|Shared connection to \S+ closed\.?|Terminated|Killed|Hangup)$/u.test(
    line.before.trim(),
  )
}

function mayComeBack(
  session: Standing,
  level: ShellLevel,
  last: PromptedCommand | undefined,
  line: Noted,
): boolean {
  if (leadsBack(last, line)) return true
  if (level.isEdited && atEditor(level.head, line) === false) return false
  if (level.form === 'bare' || session.isFenced) return false
  return session.levels.at(-1)?.kind === 'inner' || level.form !== 'account' || !isPrinted(last)
}

/** After how many prompts with something at the right edge one without it is none. */
const surely = 3

/** Whether a line is so short that it would leave the room for a second prompt at the right edge. */
const isRoomy = (level: ShellLevel, line: Noted): boolean =>
  level.edge !== null && line.text.length < level.edge * 0.6

/** Whether a line has nothing at the right edge where all prompts have. */
const lacksEdge = (level: ShellLevel, line: Noted): boolean =>
  line.edge === null && line.isEdited !== true && level.met >= surely && isRoomy(level, line)

/** Whether a line with the prompt that the session is at is one, and not a text that looks like it. */
function isPlausible(
  level: ShellLevel,
  candidate: Candidate,
  session: Standing,
  last: PromptedCommand | undefined,
  line: Noted,
): boolean {
  const isAtEditor = atEditor(level.head, line)
  if (isAtEditor === true) return true
  if (level.isEdited && isAtEditor === false) return false
  if (level.form !== 'bare' || level.head !== null) return true
  if (session.isFenced) return false
  const { rest } = candidate
  const isText = isPrinted(last)
  if (rest.trim() === '') return !isText || !'#>'.includes(level.sign)
  const score = commandLikelihood(rest)
  if (isText) return score >= 1 || (score >= 0 && isUnknown(rest, line.after))
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
function maybeInner(session: Standing, last: PromptedCommand | undefined, line: Noted): Met | null {
  if (!last) return null
  const opening = leadsOf(last).opening
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

/** From 3 lines on. */
const recurs = 2

/**
 * The candidates of a line, first the one that the prompts of the session share. Where a line editor was switched on in
 * every line with the same beginning, it goes up to the last sign that they have in common.
 */
function likeliestFirst({ candidates, isEdited }: Noted, verdicts: Verdicts): readonly Candidate[] {
  if (isEdited !== true) return candidates
  const rankOf = ({ key }: Candidate): number => verdictOn(verdicts, key).editedRank
  const most = Math.max(...candidates.map(rankOf))
  if (most < recurs) return candidates
  const shared = candidates.filter((one) => rankOf(one) === most)
  const best = shared.reduce((a, b) => (b.length > a.length ? b : a))
  return [best, ...candidates.filter((one) => one !== best)]
}

/** A prompt of the shell that the session is at, behind an output without a line end: readline stood there when it began. */
function maybeBehindOutput(
  session: Standing,
  { text, isEdited, editedAt }: Noted,
  isPrompt: (key: string) => boolean,
): Met | null {
  const level = session.levels.at(-1)
  if (level?.kind !== 'shell' || isEdited !== true || editedAt === null || editedAt === 0) return null
  const candidate = candidatesOf(text.slice(editedAt)).find((one) => isOf(level, one, isPrompt))
  if (!candidate) return null
  const place = joinPlaces(placeAt(candidate), level.around)
  return {
    levels: session.levels,
    candidate: { rest: candidate.rest, place },
    before: text.slice(0, editedAt),
  }
}

/** A prompt of a shell that was not met before. */
function maybeNew(
  session: Standing,
  last: PromptedCommand | undefined,
  line: Noted,
  verdicts: Verdicts,
): Met | null {
  const opening = last && leadsOf(last).opening
  const top = session.levels.at(-1)
  for (const candidate of likeliestFirst(line, verdicts)) {
    const verdict = verdictOn(verdicts, candidate.key)
    const isSure =
      (line.isEdited === true && mayBeCommand(candidate)) ||
      (!session.isFenced && verdict.isPrompt && isSelfEvident(candidate))
    const isOther =
      line.isEdited === true && top?.kind === 'shell' && top.isEdited && verdict.editedRank >= recurs
    const isFirst = (top === undefined && isSure) || isOther
    const isOpened = opening?.kind === 'shell' && verdict.isPossible && isSelfEvident(candidate)
    if (!isFirst && !isOpened && !isStrong(candidate, verdict, session, last)) continue
    const head = verdict.head ?? loneHead(candidate, line, verdict)
    if (head !== null && line.head !== head) continue
    const same = opening?.kind === 'shell' ? null : maybeSameAccount(top, candidate)
    const around = last && top ? placeBehind(last.command, last.place) : placeOfHead(null)
    const level: ShellLevel = {
      kind: 'shell',
      key: candidate.key,
      form: candidate.form,
      identity: candidate.identity,
      sign: candidate.sign,
      lead: Math.max(0, line.text.indexOf(candidate.identity)),
      anchor: candidate.anchor,
      shape: candidate.leadShape,
      shapes: same ? [same.shape, ...same.shapes] : [],
      head,
      isEdited: atEditor(head, line) === true,
      edge: line.edge,
      met: 1,
      further: null,
      around,
    }
    return {
      levels: [...(same ? session.levels.slice(0, -1) : session.levels), level],
      candidate: { rest: candidate.rest, place: joinPlaces(placeAt(candidate), around) },
      before: '',
    }
  }
  return null
}

/** The shell that the session is at, where the prompt is its own but for what stands before the account. */
function maybeSameAccount(top: Level | undefined, candidate: Candidate): ShellLevel | null {
  if (top?.kind !== 'shell' || candidate.form !== 'account' || top.form !== 'account') return null
  return top.identity === candidate.identity && top.sign === candidate.sign ? top : null
}

/** A prompt met once, whose upper line names an account. */
function loneHead(candidate: Candidate, line: Noted, verdict: Verdict): string | null {
  if (candidate.form !== 'bare' && candidate.form !== 'sign') return null
  if (!verdict.isLone || !/[\w.-]+@[\w.-]+/u.test(line.before)) return null
  const key = line.head
  return key === '' ? null : key
}

/** Whether what stands behind a sign is at least not prose. */
function mayBeCommand(candidate: Candidate): boolean {
  return candidate.form !== 'bare' || commandLikelihood(candidate.rest) > -1
}

/** Whether a first prompt is one by itself: it says who or where, or a command follows it. */
function isSelfEvident(candidate: Candidate): boolean {
  if (candidate.form === 'account' || candidate.form === 'folder') return true
  if (candidate.rest.trim() === '') return candidate.form !== 'bare' || candidate.sign === '$'
  const score = commandLikelihood(candidate.rest)
  return candidate.form === 'bare' ? score >= 1 : score > -1
}

/** Whether a prompt counts though no command led to it: its account, or its machine's name with another sign. */
function isStrong(
  candidate: Candidate,
  verdict: Verdict,
  session: Standing,
  last: PromptedCommand | undefined,
): boolean {
  if (session.levels.length === 0 || session.isFenced || isPrinted(last)) return false
  if (candidate.form === 'account') return verdict.isPrompt
  const top = session.levels.at(-1)
  return candidate.form === 'name' && top?.kind === 'shell' && top.identity === candidate.identity
}

/** A prompt behind an output that had no line end. Only an account tells it. */
function maybeMidLine(
  session: Standing,
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
  const isSamePlace = samePlace(placeAt(candidate), last.place)
  if (isPrinted(last) && !isSamePlace) return null
  const place = joinPlaces(placeAt(candidate), level.around)
  return {
    levels: session.levels,
    candidate: { rest: candidate.rest, place },
    before: line.text.slice(0, at),
  }
}

const samePlace = (a: PromptPlace, b: PromptPlace): boolean =>
  a.directory === b.directory && a.folder === b.folder
