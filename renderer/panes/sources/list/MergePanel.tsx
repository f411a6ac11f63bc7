/** Sources that are, or seem to be, the same: to be made one, or to be remembered as different. */
import { useId, useState } from 'react'
import { useStore } from 'zustand'
import type { SourceId } from '../../../../shared/lab/ids.ts'
import { likeliestKept } from '../../../../shared/sources/duplicates.ts'
import type { SourceFacts } from '../../../../shared/sources/facts.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button, Dialog, sourceKindFaces } from '../../../ui/index.ts'
import { dayOf, titleOf } from '../rows.ts'
import { merge } from './acts.ts'
import { endChoosing, goToRow, type ListStore } from './listState.ts'
import { idsOf, type Listed } from './useListed.ts'
import { countWords } from './words.ts'

export interface MergePanelProps {
  readonly store: ListStore
  readonly listed: Listed
}

export function MergePanel({ store, listed }: MergePanelProps) {
  const merging = useStore(store, (state) => state.merging)
  const rows = (merging ?? []).flatMap((id) => listed.byId.get(id) ?? [])
  if (!merging || rows.length < 2) return null
  return <Panel key={merging.join()} rows={rows} store={store} listed={listed} />
}

function Panel({ rows, store, listed }: MergePanelProps & { readonly rows: readonly SourceFacts[] }) {
  const workspace = useWorkspace()
  const name = useId()
  const [kept, setKept] = useState<SourceId>(() => likeliestKept(rows).source.id)
  const ids = idsOf(rows)
  const seemSame = rows.some(({ source }) => listed.same.has(source.id))
  const close = (): void => store.setState({ merging: null })
  const mergeThem = async (): Promise<void> => {
    if (!(await merge(workspace, ids, kept))) return
    endChoosing(store)
    close()
    goToRow(store, kept)
  }
  const keepApart = (): void => {
    const before = store.getState().apart
    store.setState({ apart: [...before, ids] })
    close()
    workspace.say('done', `${countWords(ids.length)} are kept apart and no longer shown as the same.`, {
      word: 'Take it back',
      onAct: () => store.setState(({ apart }) => ({ apart: apart.filter((set) => set !== ids) })),
    })
  }
  return (
    <Dialog
      title={`Make ${countWords(rows.length)} one`}
      width="wide"
      onClose={close}
      actions={
        <>
          {seemSame ? <Button onClick={keepApart}>Keep apart</Button> : null}
          <Button onClick={close}>Leave them as they are</Button>
          <Button look="strong" onClick={() => void mergeThem()}>
            Merge
          </Button>
        </>
      }
    >
      <p>
        Every link stays true: what came from any of them is found at the one that you keep, with all their
        captures, tags and folders. Undo takes the merge back.
      </p>
      <fieldset className="st-merge">
        <legend className="st-field-label">Which one to keep</legend>
        <table className="st-merge-table">
          <thead>
            <tr>
              <th scope="col">Source</th>
              <th scope="col">Added</th>
              <th scope="col" className="st-merge-number">
                Captures
              </th>
              <th scope="col" className="st-merge-number">
                Carried
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <Member
                key={row.source.id}
                row={row}
                name={name}
                isKept={row.source.id === kept}
                onKeep={() => setKept(row.source.id)}
              />
            ))}
          </tbody>
        </table>
      </fieldset>
    </Dialog>
  )
}

interface MemberProps {
  readonly row: SourceFacts
  readonly name: string
  readonly isKept: boolean
  readonly onKeep: () => void
}

function Member({ row: { source, captures, uses }, name, isKept, onKeep }: MemberProps) {
  const id = useId()
  return (
    <tr className={isKept ? 'st-merge-kept' : undefined}>
      <th scope="row">
        <label className="st-merge-member" htmlFor={id}>
          <input
            id={id}
            type="radio"
            name={name}
            checked={isKept}
            data-first={isKept || undefined}
            onChange={onKeep}
          />
          <span>
            <span className="st-merge-title">{titleOf(source)}</span>
            <span className="st-merge-address">{source.address ?? 'Without an address'}</span>
          </span>
        </label>
      </th>
      <td>
        {dayOf(source.added)}
        <span className="st-merge-kind">{sourceKindFaces[source.kind].word}</span>
      </td>
      <td className="st-merge-number">{captures}</td>
      <td className="st-merge-number">{uses}</td>
    </tr>
  )
}
