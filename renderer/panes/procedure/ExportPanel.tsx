/** Writes the procedure out: as a Markdown file, on paper, its files as files of their own. */
import { useEffect, useId, useRef, useState } from 'react'
import { procedureToMarkdown } from '../../../shared/export/procedure-markdown.ts'
import { failed, toFileName, type HostResult } from '../../../shared/host.ts'
import type { ProcedureId } from '../../../shared/lab/ids.ts'
import { plainWords } from '../../../shared/markdown/words.ts'
import { listedIn } from '../../fetches/index.ts'
import { letFileOut, useWriting, WriteRow } from '../../leaving/index.ts'
import { findSecrets } from '../../../shared/safety/secrets/scan.ts'
import { ProvenanceForm } from '../../provenance/ProvenanceForm.tsx'
import { PrintButtons, type ToPrint } from '../../printing/index.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button } from '../../ui/index.ts'
import { CloseIcon } from '../../ui/icons.tsx'
import { toExportInput } from './exportInput.ts'
import { readExportRecords } from './exportRecords.ts'
import { countFiles, saveOwnFiles, wordsOfFiles, type SavedFiles } from './ownFiles.ts'
import { setPane } from './paneStore.ts'
import { toShownProcedure } from './shown.ts'

/** The attribute by which the button that opens the panel is found again. */
export const exportOpener = 'data-export-opener'

const goneSentence = 'It was taken away in another window. What it held stands in the past of the lab.'

/** What leaves the program. */
const forms = {
  Markdown: 'Markdown file',
  paper: 'Paper or PDF',
  files: 'Files of their own',
  provenance: 'Provenance',
} as const
type Form = keyof typeof forms

export function ExportPanel({ procedure }: { readonly procedure: ProcedureId }) {
  const workspace = useWorkspace()
  const id = useId()
  const first = useRef<HTMLInputElement>(null)
  const [form, setForm] = useState<Form>('Markdown')
  useEffect(() => first.current?.focus(), [])
  const close = () => {
    setPane({ isExporting: false })
    document.querySelector<HTMLElement>(`[${exportOpener}]`)?.focus()
  }
  const toPrint = async (): Promise<ToPrint | null> => {
    await workspace.flushTexts()
    const shown = toShownProcedure(workspace.requireView(), procedure)
    return shown && { shown, values: new Map(), secrets: new Map() }
  }
  return (
    <section
      className="st-export"
      aria-labelledby={id}
      onKeyDown={(event) => {
        if (event.key === 'Escape') close()
      }}
    >
      <div className="st-export-head">
        <h3 id={id} className="st-export-title">
          Export the procedure
        </h3>
        <Button look="quiet" icon={CloseIcon} label="Close" onClick={close} />
      </div>
      <div className="st-export-forms" role="radiogroup" aria-label="Write it as">
        {(Object.keys(forms) as Form[]).map((one) => (
          <label key={one} className="st-check">
            <input
              ref={one === 'Markdown' ? first : undefined}
              type="radio"
              name={id}
              checked={form === one}
              onChange={() => setForm(one)}
            />
            <span>{forms[one]}</span>
          </label>
        ))}
      </div>
      {form === 'Markdown' ? <AsMarkdown procedure={procedure} onWritten={close} /> : null}
      {form === 'paper' ? (
        <>
          <p className="st-export-note">
            With a box to tick at each step, and blanks for the values of parameters.
          </p>
          <PrintButtons toPrint={toPrint} onPrinted={close} />
        </>
      ) : null}
      {form === 'files' ? <AsFiles procedure={procedure} onWritten={close} /> : null}
      {form === 'provenance' ? (
        <ProvenanceForm procedure={procedure} scope="procedure" isScopeAsked={false} onWritten={close} />
      ) : null}
    </section>
  )
}

/** The files that steps set down. */
function AsFiles({ procedure, onWritten }: FormProps) {
  const workspace = useWorkspace()
  const view = useWorkspaceState((state) => state.view)
  const shown = view && toShownProcedure(view, procedure)
  const count = shown ? countFiles(shown) : 0
  const write = async (): Promise<HostResult<SavedFiles>> => {
    await workspace.flushTexts()
    const now = toShownProcedure(workspace.requireView(), procedure)
    return now ? saveOwnFiles(workspace, now) : failed('not written', goneSentence)
  }
  const writing = useWriting(write, (saved) => {
    workspace.say('done', wordsOfFiles(saved))
    onWritten()
  })
  return (
    <>
      <p className="st-export-note">
        {count === 0
          ? 'No step sets down a file.'
          : `One archive (zip) with ${count === 1 ? 'the file that a step sets' : `the ${count} files that steps set`} down and a manifest that says where each belongs. Placeholders stay; fill them in by “Made for another host”.`}
      </p>
      <WriteRow
        writing={writing}
        word="Write archive"
        notDone="The files were not exported."
        isEmpty={count === 0}
      />
    </>
  )
}

interface FormProps {
  readonly procedure: ProcedureId
  readonly onWritten: () => void
}

function AsMarkdown({ procedure, onWritten }: FormProps) {
  const workspace = useWorkspace()
  const [withJournal, setWithJournal] = useState(false)
  const writing = useWriting(
    () => exportProcedure(workspace, procedure, withJournal),
    ({ name }) => {
      workspace.say('done', `The procedure was written to “${name}”.`)
      onWritten()
    },
  )
  return (
    <>
      <label className="st-check">
        <input
          type="checkbox"
          checked={withJournal}
          onChange={(event) => setWithJournal(event.currentTarget.checked)}
        />
        <span>With an appendix: the journal entries that the steps rest on</span>
      </label>
      <p className="st-export-note">Sources stand as footnotes. Read it once before you hand it on.</p>
      <WriteRow writing={writing} word="Write file" notDone="The procedure was not exported." />
    </>
  )
}

/** Exports a procedure as it stands, what is being typed included. */
export async function exportProcedure(
  workspace: Workspace,
  procedure: ProcedureId,
  withJournal: boolean,
): Promise<HostResult<{ kind: 'saved'; name: string } | { kind: 'cancelled' }>> {
  await workspace.flushTexts()
  const view = workspace.requireView()
  const shown = toShownProcedure(view, procedure)
  if (!shown)
    return {
      ok: false,
      code: 'not written',
      sentence: goneSentence,
    }
  const records = await readExportRecords(workspace.requireLab().queries, shown)
  const { machines } = workspace.state
  const input = {
    ...toExportInput(shown, records, machines),
    fetches: listedIn(view, procedure, machines),
  }
  const markdown = procedureToMarkdown(input, { journal: withJournal })
  return letFileOut(
    workspace,
    { found: findSecrets(markdown), what: 'The procedure' },
    {
      suggestedName: `${toFileName(plainWords(shown.title?.text ?? '', 80), 'procedure')}.md`,
      mediaType: 'text/markdown',
      bytes: new TextEncoder().encode(markdown),
    },
  )
}
