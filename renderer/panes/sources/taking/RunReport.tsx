import { useWorkspace } from '../../../store/useWorkspace.ts'
import { Button } from '../../../ui/index.ts'
import { CheckIcon, CloseIcon, CopyIcon, NoticeIcon } from '../../../ui/icons.tsx'
import { takingOf } from '../taking.ts'
import { linesOf, textOfReport, wordsOfReport, type Report, type ReportLine } from './report.ts'
import { addAsOwn, changeFolders, takeBack, takeBackLine } from './reportActs.ts'

/** What a run came to. Of few things each that was there or was read again has a line; of many there is a count first. */
export function RunReport({ report }: { readonly report: Report }) {
  return report.isFew ? <FewLines report={report} /> : <ManyReport report={report} />
}

function FewLines({ report }: { readonly report: Report }) {
  return (
    <ul className="st-taken-lines" aria-label="What was here before">
      {report.lines.map((line) => (
        <li key={line.id} className="st-taken">
          <NoticeIcon />
          <LineWords report={report} line={line} isAlone />
        </li>
      ))}
    </ul>
  )
}

interface LineProps {
  readonly report: Report
  readonly line: ReportLine
  /** It can be taken back and taken away without the others. */
  readonly isAlone: boolean
}

function LineWords({ report, line, isAlone }: LineProps) {
  const workspace = useWorkspace()
  const { board } = takingOf(workspace)
  const { source, capture } = line
  return (
    <>
      <div className="st-taken-words">
        <p>{line.sentence}</p>
        <div className="st-button-row">
          {capture !== null ? (
            <Button onClick={() => workspace.goTo({ kind: 'capture', id: capture })}>See what changed</Button>
          ) : source !== null ? (
            <Button onClick={() => workspace.goTo({ kind: 'source', id: source })}>Show it</Button>
          ) : null}
          {isAlone && line.change !== null ? (
            <Button onClick={() => void takeBackLine(workspace, report, line)}>Undo</Button>
          ) : null}
          {line.item !== null ? (
            <Button look="quiet" onClick={() => void addAsOwn(workspace, report, line)}>
              Add as a source of its own
            </Button>
          ) : null}
        </div>
      </div>
      {isAlone ? (
        <Button
          look="quiet"
          icon={CloseIcon}
          label="Dismiss"
          onClick={() => board.dropLine(report.id, line.id, true)}
        />
      ) : null}
    </>
  )
}

function ManyReport({ report }: { readonly report: Report }) {
  const workspace = useWorkspace()
  const { board } = takingOf(workspace)
  const copy = async () => {
    const result = await workspace.host.copyText({ text: textOfReport(report) })
    workspace.say(result.ok ? 'done' : 'problem', result.ok ? 'The report was copied.' : result.sentence)
  }
  const hasFailed = linesOf(report, 'failed').length > 0
  const Picture = hasFailed ? NoticeIcon : CheckIcon
  return (
    <section className="st-taken" aria-label="What came in">
      <Picture />
      <div className="st-taken-words">
        <p>{wordsOfReport(report)}</p>
        {report.notes.map((note) => (
          <p key={note}>{note}</p>
        ))}
        <Lines report={report} kind="failed" title="Could not be read" />
        <Lines report={report} kind="again" title="Read again" />
        <Lines report={report} kind="there" title="There already" />
        {report.placed.length > 0 ? (
          <label className="st-taken-choice">
            <input
              type="checkbox"
              checked={report.isInFolders}
              onChange={({ target }) => void changeFolders(workspace, report, target.checked)}
            />
            In folders named like those of the files
          </label>
        ) : null}
        <div className="st-button-row">
          {report.changes.length > 0 ? (
            <Button onClick={() => void takeBack(workspace, report)}>Undo</Button>
          ) : null}
          {report.lines.length > 0 ? (
            <Button icon={CopyIcon} onClick={() => void copy()}>
              Copy the report
            </Button>
          ) : null}
        </div>
      </div>
      <Button look="quiet" icon={CloseIcon} label="Dismiss" onClick={() => board.dropReport(report.id)} />
    </section>
  )
}

interface LinesProps {
  readonly report: Report
  readonly kind: 'failed' | 'again' | 'there'
  readonly title: string
}

function Lines({ report, kind, title }: LinesProps) {
  const lines = linesOf(report, kind)
  if (lines.length === 0) return null
  return (
    <details className="st-taken-more" open={kind === 'failed'}>
      <summary>
        {title} ({lines.length.toLocaleString('en')})
      </summary>
      <ul className="st-taken-list st-scroll" tabIndex={0} aria-label={title}>
        {lines.map((line) => (
          <li key={line.id}>
            {kind === 'failed' ? line.sentence : <LineWords report={report} line={line} isAlone={false} />}
          </li>
        ))}
      </ul>
    </details>
  )
}
