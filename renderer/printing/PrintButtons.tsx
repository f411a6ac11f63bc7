/** The choice of paper and the buttons that print: on a printer, or to a PDF. */
import { useEffect, useState, type ReactNode } from 'react'
import type { HostAnswer } from '../../shared/host.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import { Button, ErrorSentence, Field } from '../ui/index.ts'
import { PrintIcon, SourcePdfIcon } from '../ui/icons.tsx'
import { printProcedure, type PrintChoice, type ToPrint } from './print.ts'

type Paper = PrintChoice['paper']
const papers: readonly Paper[] = ['A4', 'Letter']

/** Where paper is mostly Letter (ANSI/ASME Y14.1) and not A4 (ISO 216), after the language's region. */
const usesLetter = (language: string): boolean => /-(?:US|CA|MX|PH|CL|CO|VE)\b/iu.test(language)

interface PrintButtonsProps {
  /** What is to be printed, as it is when a button is pressed; null where it is gone. */
  readonly toPrint: () => Promise<ToPrint | null>
  readonly onPrinted?: () => void
}

export function PrintButtons({ toPrint, onPrinted }: PrintButtonsProps): ReactNode {
  const workspace = useWorkspace()
  const host = useHostKind()
  const [paper, setPaper] = useState<Paper>(() => (usesLetter(navigator.language) ? 'Letter' : 'A4'))
  const [isBusy, setBusy] = useState(false)
  const [failure, setFailure] = useState<string | null>(null)
  const print = async (to: PrintChoice['to']): Promise<void> => {
    if (isBusy) return
    setBusy(true)
    setFailure(null)
    const given = await toPrint()
    const result =
      given && (await printProcedure(workspace, given, { to, paper }).finally(() => setBusy(false)))
    setBusy(false)
    if (!result) return setFailure('The procedure was taken away in another window.')
    if (!result.ok) return setFailure(result.sentence)
    const words = wordsOf(result.value)
    if (words !== null) workspace.say('done', words)
    if (result.value.kind !== 'cancelled') onPrinted?.()
  }
  return (
    <div className="st-print-choice">
      {host === 'electron' ? (
        <Field label="Paper">
          {(attributes) => (
            <select
              {...attributes}
              className="st-input"
              value={paper}
              onChange={(event) => setPaper(event.target.value as Paper)}
            >
              {papers.map((one) => (
                <option key={one}>{one}</option>
              ))}
            </select>
          )}
        </Field>
      ) : (
        <p className="st-export-note">The browser’s dialog asks for the paper, and can save a PDF too.</p>
      )}
      {failure === null ? null : (
        <ErrorSentence
          happened="It was not printed."
          safe={failure}
          next="Nothing in the lab was changed. Try again, or choose another place."
        />
      )}
      <div className="st-button-row">
        {host === 'electron' ? (
          <Button icon={SourcePdfIcon} aria-disabled={isBusy} onClick={() => void print('PDF')}>
            {isBusy ? 'Making it …' : 'Save as PDF…'}
          </Button>
        ) : null}
        <Button icon={PrintIcon} aria-disabled={isBusy} onClick={() => void print('printer')}>
          Print…
        </Button>
      </div>
    </div>
  )
}

function wordsOf(printed: HostAnswer<'printPage'>): string | null {
  if (printed.kind === 'saved') return `The PDF was written to “${printed.name}”.`
  return printed.kind === 'printed' ? 'It was handed to the printer.' : null
}

/** Null until it is known. */
function useHostKind(): HostAnswer<'describe'>['kind'] | null {
  const workspace = useWorkspace()
  const [kind, setKind] = useState<HostAnswer<'describe'>['kind'] | null>(null)
  useEffect(() => {
    let isOver = false
    void workspace.host.describe().then((described) => {
      if (!isOver && described.ok) setKind(described.value.kind)
    })
    return () => {
      isOver = true
    }
  }, [workspace])
  return kind
}
