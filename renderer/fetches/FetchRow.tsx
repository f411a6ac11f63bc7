/** One thing to fetch: its tick, what is known of it, the steps that want it, its SHA-256. */
import { useState } from 'react'
import { useStore } from 'zustand'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { WantedFetch } from '../../shared/procedure/fetches/fetchList.ts'
import { factsOfFetch, isFetched, nameOfFetch } from '../../shared/procedure/fetches/written.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button } from '../ui/index.ts'
import { AddIcon } from '../ui/icons.tsx'
import { tick } from './acts.ts'
import type { SumDrafts } from './sumDrafts.ts'
import { SumField } from './SumField.tsx'

export interface FetchRowProps {
  readonly procedure: ProcedureId
  readonly item: WantedFetch
  readonly nameOf: (place: WantedFetch['wanted'][number]) => string
  readonly drafts: SumDrafts
  readonly isFirst: boolean
}

export function FetchRow({ procedure, item, nameOf, drafts, isFirst }: FetchRowProps) {
  const workspace = useWorkspace()
  const [isAsked, setAsked] = useState(false)
  const hasDraft = useStore(drafts.store, (texts) => texts[item.item] !== undefined)
  // Of files the field stands open; of packages and images a sum is rare, so that a button opens it.
  const isOpen = isAsked || hasDraft || item.kind === 'download' || (item.record?.sha256 ?? null) !== null
  const fetched = item.record?.fetched ?? null
  const facts = [
    factsOfFetch(item),
    ...(fetched ? [`fetched ${fetched.slice(0, 10)} ${fetched.slice(11, 16)}`] : []),
  ]
  return (
    <li className={isFetched(item) ? 'st-fetch st-fetch--done' : 'st-fetch'}>
      <label className="st-check">
        <input
          type="checkbox"
          checked={isFetched(item)}
          data-fetch-tick
          {...(isFirst ? { 'data-first': true } : {})}
          onChange={(event) => void tick(workspace, procedure, item, event.target.checked)}
        />
        <span className="st-fetch-words">
          <span className={item.name === null ? undefined : 'st-mono'}>{nameOfFetch(item)}</span>{' '}
          <span className="st-fetch-facts">{facts.join(', ')}</span>
        </span>
      </label>
      <span className="st-fetch-places">
        {placesOf(item, nameOf).map(({ part, name }) => (
          <Button
            key={part.id}
            look="quiet"
            label={`${name} wants ${nameOfFetch(item)}: go there`}
            onClick={() => workspace.goTo({ kind: 'part', id: part.id })}
          >
            {name}
          </Button>
        ))}
        {item.hasSum && !isOpen ? (
          <Button
            look="quiet"
            icon={AddIcon}
            className="st-fetch-ask"
            label={`SHA-256 of ${nameOfFetch(item)}`}
            onClick={() => setAsked(true)}
          >
            SHA-256
          </Button>
        ) : null}
      </span>
      {item.hasSum && isOpen ? (
        <SumField procedure={procedure} item={item} drafts={drafts} focusesItself={isAsked} />
      ) : null}
    </li>
  )
}

const placesOf = ({ wanted }: WantedFetch, nameOf: FetchRowProps['nameOf']) =>
  wanted.map((place) => ({ part: place.part, name: nameOf(place) }))
