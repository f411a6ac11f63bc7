/** What a procedure still lacks: the findings of the rules, step by step, to be mended or passed over with a reason. */
import { useLayoutEffect, useMemo, useRef, useState, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { OpenPanel } from '../store/panels.ts'
import type { ProjectView } from '../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, ErrorSentence, Kbd } from '../ui/index.ts'
import { FilterByRule } from './FilterByRule.tsx'
import { FindingItem } from './FindingItem.tsx'
import { firstAt, groupByStep, type Listed, type ListedFinding } from './listed.ts'
import { namesOfRows } from './names.ts'
import { NothingOpen } from './NothingOpen.tsx'
import { PassedOver } from './PassedOver.tsx'
import { useListKeyboard } from './useListKeyboard.ts'
import { useLooking, useReviewer, useReviewState } from './useReview.ts'
import { wordsOfCounts } from './words.ts'
import './review.css'

type AskedFor = OpenPanel & { readonly kind: 'review' }

/** It stands over the journal, so that the steps are seen that the findings speak of. */
export function ReviewPanel({ panel }: { readonly panel: AskedFor }): ReactNode {
  const workspace = useWorkspace()
  return (
    <Panel title="Review" band="journal" onClose={() => workspace.set({ panel: null })}>
      <Review panel={panel} />
    </Panel>
  )
}

function Review({ panel }: { readonly panel: AskedFor }): ReactNode {
  useLooking()
  const reviewer = useReviewer()
  const view = useWorkspaceState((state) => state.view)
  const shown = useReviewState((state) => state.procedure)
  const listed = useReviewState((state) => state.listed)
  const isBroken = useReviewState((state) => state.isBroken)
  if (isBroken)
    return (
      <div className="st-panel-body">
        <ErrorSentence
          happened="The procedure could not be reviewed."
          safe="Its texts are safe."
          next="Try again. Where that fails too, the program is at fault."
          action={
            <Button data-first onClick={() => reviewer.readNow()}>
              Try again
            </Button>
          }
        />
      </div>
    )
  if (!view || !shown || !view.procedures.has(shown))
    return <p className="st-panel-body">No procedure is shown.</p>
  return <Findings key={shown} panel={panel} view={view} procedure={shown} listed={listed} />
}

interface FindingsProps {
  readonly panel: AskedFor
  readonly view: ProjectView
  readonly procedure: ProcedureId
  /** Null while the procedure is being read for the first time. */
  readonly listed: Listed | null
}

const nothingYet: Listed = { open: [], passedOver: [], spent: [], openAt: new Map() }

function Findings({ panel, view, procedure, listed: read }: FindingsProps) {
  const listed = read ?? nothingYet
  const isReading = useReviewState((state) => state.isReading)
  const [filter, setFilter] = useState<{ readonly rule: string | null; readonly of: AskedFor } | null>(null)
  // Asked for at a step or a part, it shows all of that, whatever was shown before.
  const rule = filter && (panel.at === null || filter.of === panel) ? filter.rule : null
  const open = useMemo(
    () => (rule === null ? listed.open : listed.open.filter((one) => one.rule === rule)),
    [listed, rule],
  )
  const groups = useMemo(() => {
    const nameOf = namesOfRows(view, procedure)
    return groupByStep(open).map((group) => ({ ...group, name: nameOf(group.step) }))
  }, [open, view, procedure])
  const keys = useMemo(() => open.map(({ key }) => key), [open])
  const wanted = panel.at ? (firstAt(open, panel.at)?.key ?? null) : null
  const keyboard = useListKeyboard(keys, wanted)
  useAskedAgain(panel, () => keyboard.focus(wanted ?? keyboard.stop))
  return (
    <>
      <div className="st-review-head">
        <p className="st-review-count" role="status">
          {read ? wordsOfCounts(read) : 'The procedure is being read.'}
        </p>
        {read && isReading ? (
          <span className="st-review-reading" aria-hidden="true">
            being read again
          </span>
        ) : null}
        <FilterByRule
          open={listed.open}
          rule={rule}
          onChoose={(next) => setFilter({ rule: next, of: panel })}
        />
      </div>
      <div
        {...keyboard.attributes}
        className="st-panel-body st-scroll st-review"
        tabIndex={open.length === 0 ? 0 : -1}
        role="group"
        aria-label="Findings"
        {...(open.length === 0 ? { 'data-first': true } : {})}
      >
        {read && open.length === 0 ? <NothingOpen listed={read} rule={rule} /> : null}
        {groups.map(({ step, name, findings }) => (
          <section key={step ?? 'own'} className="st-review-group">
            <h3 className="st-review-step">{name}</h3>
            <ul className="st-findings">
              {findings.map((finding) => (
                <FindingItem
                  key={finding.key}
                  view={view}
                  procedure={procedure}
                  finding={finding}
                  isStop={finding.key === keyboard.stop}
                />
              ))}
            </ul>
          </section>
        ))}
        <PassedOver view={view} procedure={procedure} listed={listed} />
      </div>
      {open.length === 0 ? null : <Keys open={open} />}
    </>
  )
}

/** Asked for again while it is open, the keyboard goes to it. The first time the panel itself sees to that. */
function useAskedAgain(panel: AskedFor, focus: () => void): void {
  const handled = useRef(panel)
  useLayoutEffect(() => {
    if (handled.current === panel) return
    handled.current = panel
    focus()
  })
}

function Keys({ open }: { readonly open: readonly ListedFinding[] }) {
  return (
    <p className="st-review-keys">
      <span>
        <Kbd keys="↑" /> <Kbd keys="↓" /> from one to the next
      </span>
      <span>
        <Kbd keys="Enter" /> to its words
      </span>
      {open.some((one) => one.mend !== null) ? (
        <span>
          <Kbd keys="M" /> mend
        </span>
      ) : null}
      <span>
        <Kbd keys="P" /> pass over
      </span>
    </p>
  )
}
