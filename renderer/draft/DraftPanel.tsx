/** Steps proposed from the journal, to take or leave: as they would stand, with what was dropped and why. */
import { useEffect, useMemo, useState, type ReactNode } from 'react'
import type { EntryId, StepId } from '../../shared/lab/ids.ts'
import { rowNumbers } from '../../shared/procedure/rows/numbers.ts'
import { plainWords } from '../../shared/markdown/words.ts'
import { entriesInOrder, partsOfStep, stepsOf, type ProjectView } from '../store/view.ts'
import { useProjectAnswer } from '../store/useProjectAnswer.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, ErrorSentence, Field, ProgressLine } from '../ui/index.ts'
import { ChooseEntries } from './ChooseEntries.tsx'
import { choiceFrom, type Choice } from './choice.ts'
import { DraftRows } from './DraftRows.tsx'
import { DroppedEntries } from './DroppedEntries.tsx'
import './draft.css'

/** @param from the entry from which on all are chosen; null for the path that worked */
export function DraftPanel({ from }: { readonly from: EntryId | null }): ReactNode {
  const workspace = useWorkspace()
  const view = useWorkspaceState((state) => state.view)
  return (
    <Panel
      title="Draft steps from the journal"
      band="procedure"
      className="st-draft"
      onClose={() => workspace.set({ panel: null })}
    >
      <div
        className="st-panel-body st-scroll"
        tabIndex={0}
        role="group"
        aria-label="Steps proposed from the journal"
        data-draft
      >
        {view ? <Draft view={view} from={from} /> : null}
      </div>
    </Panel>
  )
}

interface DraftProps {
  readonly view: ProjectView
  readonly from: EntryId | null
}

/** So long nothing is drafted after a choice: a person chooses several. */
const REST_MS = 300

function Draft({ view, from }: DraftProps) {
  const procedure = useWorkspaceState((state) => state.procedure)
  const { entries, marks, withdrawn } = view
  const listed = useMemo(
    () => entriesInOrder({ entries, marks }).filter(({ id }) => !withdrawn.has(id)),
    [entries, marks, withdrawn],
  )
  const order = useMemo(() => listed.map(({ id }) => id), [listed])
  const [choice, setChoice] = useState<Choice>(() => choiceFrom(order, from))
  const [isChosen, setChosen] = useState(from !== null)
  const [after, setAfter] = useState<StepId | null>(null)
  const chosen = useRested(isChosen ? choice.chosen : null)
  const argument = useMemo(() => ({ procedure, chosen: chosen && [...chosen] }), [procedure, chosen])
  const { answered, hasFailed, fresh } = useProjectAnswer('draft', argument)
  return (
    <>
      <div className="st-button-row st-draft-from" role="group" aria-label="What the steps are drafted from">
        <Button look="quiet" pressed={!isChosen} onClick={() => setChosen(false)}>
          The path that worked
        </Button>
        <Button look="quiet" pressed={isChosen} onClick={() => setChosen(true)}>
          {isChosen ? `Chosen entries, ${choice.chosen.size}` : 'Chosen entries…'}
        </Button>
      </div>
      {isChosen ? (
        <>
          <p className="st-draft-note">Space chooses an entry, Shift with an arrow or a click a range.</p>
          <ChooseEntries view={view} entries={listed} order={order} choice={choice} onChoice={setChoice} />
        </>
      ) : null}
      {hasFailed ? (
        <ErrorSentence
          happened="The steps could not be worked out."
          safe="Nothing was changed."
          next="Close the panel and open it again."
        />
      ) : !answered ? (
        <ProgressLine words="Reading the journal" share={null} />
      ) : (
        <>
          <DraftRows
            rows={answered.answer.rows}
            sequence={answered.sequence}
            place={{ procedure, after }}
            fresh={fresh}
            nothing={
              isChosen && choice.chosen.size === 0
                ? 'No entry is chosen.'
                : 'Nothing in these entries makes a step that the procedure does not hold.'
            }
            where={<Where view={view} after={after} onAfter={setAfter} />}
          />
          <DroppedEntries view={view} dropped={answered.answer.dropped} />
        </>
      )}
    </>
  )
}

/** A choice once it has rested a moment. */
function useRested<T>(value: T): T {
  const [rested, setRested] = useState(value)
  useEffect(() => {
    const timer = setTimeout(() => setRested(value), REST_MS)
    return () => clearTimeout(timer)
  }, [value])
  return rested
}

interface WhereProps {
  readonly view: ProjectView
  readonly after: StepId | null
  readonly onAfter: (after: StepId | null) => void
}

const MOST_WORDS = 60

/** Where the steps go. */
function Where({ view, after, onAfter }: WhereProps) {
  const procedure = useWorkspaceState((state) => state.procedure)
  const steps = procedure ? stepsOf(view, procedure) : []
  if (!procedure)
    return <p className="st-draft-note">A procedure is begun with them, named like the project.</p>
  if (steps.length === 0) return <p className="st-draft-note">They become the first steps.</p>
  const numbers = rowNumbers(steps)
  const isThere = steps.some(({ id }) => id === after)
  return (
    <Field label="Where they go">
      {(attributes) => (
        <select
          {...attributes}
          className="st-input"
          value={isThere ? after! : ''}
          onChange={(event) => onAfter(steps.find(({ id }) => id === event.target.value)?.id ?? null)}
        >
          <option value="">at the end</option>
          {steps.map(({ id, level }) => {
            const part = partsOfStep(view, id).get(level === 'section' ? 'heading' : 'do')
            const words = plainWords(part ? (view.texts.get(part.id) ?? '') : '', MOST_WORDS)
            const name = level === 'section' ? 'the heading' : `step ${numbers.get(id) ?? ''}`
            return (
              <option key={id} value={id}>
                behind {name}
                {words === '' ? '' : `: ${words}`}
              </option>
            )
          })}
        </select>
      )}
    </Field>
  )
}
