/** The remarks on a step, beside it: a count while they are folded, each with its state when they are not. */
import type { FormEvent, ReactNode } from 'react'
import type { Remark, Step } from '../../shared/lab/model.ts'
import { remarksOf } from '../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Button, TextArea } from '../ui/index.ts'
import { AddIcon, AmendIcon, RemarkIcon } from '../ui/icons.tsx'
import { Markdown } from '../ui/Markdown.tsx'
import { rewordRemark, setSettled, writeRemark } from './acts.ts'
import { beginRemark, setRewording, setUnfolded, setWriting, useRemarks } from './open.ts'
import './remarks.css'

interface StepRemarksProps {
  readonly step: Step
  readonly number: string
  readonly tabIndex: number
}

const none: readonly Remark[] = []

export function StepRemarks({ step, number, tabIndex }: StepRemarksProps): ReactNode {
  const remarks = useWorkspaceState((state) => (state.view ? remarksOf(state.view, step.id) : none))
  const isUnfolded = useRemarks((state) => state.unfolded.has(step.id))
  const written = useRemarks((state) => state.writing.get(step.id))
  if (remarks.length === 0 && written === undefined) return null
  const open = remarks.filter(({ settled }) => settled === null).length
  return (
    <section className="st-remarks" aria-label={`Remarks on step ${number}`}>
      {remarks.length === 0 ? null : (
        <Button
          look="quiet"
          icon={RemarkIcon}
          className="st-flush"
          aria-expanded={isUnfolded}
          tabIndex={tabIndex}
          onClick={() => setUnfolded(step.id, !isUnfolded)}
        >
          {wordsOfCount(remarks.length, open)}
        </Button>
      )}
      {isUnfolded ? (
        <>
          <ul className="st-remark-list">
            {remarks.map((remark) => (
              <RemarkItem key={remark.id} remark={remark} />
            ))}
          </ul>
          {written === undefined ? (
            <Button look="quiet" icon={AddIcon} className="st-flush" onClick={() => beginRemark(step.id)}>
              Add a remark
            </Button>
          ) : (
            <NewRemark step={step} number={number} text={written} />
          )}
        </>
      ) : null}
    </section>
  )
}

function wordsOfCount(count: number, open: number): string {
  const remarks = count === 1 ? '1 remark' : `${count} remarks`
  if (open === 0) return `${remarks}, settled`
  return open === count ? `${remarks}, open` : `${remarks}, ${open} open`
}

function NewRemark({
  step,
  number,
  text,
}: {
  readonly step: Step
  readonly number: string
  readonly text: string
}) {
  const workspace = useWorkspace()
  return (
    <RemarkForm
      label={`Remark on step ${number}`}
      text={text}
      onType={(next) => setWriting(step.id, next)}
      onKeep={async () => {
        if (await writeRemark(workspace, step, text.trim())) setWriting(step.id, null)
      }}
      onCancel={() => setWriting(step.id, null)}
    />
  )
}

function RemarkItem({ remark }: { readonly remark: Remark }) {
  const workspace = useWorkspace()
  const typed = useRemarks((state) => state.rewording.get(remark.id)?.text ?? null)
  const setTyped = (next: string | null) => setRewording(remark, next)
  const { text, made, settled } = remark
  const isSettled = settled !== null
  if (typed !== null)
    return (
      <li>
        <RemarkForm
          label="Remark"
          text={typed}
          onType={setTyped}
          onKeep={async () => {
            if (await rewordRemark(workspace, remark, typed.trim())) setTyped(null)
          }}
          onCancel={() => setTyped(null)}
        />
      </li>
    )
  return (
    <li className={isSettled ? 'st-remark st-remark--settled' : 'st-remark'}>
      <div className="st-prose">
        <Markdown text={text} />
      </div>
      <div className="st-remark-foot">
        <span>
          {made.slice(0, 10)} {made.slice(11, 16)}, {isSettled ? `settled ${settled.slice(0, 10)}` : 'open'}
        </span>
        <span className="st-button-row">
          <Button look="quiet" icon={AmendIcon} label="Change this remark" onClick={() => setTyped(text)} />
          <Button look="quiet" onClick={() => void setSettled(workspace, remark, !isSettled)}>
            {isSettled ? 'Open again' : 'Settle'}
          </Button>
        </span>
      </div>
    </li>
  )
}

interface RemarkFormProps {
  readonly label: string
  readonly text: string
  readonly onType: (text: string) => void
  readonly onKeep: () => Promise<void>
  readonly onCancel: () => void
}

function RemarkForm({ label, text, onType, onKeep, onCancel }: RemarkFormProps) {
  const isEmpty = text.trim() === ''
  const keep = (event: FormEvent): void => {
    event.preventDefault()
    event.stopPropagation()
    if (!isEmpty) void onKeep()
  }
  return (
    <form
      className="st-remark-form"
      onSubmit={keep}
      onKeyDown={(event) => {
        if (event.key === 'Escape') {
          event.preventDefault()
          event.stopPropagation()
          onCancel()
        } else if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) keep(event)
      }}
    >
      <TextArea
        label={label}
        rows={2}
        autoFocus
        value={text}
        onChange={(event) => onType(event.target.value)}
      />
      <span className="st-button-row">
        <Button look="quiet" keys="Escape" onClick={onCancel}>
          Cancel
        </Button>
        <Button type="submit" keys="Ctrl+Enter" aria-disabled={isEmpty}>
          Keep the remark
        </Button>
      </span>
    </form>
  )
}
