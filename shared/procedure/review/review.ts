/** The review: one engine for all rules. */
import { readDocument } from './reading.ts'
import type { Rule, RuleId } from './rule.ts'
import { commandRules } from './rules/commands.ts'
import { cautionRules } from './rules/cautions.ts'
import { placeRules } from './rules/places.ts'
import { referenceRules } from './rules/references.ts'
import { serviceRules } from './rules/services.ts'
import { stepRules } from './rules/steps.ts'
import { wordingRules } from './rules/wording.ts'
import type { FaultPlace, Finding, ReviewedDocument, ReviewedSilence } from './types.ts'

/** Every rule, in the order in which findings of one step are listed. */
export const rules: readonly Rule[] = [
  ...cautionRules,
  ...commandRules,
  ...placeRules,
  ...serviceRules,
  ...stepRules,
  ...referenceRules,
  ...wordingRules,
]

const byId = new Map(rules.map((rule) => [rule.id, rule]))

export const maybeRule = (id: string): Rule | undefined => byId.get(id as RuleId)

/** @throws RangeError where no rule has the id */
export function getRule(id: string): Rule {
  const rule = maybeRule(id)
  if (!rule) throw new RangeError(`no rule is called ${id}`)
  return rule
}

/**
 * What the rules find in a procedure, in the order of its rows; within a row in the order of the rules. Findings about the
 * procedure as a whole come first. Those that a silence covers stand among them with it. Pure.
 */
export function reviewProcedure(document: ReviewedDocument): Finding[] {
  const reading = readDocument(document)
  const order = new Map(document.rows.map(({ id }, index) => [id, index]))
  const orderOf = ({ step }: FaultPlace): number => (step === null ? -1 : order.get(step)!)
  return rules
    .flatMap((rule) =>
      rule.find(reading).map((fault): Finding => ({ ...fault, rule: rule.id, silence: null })),
    )
    .map((finding) => ({ ...finding, silence: maybeSilenceOf(finding, document.silences) }))
    .sort((a, b) => orderOf(a) - orderOf(b))
}

/** A silence holds for the rule, the step and the words that it was given for: where the words change, it ends. */
export function maybeSilenceOf<T extends Pick<ReviewedSilence, 'rule' | 'step' | 'words'>>(
  finding: Pick<Finding, 'rule' | 'step' | 'words'>,
  silences: readonly T[],
): T | null {
  const { rule, step, words } = finding
  return silences.find((one) => one.rule === rule && one.step === step && one.words === words) ?? null
}
