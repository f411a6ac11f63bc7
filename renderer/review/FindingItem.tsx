/** One finding: the words at fault, what is wrong with them, why it matters and by which source, and what can be done. */
import { memo, type KeyboardEvent, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import { getRule } from '../../shared/procedure/review/review.ts'
import type { ProjectView } from '../store/view.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { goToWords, mend } from './acts.ts'
import { excerptOf } from './excerpt.ts'
import type { ListedFinding } from './listed.ts'
import { nameOfPartIn } from './names.ts'
import { PassOver } from './PassOver.tsx'
import { beginPassing, usePassing } from './passing.ts'
import { isField } from './useListKeyboard.ts'
import { wordsOfSource } from './words.ts'

export interface FindingItemProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
  readonly finding: ListedFinding
  /** Whether Tab stops here. */
  readonly isStop: boolean
}

export const FindingItem = memo(function FindingItem({ view, procedure, finding, isStop }: FindingItemProps) {
  const workspace = useWorkspace()
  const isPassing = usePassing((state) => state.key === finding.key)
  const rule = getRule(finding.rule)
  const tabIndex = isStop ? 0 : -1
  const canMend = finding.mend !== null && !finding.isStale
  const onMend = (): void => void mend(workspace, procedure, finding)
  const onPass = (): void => beginPassing(finding.key)
  const onKeyDown = (event: KeyboardEvent<HTMLLIElement>): void => {
    const act = actOfKey(event)
    if (act === null || finding.isStale) return
    if (act === 'mend' && !canMend) return
    event.preventDefault()
    if (act === 'go') goToWords(workspace, finding)
    else if (act === 'mend') onMend()
    else onPass()
  }
  return (
    <li
      className={finding.isStale ? 'st-finding st-finding--stale' : 'st-finding'}
      data-key={finding.key}
      tabIndex={tabIndex}
      aria-label={rule.name}
      aria-keyshortcuts={canMend ? 'Enter M P' : 'Enter P'}
      {...(isStop ? { 'data-first': true } : {})}
      onKeyDown={onKeyDown}
    >
      <p className="st-finding-rule">{rule.name}</p>
      {finding.isStale ? (
        <p className="st-finding-why">The text was changed. It is read again as soon as typing pauses.</p>
      ) : (
        <>
          <WordsAtFault view={view} finding={finding} />
          <p className="st-finding-sentence">{finding.sentence}</p>
          <p className="st-finding-why">
            {rule.why} <span className="st-finding-source">{wordsOfSource(rule.source)}</span>
          </p>
          {isPassing ? (
            <PassOver procedure={procedure} finding={finding} />
          ) : (
            <span className="st-finding-acts">
              {finding.mend ? (
                <Button
                  keys="M"
                  label={`Mend it: ${finding.mend.label}`}
                  tabIndex={tabIndex}
                  onClick={onMend}
                >
                  {finding.mend.label}
                </Button>
              ) : null}
              <Button look="quiet" keys="P" tabIndex={tabIndex} onClick={onPass}>
                Pass over…
              </Button>
              <Button
                look="quiet"
                keys="Enter"
                tabIndex={tabIndex}
                onClick={() => goToWords(workspace, finding)}
              >
                Go there
              </Button>
            </span>
          )}
        </>
      )}
    </li>
  )
})

/** Letters count from anywhere in the line, Enter on the line itself: on a button it presses that. */
function actOfKey(event: KeyboardEvent<HTMLLIElement>): 'go' | 'mend' | 'pass over' | null {
  if (event.defaultPrevented || event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return null
  if (isField(event.target)) return null
  if (event.key === 'Enter') return event.target === event.currentTarget ? 'go' : null
  const letter = event.key.toLowerCase()
  return letter === 'm' ? 'mend' : letter === 'p' ? 'pass over' : null
}

export function WordsAtFault({
  view,
  finding: { part, range, words },
}: {
  readonly view: ProjectView
  readonly finding: ListedFinding
}): ReactNode {
  const text = part ? view.texts.get(part) : undefined
  const excerpt = text !== undefined && range ? excerptOf(text, range) : null
  const name = part ? nameOfPartIn(view, part) : null
  if (!excerpt && words === '') return null
  return (
    <blockquote className="st-finding-words">
      {name === null ? null : <span className="st-finding-part">{name}</span>}
      {excerpt ? (
        <span>
          {excerpt.before}
          <mark>{excerpt.words}</mark>
          {excerpt.after}
        </span>
      ) : (
        <mark>{words}</mark>
      )}
    </blockquote>
  )
}
