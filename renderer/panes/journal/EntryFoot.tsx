import type { ReactNode } from 'react'
import type { Entry, Link } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, LinkBadge } from '../../ui/index.ts'
import { CarryIcon } from '../../ui/icons.tsx'
import { Earlier } from './Earlier.tsx'
import type { JournalStore } from './journalState.ts'
import { nameOfOlder, outcomeWords, placesOfOlder } from './origins.ts'
import { ProblemFoot } from './ProblemFoot.tsx'
import { useAmendments, useOrigins, useOutcomes } from './useEntry.ts'

export interface EntryFootProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly isUnfolded: boolean
  readonly tabIndex: number
}

/** Below an entry's text: where it came from, what came of it, and what it said before. */
export function EntryFoot({ entry, store, isUnfolded, tabIndex }: EntryFootProps): ReactNode {
  const { id, moment } = entry
  const origins = useOrigins(id)
  const outcomes = useOutcomes(id)
  const isAmended = useAmendments(id).length > 0
  const isProblem = entry.kind === 'problem'
  if (origins.length + outcomes.length === 0 && !isAmended && !isProblem) return null
  return (
    <div className="st-entry-foot st-entry-facts">
      {isProblem ? <ProblemFoot entry={entry} store={store} tabIndex={tabIndex} /> : null}
      {origins.map((link) => (
        <OriginButton key={link.id} link={link} tabIndex={tabIndex} />
      ))}
      <OutcomeButton id={id} links={outcomes} tabIndex={tabIndex} />
      <Earlier id={id} written={moment} isUnfolded={isUnfolded} store={store} tabIndex={tabIndex} />
    </div>
  )
}

/** Goes to the words that the entry came from. */
function OriginButton({ link, tabIndex }: { readonly link: Link; readonly tabIndex: number }) {
  const workspace = useWorkspace()
  const { node } = link.older
  const name = useWorkspaceState(({ view }) => (view ? nameOfOlder(view, node) : ''))
  const state = useWorkspaceState(({ view }) => view?.states.get(link.id))
  return (
    <Button
      look="quiet"
      className="st-entry-fact"
      tabIndex={tabIndex}
      onClick={() => workspace.goTo(node, placesOfOlder(state))}
    >
      {state ? <LinkBadge type={state.type} isLoose={state.loose} /> : null} from {name}
    </Button>
  )
}

interface OutcomeButtonProps {
  readonly id: Entry['id']
  readonly links: readonly Link[]
  readonly tabIndex: number
}

/** Shows what came of the entry. */
function OutcomeButton({ id, links, tabIndex }: OutcomeButtonProps) {
  const workspace = useWorkspace()
  const parts = useWorkspaceState(({ view }) => view?.parts)
  const words = parts ? outcomeWords(links, parts) : null
  if (words === null) return null
  return (
    <Button
      look="quiet"
      icon={CarryIcon}
      className="st-entry-fact"
      label={`${words}: what came of it`}
      tabIndex={tabIndex}
      onClick={() => workspace.set({ traced: { kind: 'entry', id, view: 'forward' } })}
    >
      {words}
    </Button>
  )
}
