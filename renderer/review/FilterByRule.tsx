/** Shows what one rule found alone. */
import { getRule, rules } from '../../shared/procedure/review/review.ts'
import { Field } from '../ui/index.ts'
import { countByRule, type ListedFinding } from './listed.ts'

interface FilterByRuleProps {
  readonly open: readonly ListedFinding[]
  /** Null for all rules. */
  readonly rule: string | null
  readonly onChoose: (rule: string | null) => void
}

const ids = rules.map(({ id }) => id)

export function FilterByRule({ open, rule, onChoose }: FilterByRuleProps) {
  const counts = countByRule(open, ids)
  const isGone = rule !== null && counts.every((one) => one.rule !== rule)
  const shown = isGone ? [...counts, { rule, count: 0 }] : counts
  if (shown.length < 2 && rule === null) return null
  return (
    <Field label="Rule" hidesLabel>
      {(attributes) => (
        <select
          {...attributes}
          className="st-input st-review-filter"
          value={rule ?? ''}
          onChange={({ target }) => onChoose(target.value === '' ? null : target.value)}
        >
          <option value="">All rules</option>
          {shown.map((one) => (
            <option key={one.rule} value={one.rule}>
              {getRule(one.rule).name}, {one.count}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}
