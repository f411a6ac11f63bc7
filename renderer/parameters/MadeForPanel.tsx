/**
 * A procedure made for another host: values are entered, and it is seen, copied or written out with them.
 * What is entered for a secret stays in this component and is gone with it. It goes into no store, draft, setting, undo,
 * title or name of a file, and into a text only where the person says so.
 */
import { useEffect, useMemo, useState, type ReactNode } from 'react'
import type { ProcedureId } from '../../shared/lab/ids.ts'
import type { Parameter } from '../../shared/lab/model.ts'
import type { Values } from '../../shared/procedure/values/placeholders.ts'
import { countFiles, saveOwnFiles, wordsOfFiles } from '../panes/procedure/ownFiles.ts'
import { toShownProcedure } from '../panes/procedure/shown.ts'
import { copyText } from '../store/copyText.ts'
import { PrintButtons, type ToPrint } from '../printing/index.ts'
import { parametersOf, type ProjectView } from '../store/view.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, EmptyState, ErrorSentence } from '../ui/index.ts'
import { CopyIcon, ExportIcon, ParameterIcon } from '../ui/icons.tsx'
import { fillProcedure, rightValues } from './filled.ts'
import { FilledProcedure } from './FilledProcedure.tsx'
import { filledMarkdown, saveFilled } from './handOut.ts'
import { ValueField } from './ValueField.tsx'
import './parameters.css'

export function MadeForPanel({ procedure }: { readonly procedure: ProcedureId }): ReactNode {
  const workspace = useWorkspace()
  const view = useWorkspaceState((state) => state.view)
  const close = (): void => workspace.set({ panel: null })
  const isHere = view?.procedures.has(procedure) ?? false
  return (
    <Panel title="Made for another host" band="procedure" className="st-made-for" onClose={close}>
      <div
        className="st-panel-body st-scroll"
        tabIndex={0}
        role="group"
        aria-label="Values and what they make"
      >
        {view && isHere ? <MadeFor view={view} procedure={procedure} /> : <p>The procedure is gone.</p>}
      </div>
    </Panel>
  )
}

/** What was entered before, of this window's life. Nothing of a secret is among it. */
const entered = new Map<ProcedureId, Values>()

interface MadeForProps {
  readonly view: ProjectView
  readonly procedure: ProcedureId
}

function MadeFor({ view, procedure }: MadeForProps) {
  const parameters = parametersOf(view, procedure)
  const open = useMemo(() => parameters.filter(({ type }) => type !== 'secret'), [parameters])
  const secret = useMemo(() => parameters.filter(({ type }) => type === 'secret'), [parameters])
  const [typed, setTyped] = useState<Values>(() => beginWith(open, entered.get(procedure)))
  const [secrets, setSecrets] = useState<Values>(() => new Map())
  const [isWithSecrets, setWithSecrets] = useState(false)
  const openNames = open.map(({ name }) => name).join()
  useEffect(() => {
    const names = new Set(openNames.split(','))
    entered.set(procedure, new Map([...typed].filter(([name]) => names.has(name))))
  }, [procedure, typed, openNames])
  const values = useMemo(() => rightValues(open, typed), [open, typed])
  const known = useMemo(() => rightValues(secret, secrets), [secret, secrets])
  const handedOut = useMemo(
    () => (isWithSecrets ? new Map([...values, ...known]) : values),
    [isWithSecrets, values, known],
  )
  const shown = useMemo(() => toShownProcedure(view, procedure), [view, procedure])
  if (!shown) return null
  if (parameters.length === 0)
    return (
      <EmptyState
        icon={ParameterIcon}
        purpose="Values that differ from host to host are asked for here. Select a value in a step and make a parameter of it first."
      />
    )
  const missing = parameters.filter(({ name }) => !values.has(name) && !known.has(name))
  return (
    <>
      <form className="st-made-for-fields" autoComplete="off" onSubmit={(event) => event.preventDefault()}>
        {parameters.map((parameter, i) => {
          const isSecret = parameter.type === 'secret'
          const [from, set] = isSecret ? [secrets, setSecrets] : [typed, setTyped]
          return (
            <ValueField
              key={parameter.id}
              parameter={parameter}
              value={from.get(parameter.name) ?? ''}
              isFirst={i === 0}
              onType={(value) => set(new Map(from).set(parameter.name, value))}
            />
          )
        })}
      </form>
      <p className="st-made-for-state" role="status">
        {wordsOfMissing(missing)}
      </p>
      <HandOut
        shown={shown}
        values={handedOut}
        open={values}
        known={known}
        hasSecrets={secret.length > 0}
        isWithSecrets={isWithSecrets}
        onWithSecrets={setWithSecrets}
      />
      <FilledProcedure
        shown={shown}
        parameters={parameters}
        values={values}
        known={known}
        handedOut={handedOut}
      />
    </>
  )
}

/** What was entered before, else the default. */
function beginWith(parameters: readonly Parameter[], before: Values | undefined): Values {
  return new Map(parameters.map(({ name, preset }) => [name, before?.get(name) || preset]))
}

function wordsOfMissing(missing: readonly Parameter[]): string {
  if (missing.length === 0) return 'Every value is there.'
  const names = missing.map(({ name }) => `“${name}”`).join(', ')
  return `${missing.length === 1 ? 'Not there or not right yet:' : `${missing.length} not there or not right yet:`} ${names}. ${missing.length === 1 ? 'Its' : 'Their'} places stay marked below.`
}

interface HandOutProps {
  readonly shown: NonNullable<ReturnType<typeof toShownProcedure>>
  /** What goes into the text. */
  readonly values: Values
  /** Those of them that are no secrets, for the name of the file. */
  readonly open: Values
  /** Secrets that were entered. */
  readonly known: Values
  readonly hasSecrets: boolean
  readonly isWithSecrets: boolean
  readonly onWithSecrets: (isWith: boolean) => void
}

function HandOut({ shown, values, open, known, hasSecrets, isWithSecrets, onWithSecrets }: HandOutProps) {
  const workspace = useWorkspace()
  const [failure, setFailure] = useState<string | null>(null)
  const [isBusy, setBusy] = useState(false)
  const copy = async (): Promise<void> => copyText(workspace, await filledMarkdown(workspace, shown, values))
  const write = async (): Promise<void> => {
    if (isBusy) return
    setBusy(true)
    setFailure(null)
    const result = await saveFilled(workspace, shown, values, open).finally(() => setBusy(false))
    if (!result.ok) return setFailure(result.sentence)
    if (result.value.kind === 'saved') workspace.say('done', `It was written to “${result.value.name}”.`)
  }
  const writeFiles = async (): Promise<void> => {
    if (isBusy) return
    setBusy(true)
    setFailure(null)
    const result = await saveOwnFiles(workspace, shown, values, open).finally(() => setBusy(false))
    if (!result.ok) return setFailure(result.sentence)
    if (result.value.kind === 'saved') workspace.say('done', wordsOfFiles(result.value))
  }
  // Secrets go to paper apart from the texts, which are read as Markdown.
  const toPrint = (): Promise<ToPrint> =>
    Promise.resolve({
      shown: fillProcedure(shown, open),
      values: open,
      secrets: isWithSecrets ? known : new Map(),
    })
  return (
    <div className="st-made-for-out">
      {hasSecrets ? (
        <>
          <label className="st-check">
            <input
              type="checkbox"
              checked={isWithSecrets}
              onChange={(event) => onWithSecrets(event.target.checked)}
            />
            <span>What I copy, print or write out may hold the secrets</span>
          </label>
          <p className="st-parameter-note">
            {isWithSecrets
              ? 'The file, the paper or the clipboard will hold the secrets in plain words. Keep it where only those who need it can read it, and delete or destroy it afterwards.'
              : 'Secrets keep their placeholders in what is copied, printed or written out. What is entered for them is stored nowhere.'}
          </p>
        </>
      ) : null}
      {failure === null ? null : (
        <ErrorSentence
          happened="The file was not written."
          safe={failure}
          next="Nothing in the lab was changed. Try again, or choose another place."
        />
      )}
      <div className="st-button-row">
        <Button icon={CopyIcon} onClick={() => void copy()}>
          Copy all
        </Button>
        <Button icon={ExportIcon} aria-disabled={isBusy} onClick={() => void write()}>
          {isBusy ? 'Writing …' : 'Export as Markdown…'}
        </Button>
        {countFiles(shown) === 0 ? null : (
          <Button icon={ExportIcon} aria-disabled={isBusy} onClick={() => void writeFiles()}>
            Export the files…
          </Button>
        )}
      </div>
      <PrintButtons toPrint={toPrint} />
    </div>
  )
}
