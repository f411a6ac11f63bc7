/** Logs of terminals: followed as they are written, or brought in when they are finished; what they offer is taken or folded away. */
import { useEffect, type ReactNode } from 'react'
import { useStore } from 'zustand'
import { isTimingFile } from '../../shared/journal/terminal/formats/timing.ts'
import type { KnownLog } from '../../shared/host.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, EmptyState } from '../ui/index.ts'
import { KindActionIcon, LabFileInIcon, NoticeIcon } from '../ui/icons.tsx'
import { LARGEST_LOG, logsOf, type Logs } from './logs.ts'
import { SessionView } from './SessionView.tsx'
import './logs.css'

export function LogsPanel(): ReactNode {
  const workspace = useWorkspace()
  const logs = logsOf(workspace)
  const { sessions, known } = useStore(logs.store)
  useEffect(() => void logs.renewKnown(), [logs])
  const waiting = known.filter(({ name }) => !sessions.some((one) => one.name === name))
  return (
    <Panel
      title="Terminal logs"
      band="sources"
      className="st-logs-panel"
      onClose={() => workspace.set({ panel: null })}
    >
      <div className="st-panel-body st-scroll" tabIndex={0} role="group" aria-label="Logs">
        {sessions.length + known.length === 0 ? (
          <EmptyState
            icon={KindActionIcon}
            purpose="What your terminal did, without typing it again: name the file that it is logged to, and its commands and outputs are offered as entries."
          />
        ) : null}
        <span className="st-button-row st-logs-ways">
          <Button icon={KindActionIcon} onClick={() => void logs.followNew()} data-first>
            Follow a log…
          </Button>
          <Button icon={LabFileInIcon} onClick={() => void bringIn(workspace, logs)}>
            Bring in a finished log…
          </Button>
          <Button
            look="quiet"
            icon={NoticeIcon}
            onClick={() => workspace.set({ panel: { kind: 'help', page: 'terminal logs' } })}
          >
            How to log a terminal
          </Button>
        </span>
        {sessions.map((session) => (
          <SessionView key={session.id} session={session} onClose={() => logs.close(session)} />
        ))}
        {waiting.length === 0 ? null : (
          <>
            <h3 className="st-trace-heading">Named before</h3>
            <ul className="st-logs-known">
              {waiting.map((log) => (
                <Known key={log.log} log={log} logs={logs} />
              ))}
            </ul>
          </>
        )}
      </div>
    </Panel>
  )
}

function Known({ log, logs }: { readonly log: KnownLog; readonly logs: Logs }) {
  return (
    <li className="st-logs-known-one">
      <span className="st-logs-path">
        {log.path}
        {log.timing === null ? '' : `, with ${log.timing}`}
      </span>
      <span className="st-button-row">
        <Button onClick={() => void logs.follow(log)}>Follow</Button>
        {log.timing === null ? (
          <Button look="quiet" onClick={() => void logs.addTiming(log)}>
            Add its timing file…
          </Button>
        ) : null}
        <Button look="quiet" label={`Forget ${log.name}`} onClick={() => void logs.forget(log)}>
          Forget
        </Button>
      </span>
    </li>
  )
}

/** The person chooses a log, and with it its timing file where there is one. */
async function bringIn(workspace: Workspace, logs: Logs): Promise<void> {
  const opened = await workspace.host.openFiles({ accept: [], multiple: true, limitBytes: LARGEST_LOG })
  if (!opened.ok) return workspace.say('problem', opened.sentence)
  if (opened.value.kind === 'cancelled') return
  const files = opened.value.files.flatMap((file) => {
    if ('bytes' in file) return [file]
    workspace.say('problem', `“${file.name}” is larger than can be brought in at once. Nothing was changed.`)
    return []
  })
  const timings = files.filter(({ bytes }) => isTimingFile(bytes))
  const finished = files.filter((file) => !timings.includes(file))
  if (timings.length > 0 && finished.length === 0)
    return workspace.say(
      'problem',
      'This is a timing file alone. Choose the log and its timing file together.',
    )
  for (const file of finished) {
    const timing = finished.length === 1 ? timings[0] : timings.find((one) => isOf(one.name, file.name))
    logs.open({ name: file.name, bytes: file.bytes, timing: timing?.bytes ?? null })
  }
}

/** `gate.timing` belongs to `gate.log`. */
function isOf(timing: string, log: string): boolean {
  const stem = (name: string): string => name.replace(/\.[^.]*$/, '')
  return stem(timing) === stem(log)
}
