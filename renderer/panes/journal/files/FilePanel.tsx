/** The states of one file: what it held after each entry about it, and the difference between any two as `diff -u` gives it. */
import { useMemo, useState, type ReactNode } from 'react'
import { fileOf, momentOf } from '../../../../shared/journal/entry-facts.ts'
import { diffOfStates, statesOfPath } from '../../../../shared/journal/files/states.ts'
import type { EntryId } from '../../../../shared/lab/ids.ts'
import type { Entry } from '../../../../shared/lab/model.ts'
import type { Result } from '../../../../shared/lab/result.ts'
import { findSecrets } from '../../../../shared/safety/secrets/scan.ts'
import { letFileOut } from '../../../leaving/index.ts'
import type { ProjectView } from '../../../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { Panel } from '../../../trace/Panel.tsx'
import { Button, Field } from '../../../ui/index.ts'
import { CopyIcon, ExportIcon } from '../../../ui/icons.tsx'
import { copyText } from '../../../store/copyText.ts'
import { statesInOrder } from './fileStates.ts'

export function FilePanel({ entry: id }: { readonly entry: EntryId }): ReactNode {
  const workspace = useWorkspace()
  const view = useWorkspaceState((state) => state.view)
  const entry = view?.entries.get(id)
  const states = useMemo(() => (view && entry ? statesOf(view, entry) : []), [view, entry])
  if (!view || !entry || states.length === 0) return null
  const path = fileOf(entry, view.marks.get(id))?.path ?? ''
  return (
    <Panel
      title={path}
      band="procedure"
      className="st-file-panel"
      onClose={() => workspace.set({ panel: null })}
    >
      <div className="st-panel-body st-scroll" tabIndex={0} role="group" aria-label="States of the file">
        <States key={id} states={states} path={path} at={states.findIndex((one) => one.entry.id === id)} />
      </div>
    </Panel>
  )
}

interface State {
  readonly entry: Entry
  readonly name: string
  readonly content: Result<string>
}

function statesOf(view: ProjectView, entry: Entry): State[] {
  const entries = statesInOrder(entry, view)
  const contents = statesOfPath(
    entries.map((one) => ({
      text: view.texts.get(one.id) ?? '',
      state: fileOf(one, view.marks.get(one.id))!,
    })),
  )
  return entries.map((one, i) => {
    const at = momentOf(one, view.marks.get(one.id))
    return { entry: one, name: `${at.slice(0, 10)} ${at.slice(11, 16)}`, content: contents[i]! }
  })
}

const NOTHING = -1

function States({
  states,
  path,
  at,
}: {
  readonly states: readonly State[]
  readonly path: string
  readonly at: number
}) {
  const workspace = useWorkspace()
  const [older, setOlder] = useState(at > 0 ? at - 1 : NOTHING)
  const [newer, setNewer] = useState(at)
  const shown = states[newer]!
  const before = states[older]
  const choice = (label: string, value: number, set: (to: number) => void, hasNone: boolean) => (
    <Field label={label}>
      {(attributes) => (
        <select
          {...attributes}
          className="st-input"
          value={value}
          onChange={(event) => set(Number(event.target.value))}
        >
          {hasNone ? <option value={NOTHING}>nothing: show the whole</option> : null}
          {states.map(({ name }, i) => (
            <option key={i} value={i}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
  return (
    <>
      <div className="st-facts-fields">
        {choice('State of', newer, setNewer, false)}
        {choice('Against', older, setOlder, true)}
      </div>
      {shown.content.ok ? (
        before ? (
          <Difference before={before} after={shown} path={path} />
        ) : (
          <pre className="st-file-content">{shown.content.value}</pre>
        )
      ) : (
        <p className="st-file-sentence">{shown.content.sentence}</p>
      )}
      {shown.content.ok ? <Takers workspace={workspace} path={path} content={shown.content.value} /> : null}
    </>
  )
}

function Difference({
  before,
  after,
  path,
}: {
  readonly before: State
  readonly after: State
  readonly path: string
}) {
  if (!before.content.ok) return <p className="st-file-sentence">{before.content.sentence}</p>
  if (!after.content.ok) return null
  const diff = diffOfStates(before.content.value, after.content.value, path)
  if (diff === '') return <p className="st-file-sentence">Both states are equal.</p>
  return (
    <pre className="st-file-content" aria-label="The difference">
      {diff
        .replace(/\n$/, '')
        .split('\n')
        .map((line, i) => (
          <span key={i} className={`st-diff-line st-diff-line--${kindOf(line, i)}`}>
            {line}
            {'\n'}
          </span>
        ))}
    </pre>
  )
}

function kindOf(line: string, at: number): string {
  if (at < 2 || line.startsWith('@@')) return 'head'
  if (line.startsWith('+')) return 'added'
  return line.startsWith('-') ? 'removed' : 'same'
}

function Takers({
  workspace,
  path,
  content,
}: {
  readonly workspace: Workspace
  readonly path: string
  readonly content: string
}) {
  const copy = (): Promise<void> => copyText(workspace, content, 'Copied the content of the file.')
  const save = async (): Promise<void> => {
    const saved = await letFileOut(
      workspace,
      { found: findSecrets(content), what: 'The file' },
      {
        suggestedName: path.split('/').at(-1) || 'file',
        mediaType: 'text/plain',
        bytes: new TextEncoder().encode(content),
      },
    )
    if (!saved.ok) workspace.say('problem', saved.sentence)
  }
  return (
    <span className="st-button-row">
      <Button icon={CopyIcon} onClick={() => void copy()}>
        Copy the content
      </Button>
      <Button icon={ExportIcon} onClick={() => void save()}>
        Save as a file
      </Button>
    </span>
  )
}
