/**
 * Whether a PROV document is valid by PROV-CONSTRAINTS (W3C Recommendation, 30 April 2013): its top level and each of its
 * bundles by itself are put in normal form (definitions, inferences, uniqueness), then ordering, typing and impossibility
 * are looked at (§7.1, §7.2).
 */
import type { ProvDocument, Statement } from './document.ts'
import { Facts, type Violation } from './facts.ts'
import { checkIdentifiers, checkImpossible } from './impossible.ts'
import { applyInferences } from './infer.ts'
import { checkOrder } from './order.ts'
import { Terms } from './terms.ts'
import { applyUniqueness } from './unique.ts'

export type { Violation } from './facts.ts'

/** What of PROV-CONSTRAINTS a document breaks; none for a valid one. */
export function violationsOf({ statements, bundles }: ProvDocument): Violation[] {
  return [
    ...violationsOfBundle(statements),
    ...bundles.flatMap((bundle) => violationsOfBundle(bundle.statements)),
  ]
}

function violationsOfBundle(statements: readonly Statement[]): Violation[] {
  const facts = Facts.of(statements, new Terms())
  // Identifiers that are of two kinds as stated, before inferences make more of them.
  checkIdentifiers(facts)
  do {
    while (applyUniqueness(facts) && facts.violations.length === 0);
    // A bundle that cannot be merged has no normal form, and so no order.
    if (facts.violations.length > 0) return facts.violations
  } while (applyInferences(facts))
  checkImpossible(facts)
  checkOrder(facts)
  return facts.violations
}
