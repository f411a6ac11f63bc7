/** A difference of two versions in one line. */
import type { VersionDifference } from './compare.ts'

/** “3 steps changed, 1 added”: what is other, in a fixed order; “Nothing changed” where nothing is. */
export function wordsOfDifference(difference: VersionDifference): string {
  if (difference.isSame) return 'Nothing changed'
  const { rows, parts, parameters, place } = difference
  const steps = rows.filter(({ step }) => step.level !== 'section')
  const sections = rows.filter(({ step }) => step.level === 'section')
  return [
    countsOf('step', steps),
    countsOf('section', sections),
    parts.length > 0 ? kindsOf(parts.map(({ part }) => part.kind)) : '',
    countsOf('parameter', parameters),
    place ? 'another place' : '',
  ]
    .filter((words) => words !== '')
    .join('; ')
}

interface Counted {
  readonly fate: string
  readonly isMoved?: boolean
}

function countsOf(thing: string, all: readonly Counted[]): string {
  const counts = [
    ['changed', all.filter(({ fate }) => fate === 'changed').length],
    ['added', all.filter(({ fate }) => fate === 'added').length],
    ['removed', all.filter(({ fate }) => fate === 'removed').length],
    // What changed and moved is counted once, as changed.
    ['moved', all.filter(({ fate, isMoved }) => fate === 'kept' && isMoved).length],
  ] as const
  return counts
    .filter(([, count]) => count > 0)
    .map(([fate, count], n) =>
      n === 0 ? `${count} ${thing}${count === 1 ? '' : 's'} ${fate}` : `${count} ${fate}`,
    )
    .join(', ')
}

const kindsOf = (kinds: readonly string[]): string => `${[...new Set(kinds)].join(', ')} changed`
