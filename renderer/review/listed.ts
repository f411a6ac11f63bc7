/** Findings as they are listed: by step, each with a key that outlives its neighbours; where the keyboard goes next. Pure. */
import type { PartId, StepId } from '../../shared/lab/ids.ts'
import { maybeSilenceOf } from '../../shared/procedure/review/review.ts'
import type { Finding, ReviewedDocument, ReviewedSilence } from '../../shared/procedure/review/types.ts'

export interface ListedFinding extends Finding {
  /** Of no other finding; the same after a new review, as long as rule, step, part and words are. */
  readonly key: string
  /** The text that it speaks of is another by now, so that its words and places say nothing. */
  readonly isStale: boolean
}

/** What a review found, with what was said of it since. */
export interface Listed {
  /** In the order of the rows, the procedure's own first. */
  readonly open: readonly ListedFinding[]
  readonly passedOver: readonly (ListedFinding & { readonly silence: ReviewedSilence })[]
  /** Silences that cover nothing any more: their words were changed, or their step is gone. */
  readonly spent: readonly ReviewedSilence[]
  /**
   * How many are open at each step, and at each part of the procedure's own; those whose text is another by now are not
   * counted.
   */
  readonly openAt: ReadonlyMap<StepId | PartId, number>
}

/** What stands now of what was reviewed. */
export interface Present {
  readonly silences: readonly ReviewedSilence[]
  /** undefined where the part is gone. */
  readonly textOf: (part: PartId) => string | undefined
  readonly hasStep: (step: StepId) => boolean
}

/** @param findings of the document, in its order */
export function listFindings(
  document: ReviewedDocument,
  findings: readonly Finding[],
  { silences, textOf, hasStep }: Present,
): Listed {
  const texts = new Map(
    [...document.parts, ...document.rows.flatMap(({ parts }) => parts)].map(({ id, text }) => [id, text]),
  )
  const isStale = ({ part }: Finding): boolean => part !== null && textOf(part) !== texts.get(part)
  const standing = findings.filter(
    ({ part, step }) => (part === null || textOf(part) !== undefined) && (step === null || hasStep(step)),
  )
  const keyOf = keyMaker()
  const all = standing.map((one): ListedFinding => ({
    ...one,
    key: keyOf(one),
    isStale: isStale(one),
    silence: maybeSilenceOf(one, silences),
  }))
  const open = all.filter(({ silence }) => silence === null)
  const used = new Set(all.map(({ silence }) => silence))
  return {
    open,
    passedOver: all.filter(isPassedOver),
    spent: silences.filter((one) => !used.has(one)),
    openAt: countAt(open),
  }
}

const isPassedOver = (one: ListedFinding): one is ListedFinding & { readonly silence: ReviewedSilence } =>
  one.silence !== null

/** Equal ones are told apart by their number, in the order of the text. */
function keyMaker(): (finding: Finding) => string {
  const counts = new Map<string, number>()
  return ({ rule, step, part, words }) => {
    const key = [rule, step, part, words].join('\n')
    const count = counts.get(key) ?? 0
    counts.set(key, count + 1)
    return `${key}\n${count}`
  }
}

function countAt(open: readonly ListedFinding[]): Map<StepId | PartId, number> {
  const counts = new Map<StepId | PartId, number>()
  for (const { step, part, isStale } of open) {
    const at = step ?? part
    if (at !== null && !isStale) counts.set(at, (counts.get(at) ?? 0) + 1)
  }
  return counts
}

/** How many are open for certain. */
export const countOpen = ({ open }: Listed): number => open.filter(({ isStale }) => !isStale).length

export interface FindingGroup<T extends Finding = ListedFinding> {
  /** Null for the procedure as a whole. */
  readonly step: StepId | null
  readonly findings: readonly T[]
}

/** Findings by their steps, in the order in which they come. */
export function groupByStep<T extends Finding>(findings: readonly T[]): FindingGroup<T>[] {
  const groups: { step: StepId | null; findings: T[] }[] = []
  for (const finding of findings) {
    const last = groups.at(-1)
    if (last?.step === finding.step) last.findings.push(finding)
    else groups.push({ step: finding.step, findings: [finding] })
  }
  return groups
}

export interface RuleCount {
  readonly rule: string
  readonly count: number
}

/** The rules that found something open, in the order of the rules. @param order all rules */
export function countByRule(open: readonly Finding[], order: readonly string[]): RuleCount[] {
  const counts = new Map<string, number>()
  for (const { rule } of open) counts.set(rule, (counts.get(rule) ?? 0) + 1)
  return order.flatMap((rule) => (counts.has(rule) ? [{ rule, count: counts.get(rule)! }] : []))
}

/**
 * Where the keyboard goes when a line is gone: to the next one that is still there, else to the last one before it.
 * @param before the keys as they were, `gone` among them
 * @param now the keys as they are
 * @returns null where none is left
 */
export function keyAfter(before: readonly string[], gone: string, now: readonly string[]): string | null {
  const there = new Set(now)
  const at = before.indexOf(gone)
  const behind = before.slice(at + 1).find((key) => there.has(key))
  if (behind !== undefined) return behind
  return [...before.slice(0, Math.max(0, at))].reverse().find((key) => there.has(key)) ?? now[0] ?? null
}

/** The first open finding at a step, or at a part of the procedure's own. */
export function firstAt(open: readonly ListedFinding[], at: StepId | PartId): ListedFinding | undefined {
  return open.find(({ step, part }) => (step ?? part) === at)
}
