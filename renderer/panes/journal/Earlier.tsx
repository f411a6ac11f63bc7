/** What stood in an entry before it was amended. */
import { useEffect, useId, useState, type ReactNode } from 'react'
import type { EntryId } from '../../../shared/lab/ids.ts'
import type { Revision } from '../../../shared/lab/model.ts'
import type { Moment } from '../../../shared/lab/moment.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { EarlierIcon } from '../../ui/icons.tsx'
import { compareWords, wordingsOf, type Wording } from './earlierTexts.ts'
import { setIn, type JournalStore } from './journalState.ts'
import { timeBeside } from './rows.ts'
import { useAmendments } from './useEntry.ts'

export interface EarlierProps {
  readonly id: EntryId
  /** When the entry was written; other days than this are named. */
  readonly written: Moment
  readonly isUnfolded: boolean
  readonly store: JournalStore
  readonly tabIndex: number
}

/** A button that says when the entry was amended last, and behind it all that stood before. */
export function Earlier({ id, written, isUnfolded, store, tabIndex }: EarlierProps): ReactNode {
  const amendments = useAmendments(id)
  const region = useId()
  const last = amendments.at(-1)
  if (!last) return null
  return (
    <>
      <Button
        look="quiet"
        icon={EarlierIcon}
        className="st-entry-fact"
        tabIndex={tabIndex}
        aria-expanded={isUnfolded}
        aria-controls={region}
        onClick={() => setIn(store, 'unfolded', id, !isUnfolded)}
      >
        {`Amended ${timeBeside(last.moment, written)}`}
      </Button>
      {isUnfolded ? <EarlierTexts id={id} region={region} written={written} amendments={amendments} /> : null}
    </>
  )
}

function useWordings(id: EntryId, amendments: readonly Revision[]): readonly Wording[] | null {
  const workspace = useWorkspace()
  const [wordings, setWordings] = useState<readonly Wording[] | null>(null)
  useEffect(() => {
    let isOver = false
    void workspace
      .requireLab()
      .queries.revisions(id)
      .then((revisions) => {
        if (!isOver) setWordings(wordingsOf(revisions))
      })
    return () => {
      isOver = true
    }
    // A further amendment makes the list longer, and striking out rewrites it.
  }, [workspace, id, amendments])
  return wordings
}

interface EarlierTextsProps {
  readonly id: EntryId
  readonly region: string
  readonly written: Moment
  readonly amendments: readonly Revision[]
}

function EarlierTexts({ id, region, written, amendments }: EarlierTextsProps) {
  const wordings = useWordings(id, amendments)
  const [showsDifference, setShowsDifference] = useState(true)
  return (
    <section id={region} className="st-earlier" aria-label="What stood before">
      <div className="st-button-row">
        <Button look="quiet" pressed={showsDifference} onClick={() => setShowsDifference(true)}>
          What changed
        </Button>
        <Button look="quiet" pressed={!showsDifference} onClick={() => setShowsDifference(false)}>
          As it stood
        </Button>
      </div>
      <ol className="st-earlier-list">
        {wordings?.slice(0, -1).map((wording, at) => (
          <li key={at}>
            <p className="st-earlier-since">{wordSpan(wording.since, wordings[at + 1]!.since, written)}</p>
            {showsDifference ? (
              <Difference before={wording.text} after={wordings[at + 1]!.text} />
            ) : (
              <p className="st-earlier-text">{wording.text}</p>
            )}
          </li>
        ))}
      </ol>
    </section>
  )
}

function wordSpan(since: Moment, until: Moment, written: Moment): string {
  return `Stood from ${timeBeside(since, written)} to ${timeBeside(until, written)}`
}

function Difference({ before, after }: { readonly before: string; readonly after: string }) {
  return (
    <p className="st-earlier-text">
      {compareWords(before, after).map(({ fate, text }, at) => {
        if (fate === 'gone') return <del key={at}>{text}</del>
        if (fate === 'new') return <ins key={at}>{text}</ins>
        return <span key={at}>{text}</span>
      })}
    </p>
  )
}
