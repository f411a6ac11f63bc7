/** What stands where nothing is open: how much was passed over, what the rules look at, and what they cannot tell. */
import { getRule } from '../../shared/procedure/review/review.ts'
import type { Listed } from './listed.ts'
import { wordsOfPassedOver } from './words.ts'

interface NothingOpenProps {
  readonly listed: Listed
  /** The rule that alone is shown; null for all. */
  readonly rule: string | null
}

export function NothingOpen({ listed, rule }: NothingOpenProps) {
  if (rule !== null)
    return <p className="st-review-none">Nothing is open by the rule “{getRule(rule).name}”.</p>
  return (
    <div className="st-review-none">
      <p>
        <strong>Nothing is open.</strong> {wordsOfPassedOver(listed)}
      </p>
      <p>The rules look at:</p>
      <ul>
        <li>wording: one action for each step, plain verbs, short sentences, no vague words</li>
        <li>conditions that come first, and steps that are referred to</li>
        <li>cautions: before the hazard, without actions, at each command that destroys</li>
        <li>commands: accepted by the shell, without prompts, one way to be root</li>
        <li>places, and services that are taken away</li>
        <li>parameters: declared, used, and in place of values of one house</li>
        <li>what a step lacks: what to see, a way back, something that it rests on</li>
      </ul>
      <p>They read English, and cannot tell whether a procedure is right. Only following it can.</p>
    </div>
  )
}
