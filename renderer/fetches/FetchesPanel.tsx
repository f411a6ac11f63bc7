/** What to fetch before the network is cut: all that the commands of a procedure want from it, to be ticked off. */
import { useEffect, useMemo, useState, type KeyboardEvent, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { Fetch } from '../../shared/lab/model.ts'
import type { WantedFetch } from '../../shared/procedure/fetches/fetchList.ts'
import { countOfFetched, groupsOf, toListed, toSumsFile } from '../../shared/procedure/fetches/written.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import type { ProjectView } from '../store/view.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, EmptyState, ErrorSentence } from '../ui/index.ts'
import { CopyIcon, ExportIcon, FetchIcon } from '../ui/icons.tsx'
import { nextPlace } from '../ui/roving.ts'
import { copyList, saveList, saveSums, wordsOfSums } from './acts.ts'
import { FetchRow } from './FetchRow.tsx'
import { fetchListIn, namesOfPlaces } from './listed.ts'
import { SumDrafts } from './sumDrafts.ts'
import './fetches.css'

/** It stands over the journal, above the composer, so that the steps are seen that want what it lists. */
export function FetchesPanel({ procedure }: { readonly procedure: ProcedureId }): ReactNode {
  const workspace = useWorkspace()
  const view = useWorkspaceState((state) => state.view)
  const isHere = view?.procedures.has(procedure) ?? false
  return (
    <Panel title="To fetch beforehand" band="journal" onClose={() => workspace.set({ panel: null })}>
      <div
        className="st-panel-body st-scroll"
        tabIndex={0}
        role="group"
        aria-label="What to fetch beforehand"
        onKeyDown={goToTick}
      >
        {view && isHere ? <Fetches view={view} procedure={procedure} /> : <p>The procedure is gone.</p>}
      </div>
    </Panel>
  )
}

/** Arrows, Home and End go from tick to tick; in a field they belong to its text. */
function goToTick(event: KeyboardEvent<HTMLElement>): void {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return
  if (event.target instanceof Element && event.target.matches('input:not([type="checkbox"])')) return
  const ticks = [...event.currentTarget.querySelectorAll<HTMLInputElement>('[data-fetch-tick]')]
  const row = event.target instanceof Element ? event.target.closest('.st-fetch') : null
  const at = ticks.findIndex((tick) => row?.contains(tick))
  const next = nextPlace(event.key, at, ticks.length, 'vertical')
  if (next === null) return
  event.preventDefault()
  ticks[next]!.focus()
}

interface FetchesProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
}

function Fetches({ view, procedure }: FetchesProps) {
  const machines = useWorkspaceState((state) => state.machines)
  const drafts = useSumDrafts(procedure)
  const { items, stale } = useMemo(() => fetchListIn(view, procedure, machines), [view, procedure, machines])
  const nameOf = useMemo(() => namesOfPlaces(view, procedure), [view, procedure])
  if (items.length === 0 && stale.length === 0)
    return (
      <EmptyState
        icon={FetchIcon}
        purpose="Packages, images, keys, downloads and repositories that the commands want stand here, to be had before the network is cut. No command wants any yet."
      />
    )
  return (
    <>
      <p className="st-fetch-count" role="status">
        {countOfFetched(toListed(items, nameOf))}
      </p>
      {groupsOf(items).map(({ kind, label, items: own }) => (
        <section key={kind} aria-label={label}>
          <h3 className="st-trace-heading">
            {label}, {own.length}
          </h3>
          <ul className="st-fetches">
            {own.map((item) => (
              <FetchRow
                key={item.item}
                procedure={procedure}
                item={item}
                nameOf={nameOf}
                drafts={drafts}
                isFirst={item === groupsOf(items)[0]?.items[0]}
              />
            ))}
          </ul>
        </section>
      ))}
      {items.length === 0 ? null : <HandOut procedure={procedure} items={items} nameOf={nameOf} />}
      <Stale records={stale} />
    </>
  )
}

/** What is typed and is no sum yet, brought back and written down with the lab. */
function useSumDrafts(procedure: ProcedureId): SumDrafts {
  const workspace = useWorkspace()
  const [drafts] = useState(() => new SumDrafts(workspace.requireLab(), `sums of ${procedure}`))
  useEffect(() => {
    void drafts.load()
    const write = () => drafts.write()
    const stopFlush = workspace.addFlush(write)
    const stopStruck = workspace.textsStruck.on(() => void drafts.takeStruck())
    return () => {
      stopFlush()
      stopStruck()
      void write()
    }
  }, [workspace, drafts])
  return drafts
}

interface HandOutProps {
  readonly procedure: ProcedureId
  readonly items: readonly WantedFetch[]
  readonly nameOf: (place: WantedFetch['wanted'][number]) => string
}

function HandOut({ procedure, items, nameOf }: HandOutProps) {
  const workspace = useWorkspace()
  const [failure, setFailure] = useState<string | null>(null)
  const sums = toSumsFile(items)
  const isNone = sums.count === 0
  const save = async (write: () => Promise<string | null>): Promise<void> => {
    setFailure(null)
    setFailure(await write())
  }
  const listed = () => toListed(items, nameOf)
  return (
    <div className="st-fetch-out">
      {failure === null ? null : (
        <ErrorSentence
          happened="The file was not written."
          safe={failure}
          next="Nothing in the lab was changed. Try again, or choose another place."
        />
      )}
      <div className="st-button-row">
        <Button icon={CopyIcon} onClick={() => void copyList(workspace, listed())}>
          Copy the list
        </Button>
        <Button icon={ExportIcon} onClick={() => void save(() => saveList(workspace, procedure, listed()))}>
          Export as Markdown…
        </Button>
        <Button
          icon={ExportIcon}
          aria-disabled={isNone}
          onClick={() => (isNone ? undefined : void save(() => saveSums(workspace, sums)))}
        >
          Export the sums…
        </Button>
      </div>
      <p className="st-parameter-note">{wordsOfSums(items)}</p>
    </div>
  )
}

/** Records of what no command wants any more. They stay: the command may come back. */
function Stale({ records }: { readonly records: readonly Fetch[] }) {
  if (records.length === 0) return null
  return (
    <details className="st-fetch-stale">
      <summary>No command wants these any more, {records.length}</summary>
      <ul className="st-fetches">
        {records.map(({ id, item, fetched, sha256 }) => (
          <li key={id} className="st-fetch">
            <span className="st-fetch-words">{item}</span>
            <span className="st-fetch-facts">
              {fetched ? `fetched ${fetched.slice(0, 10)} ${fetched.slice(11, 16)}` : 'not fetched'}
            </span>
            {sha256 ? <code className="st-fetch-facts st-mono">{sha256}</code> : null}
          </li>
        ))}
      </ul>
    </details>
  )
}
