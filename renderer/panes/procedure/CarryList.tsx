/** The list of places that what was picked can be carried to: everything that dragging does, by keyboard or by clicks. */
import { useId, useMemo, useRef, useState, type KeyboardEvent } from 'react'
import { wordsOfFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import { canLand, entryKindAt, partKindAt } from '../../../shared/distil/landing.ts'
import { entryKinds, wordPartKinds, type CarryWay, type StepPartKind } from '../../../shared/lab/model.ts'
import { plainWords } from '../../../shared/markdown/words.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Panel } from '../../trace/Panel.tsx'
import { TextInput } from '../../ui/index.ts'
import { entryKindFaces, stepPartFaces } from '../../ui/kinds.ts'
import { AddIcon, JournalIcon, ProcedureIcon } from '../../ui/icons.tsx'
import { nextPlace } from '../../ui/roving.ts'
import { beginFirstPlace } from './acts.ts'
import { carryChoices, filterChoices, type CarryChoice, type WantedKinds } from './carryPlaces.ts'
import { KindRow } from './KindRow.tsx'
import { carryAndEnd } from './landing.ts'
import { toShownProcedure } from './shown.ts'

/** Open while something is picked to be carried. */
export function CarryList() {
  const carrying = useWorkspaceState((state) => state.carrying)
  // Another fragment begins a list of its own.
  const [serial, setSerial] = useState({ carrying, count: 0 })
  if (serial.carrying !== carrying) setSerial({ carrying, count: serial.count + 1 })
  return carrying ? <List key={serial.count} fragment={carrying} /> : null
}

function List({ fragment }: { readonly fragment: Fragment }) {
  const workspace = useWorkspace()
  const listId = useId()
  const list = useRef<HTMLDivElement>(null)
  const [typed, setTyped] = useState('')
  const [at, setAt] = useState(0)
  const [kinds, setKinds] = useState<WantedKinds>({ part: null, entry: null })
  const choices = useChoices(fragment, kinds)
  const found = filterChoices(choices, typed)
  const active = found[Math.min(at, found.length - 1)]
  const hasJournal = canLand(fragment, { at: 'journal' })
  const choose = (choice: CarryChoice, way: CarryWay) =>
    void carryAndEnd(workspace, fragment, choice.place ?? (() => beginFirstPlace(workspace, kinds.part)), way)

  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && active) {
      event.preventDefault()
      return choose(active, 'keyboard')
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
      title="Carry"
      band={hasJournal ? 'journal' : 'sources'}
      className="st-carry"
      onClose={() => workspace.set({ carrying: null })}
    >
      <div className="st-carry-head">
        <p className="st-carry-words">{excerptOf(fragment)}</p>
        <TextInput
          label="Find a place"
          hidesLabel
          placeholder="Find a place by its words"
          data-first
          role="combobox"
          aria-expanded
          aria-controls={listId}
          aria-activedescendant={active ? `${listId} ${active.id}`.replaceAll(' ', '-') : undefined}
          autoComplete="off"
          value={typed}
          onChange={(event) => {
            setTyped(event.currentTarget.value)
            setAt(0)
          }}
          onKeyDown={onKeyDown}
        />
        <KindRow
          label="As a part of a step"
          kinds={kindsFor(fragment)}
          faces={stepPartFaces}
          usual={partKindAt(fragment)}
          value={kinds.part}
          onChange={(part) => setKinds({ ...kinds, part })}
        />
        {hasJournal ? (
          <KindRow
            label="As an entry of the journal"
            kinds={entryKinds}
            faces={entryKindFaces}
            usual={entryKindAt(fragment)}
            value={kinds.entry}
            onChange={(entry) => setKinds({ ...kinds, entry })}
          />
        ) : null}
      </div>
      <div ref={list} id={listId} role="listbox" aria-label="Places" className="st-carry-list st-scroll">
        {found.map((choice) => (
          <Choice
            key={choice.id}
            id={`${listId} ${choice.id}`.replaceAll(' ', '-')}
            choice={choice}
            isActive={choice === active}
            onChoose={() => choose(choice, 'button')}
          />
        ))}
      </div>
      <p className="st-carry-foot" role="status">
        {found.length === 0
          ? 'No place goes by these words.'
          : `${found.length} places. Enter carries, Escape closes.`}
      </p>
    </Panel>
  )
}

/** A file is carried as one; nothing else becomes one. */
function kindsFor(fragment: Fragment): readonly StepPartKind[] {
  const usual = partKindAt(fragment)
  return [...(usual === 'file' ? [usual] : []), ...wordPartKinds]
}

function useChoices(fragment: Fragment, kinds: WantedKinds): CarryChoice[] {
  const view = useWorkspaceState((state) => state.view)
  const procedure = useWorkspaceState((state) => state.procedure)
  return useMemo(() => {
    const shown = view && procedure ? toShownProcedure(view, procedure) : null
    return carryChoices(fragment, shown, kinds)
  }, [view, procedure, fragment, kinds])
}

function PictureOf({ place }: Pick<CarryChoice, 'place'>) {
  if (place?.at === 'journal') return <JournalIcon />
  return place?.at === 'step' || place?.at === 'own' ? <ProcedureIcon /> : <AddIcon />
}

interface ChoiceProps {
  readonly id: string
  readonly choice: CarryChoice
  readonly isActive: boolean
  readonly onChoose: () => void
}

function Choice({ id, choice, isActive, onChoose }: ChoiceProps) {
  return (
    // The keyboard stays in the field above, which names the active place (WAI-ARIA APG, combobox pattern).
    <div
      id={id}
      role="option"
      aria-selected={isActive}
      className="st-carry-choice"
      onPointerDown={(event) => event.preventDefault()}
      onClick={onChoose}
    >
      <PictureOf place={choice.place} />
      <span className="st-carry-name">{choice.name}</span>
      {choice.excerpt === '' ? null : <span className="st-carry-excerpt">{choice.excerpt}</span>}
    </div>
  )
}

function excerptOf(fragment: Fragment): string {
  const words = plainWords(wordsOfFragment(fragment), 300)
  return words === ''
    ? `The source “${fragment.title || (fragment.address ?? 'Untitled source')}” as a whole`
    : words
}
