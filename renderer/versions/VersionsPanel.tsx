/** The versions of a procedure: marking one, looking at one, and what differs between any two. */
import { useEffect, useRef, useState, type FormEvent, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { Version } from '../../shared/lab/model.ts'
import type { FoundVersion } from '../store/panels.ts'
import { versionsOf, type ProjectView } from '../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, Field, TextInput } from '../ui/index.ts'
import { BackIcon, VersionIcon } from '../ui/icons.tsx'
import { Marked, placesOf } from '../ui/Marked.tsx'
import { markVersionNow } from './acts.ts'
import { OldVersion } from './OldVersion.tsx'
import { VersionDifferences } from './VersionDifferences.tsx'
import './versions.css'

interface VersionsPanelProps {
  readonly procedure: ProcedureId
  readonly found: FoundVersion | null
}

export function VersionsPanel({ procedure, found }: VersionsPanelProps): ReactNode {
  const workspace = useWorkspace()
  const view = useWorkspaceState((state) => state.view)
  const [looked, setLooked] = useState<number | null>(null)
  const versions = view ? versionsOf(view, procedure) : []
  const version = versions.find(({ number }) => number === looked)
  const isHere = view?.procedures.has(procedure) ?? false
  return (
    <Panel
      title={version ? `Version ${version.number}` : 'Versions'}
      band="procedure"
      onClose={() => workspace.set({ panel: null })}
    >
      <div
        className="st-panel-body st-scroll"
        tabIndex={0}
        role="group"
        aria-label="Versions of the procedure"
      >
        {!view || !isHere ? (
          <p>The procedure is gone.</p>
        ) : version ? (
          <>
            <Button look="quiet" icon={BackIcon} className="st-flush" onClick={() => setLooked(null)}>
              All versions
            </Button>
            <OldVersion key={version.id} view={view} version={version} />
          </>
        ) : (
          <>
            <MarkForm procedure={procedure} next={(versions.at(-1)?.number ?? 0) + 1} />
            <VersionList versions={versions} found={found} onLook={setLooked} />
            {versions.length === 0 ? null : (
              <Compare key={versions.length} view={view} procedure={procedure} versions={versions} />
            )}
          </>
        )}
      </div>
    </Panel>
  )
}

function MarkForm({ procedure, next }: { readonly procedure: ProcedureId; readonly next: number }) {
  const workspace = useWorkspace()
  const [line, setLine] = useState('')
  const [isAsked, setAsked] = useState(false)
  const [isBusy, setBusy] = useState(false)
  const isEmpty = line.trim() === ''
  const mark = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault()
    if (isBusy) return
    if (isEmpty) {
      setAsked(true)
      event.currentTarget.querySelector('input')?.focus()
      return
    }
    setBusy(true)
    void markVersionNow(workspace, procedure, line.trim())
      .then((isDone) => {
        if (!isDone) return
        setLine('')
        setAsked(false)
      })
      .finally(() => setBusy(false))
  }
  return (
    <form className="st-version-mark" noValidate onSubmit={mark}>
      <TextInput
        label={next === 1 ? 'What it is, in one line' : 'What changed, in one line'}
        data-first
        value={line}
        error={
          isAsked && isEmpty ? 'Say it in a line, so that a version can be told from the others.' : undefined
        }
        onChange={(event) => setLine(event.target.value)}
      />
      <Button type="submit" icon={VersionIcon} disabled={isBusy}>
        {`Mark it as version ${next}`}
      </Button>
    </form>
  )
}

interface VersionListProps {
  readonly versions: readonly Version[]
  readonly found: FoundVersion | null
  readonly onLook: (number: number) => void
}

function VersionList({ versions, found, onLook }: VersionListProps) {
  const list = useRef<HTMLOListElement>(null)
  useEffect(() => {
    if (found) list.current?.querySelector('mark')?.scrollIntoView({ block: 'center' })
  }, [found])
  if (versions.length === 0)
    return (
      <p className="st-parameter-note">
        A version is the procedure as it stands at one moment. It never changes, and the working copy says how
        it differs from the last one.
      </p>
    )
  return (
    <ol ref={list} className="st-versions" aria-label="Versions, the newest first">
      {[...versions].reverse().map(({ id, number, marked, line }) => (
        <li key={id} className="st-version">
          <span className="st-version-number">{number}</span>
          <span className="st-version-words">
            <span>
              <Marked text={line} marks={number === found?.number ? placesOf(found.words, line) : []} />
            </span>
            <span className="st-version-facts">
              {marked.slice(0, 10)} {marked.slice(11, 16)}
            </span>
          </span>
          <Button look="quiet" label={`Read version ${number}`} onClick={() => onLook(number)}>
            Read
          </Button>
        </li>
      ))}
    </ol>
  )
}

/** Stands for the working copy in the choices. */
const WORKING = 0

interface CompareProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
  readonly versions: readonly Version[]
}

function Compare({ view, procedure, versions }: CompareProps) {
  const [older, setOlder] = useState(versions.at(-1)!.number)
  const [newer, setNewer] = useState(WORKING)
  const choice = (label: string, value: number, onChoose: (number: number) => void) => (
    <Field label={label}>
      {(attributes) => (
        <select
          {...attributes}
          className="st-input"
          value={value}
          onChange={(event) => onChoose(Number(event.target.value))}
        >
          {versions.map(({ number }) => (
            <option key={number} value={number}>
              version {number}
            </option>
          ))}
          <option value={WORKING}>the working copy</option>
        </select>
      )}
    </Field>
  )
  const versionOf = (wanted: number): Version | null =>
    versions.find(({ number }) => number === wanted) ?? null
  return (
    <section className="st-version-compare" aria-label="Difference">
      <div className="st-parameter-row">
        {choice('From', older, setOlder)}
        {choice('To', newer, setNewer)}
      </div>
      <VersionDifferences
        view={view}
        procedure={procedure}
        older={versionOf(older)}
        newer={versionOf(newer)}
      />
    </section>
  )
}
