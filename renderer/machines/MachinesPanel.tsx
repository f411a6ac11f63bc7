/** The machines of the lab, and one of them with all that happened on it. */
import { useMemo, type ReactNode } from 'react'
import { countsByWhere, unknownHosts, type PlacedEntries } from '../../shared/journal/machine-events.ts'
import { addMachine } from '../../shared/lab/acts.ts'
import type { Machine } from '../../shared/lab/model.ts'
import type { OpenLab } from '../db/lab.ts'
import { useLabRead } from '../store/useLabRead.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { Panel } from '../trace/Panel.tsx'
import { Button, EmptyState, ErrorSentence, ProgressLine } from '../ui/index.ts'
import { AddIcon, BackIcon, PlaceIcon } from '../ui/icons.tsx'
import { MachinePage } from './MachinePage.tsx'
import './machines.css'

const read = (lab: OpenLab) => lab.queries.placedEntries()

export function MachinesPanel({ machine: id }: { readonly machine: Machine['id'] | null }): ReactNode {
  const workspace = useWorkspace()
  const machines = useWorkspaceState((state) => state.machines)
  const placed = useLabRead(read)
  const machine = machines.find((one) => one.id === id)
  const show = (next: Machine['id'] | null): void =>
    workspace.set({ panel: { kind: 'machines', machine: next } })
  return (
    <Panel
      title={machine ? machine.name || 'A machine' : 'Machines'}
      band="sources"
      className="st-machines-panel"
      onClose={() => workspace.set({ panel: null })}
    >
      <div className="st-panel-body st-scroll" tabIndex={0} role="group" aria-label="Machines of the lab">
        {placed === undefined ? <ProgressLine words="Reading the journals" share={null} /> : null}
        {placed === 'failed' ? (
          <ErrorSentence
            happened="The journals could not be read."
            safe="Nothing was changed."
            next="Close the list and open it again."
          />
        ) : null}
        {placed === undefined || placed === 'failed' ? null : machine ? (
          <>
            <Button look="quiet" icon={BackIcon} onClick={() => show(null)} data-first>
              All machines
            </Button>
            <MachinePage key={machine.id} machine={machine} placed={placed} />
          </>
        ) : (
          <MachineList machines={machines} placed={placed} onShow={show} />
        )}
      </div>
    </Panel>
  )
}

interface MachineListProps {
  readonly machines: readonly Machine[]
  readonly placed: PlacedEntries
  readonly onShow: (id: Machine['id']) => void
}

function MachineList({ machines, placed, onShow }: MachineListProps) {
  const workspace = useWorkspace()
  const counts = useMemo(() => countsByWhere(placed, machines), [placed, machines])
  const unknown = useMemo(() => unknownHosts(placed, machines), [placed, machines])
  const inUse = machines.filter(({ setAside }) => !setAside)
  const aside = machines.filter(({ setAside }) => setAside)
  const begin = async (name: string): Promise<void> => {
    const made = await beginMachine(workspace, name)
    if (made) onShow(made.id)
  }
  return (
    <>
      {machines.length === 0 ? (
        <EmptyState
          icon={PlaceIcon}
          purpose="The machines you work on: their names, addresses, serial numbers and disks, and all that happened on each of them."
        />
      ) : null}
      <Rows machines={inUse} counts={counts} onShow={onShow} />
      <Button icon={AddIcon} onClick={() => void begin('')} data-first>
        Add a machine
      </Button>
      {unknown.length === 0 ? null : (
        <>
          <h3 className="st-trace-heading">Named in journals, without a record</h3>
          <ul className="st-machines">
            {unknown.map(({ host, count }) => (
              <li key={host}>
                <Button look="quiet" icon={AddIcon} onClick={() => void begin(host)}>
                  {`${host}, ${wordsOfCount(count)}`}
                </Button>
              </li>
            ))}
          </ul>
        </>
      )}
      {aside.length === 0 ? null : (
        <>
          <h3 className="st-trace-heading">Set aside</h3>
          <Rows machines={aside} counts={counts} onShow={onShow} />
        </>
      )}
    </>
  )
}

function Rows({
  machines,
  counts,
  onShow,
}: {
  readonly machines: readonly Machine[]
  readonly counts: ReadonlyMap<string, number>
  readonly onShow: (id: Machine['id']) => void
}) {
  return (
    <ul className="st-machines">
      {machines.map(({ id, name, addresses }) => (
        <li key={id} className="st-machine-row">
          <Button look="quiet" icon={PlaceIcon} className="st-machine-name" onClick={() => onShow(id)}>
            {name || 'without a name'}
          </Button>
          <span className="st-machine-facts">
            {[addresses[0], wordsOfCount(counts.get(id) ?? 0)].filter(Boolean).join(', ')}
          </span>
        </li>
      ))}
    </ul>
  )
}

const wordsOfCount = (count: number): string => `${count} ${count === 1 ? 'entry' : 'entries'}`

async function beginMachine(workspace: Workspace, name: string): Promise<Machine | null> {
  const { machine, change } = addMachine(workspace.requireLab().surroundings, { name })
  return (await workspace.commit(change)) ? machine : null
}
