/** The list of ready cautions, found by words. Each is a start to adapt, and says whose word counts more. */
import { useId, useRef, useState, type KeyboardEvent } from 'react'
import { createPortal } from 'react-dom'
import type { Step } from '../../../shared/lab/model.ts'
import { signalWordMeanings } from '../../../shared/safety/signal-words/caution.ts'
import { findReadyCautions, type ReadyCaution } from '../../../shared/safety/signal-words/ready-texts.ts'
import { cautionToMarkdown } from '../../../shared/safety/signal-words/markdown.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Panel } from '../../trace/Panel.tsx'
import { Button, TextInput } from '../../ui/index.ts'
import { Markdown } from '../../ui/Markdown.tsx'
import { nextPlace } from '../../ui/roving.ts'
import { signalIcons, takeReady } from './cautions.ts'
import { setPane, usePane } from './paneStore.ts'

/** Open while a ready text is being chosen for a step. */
export function ReadyCautions() {
  const readyFor = usePane((state) => state.readyFor)
  const step = useWorkspaceState((state) => (readyFor ? state.view?.steps.get(readyFor) : undefined))
  // Outside of the pane, whose measure is a container that fixed things could not leave (CSS Containment 3).
  return step ? createPortal(<List key={step.id} step={step} />, document.body) : null
}

function List({ step }: { readonly step: Step }) {
  const workspace = useWorkspace()
  const listId = useId()
  const list = useRef<HTMLDivElement>(null)
  const [typed, setTyped] = useState('')
  const [at, setAt] = useState(0)
  const found = findReadyCautions(typed)
  const active = found[Math.min(at, found.length - 1)]
  const take = (ready: ReadyCaution) => void takeReady(workspace, step, ready)
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && active) {
      event.preventDefault()
      return take(active)
    }
    if (event.key === 'Home' || event.key === 'End') return
    const next = nextPlace(event.key, Math.min(at, found.length - 1), found.length, 'vertical')
    if (next === null) return
    event.preventDefault()
    setAt(next)
    list.current?.children[next]?.scrollIntoView({ block: 'nearest' })
  }
  return (
    <Panel
      title="Ready cautions"
      band="journal"
      className="st-carry st-ready"
      onClose={() => setPane({ readyFor: null })}
    >
      <div className="st-carry-head">
        <TextInput
          label="Find a caution"
          hidesLabel
          placeholder="What can go wrong: mains, wipe, ssh …"
          data-first
          role="combobox"
          aria-expanded
          aria-controls={listId}
          aria-activedescendant={active ? `${listId}-${active.id}` : undefined}
          autoComplete="off"
          value={typed}
          onChange={(event) => {
            setTyped(event.currentTarget.value)
            setAt(0)
          }}
          onKeyDown={onKeyDown}
        />
      </div>
      <div
        ref={list}
        id={listId}
        role="listbox"
        aria-label="Ready cautions"
        className="st-carry-list st-scroll"
      >
        {found.map((ready, i) => (
          <Choice
            key={ready.id}
            id={`${listId}-${ready.id}`}
            ready={ready}
            isActive={ready === active}
            onChoose={() => setAt(i)}
          />
        ))}
      </div>
      {active ? <Preview ready={active} onTake={() => take(active)} /> : null}
      {found.length === 0 ? (
        <p className="st-carry-foot" role="status">
          No ready text goes by these words. Write your own in the step.
        </p>
      ) : null}
    </Panel>
  )
}

interface ChoiceProps {
  readonly id: string
  readonly ready: ReadyCaution
  readonly isActive: boolean
  readonly onChoose: () => void
}

function Choice({ id, ready, isActive, onChoose }: ChoiceProps) {
  const { signal } = ready.caution
  const Picture = signal ? signalIcons[signal] : null
  return (
    // The keyboard stays in the field above, which names the active text (WAI-ARIA APG, combobox pattern).
    <div
      id={id}
      role="option"
      aria-selected={isActive}
      className="st-carry-choice"
      onPointerDown={(event) => event.preventDefault()}
      onClick={onChoose}
    >
      {Picture ? <Picture /> : null}
      <span className="st-carry-name">
        {ready.title}
        {signal ? <span className="st-ready-word"> {signalWordMeanings[signal].word}</span> : null}
      </span>
    </div>
  )
}

function Preview({ ready, onTake }: { readonly ready: ReadyCaution; readonly onTake: () => void }) {
  return (
    <div className="st-ready-text">
      <Markdown text={cautionToMarkdown(ready.caution)} />
      <p className="st-ready-why">
        {ready.why}
        {ready.defersTo ? ` Before this text go: ${ready.defersTo}` : ''}
      </p>
      <div className="st-button-row">
        <Button onClick={onTake}>Put it into the step</Button>
      </div>
    </div>
  )
}
