/** What the system hands to the program while no dialog is open: files, and pages by the link scheme. */
import { useEffect } from 'react'
import type { Arrival } from '../../../../shared/host.ts'
import { useWorkspace } from '../../../store/useWorkspace.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { unknownOf, type IntakeItem } from '../intakeQueue.ts'
import { titleOfAddress } from '../matter.ts'
import { takeItems, takingOf, toChosenItem, toLinkItem, withoutCompanions } from '../taking.ts'
import { dropFolderOf } from './dropFolder.ts'
import { KnownSources } from './known.ts'

type HandedOver = Extract<Arrival, { readonly kind: 'handed over' }>

const taking = new WeakMap<Workspace, Promise<void>>()

/** Takes in all that waits, into the open project. One call after the other, so that nothing is asked for twice. */
function takeArrivals(workspace: Workspace): Promise<void> {
  const next = (taking.get(workspace) ?? Promise.resolve()).then(() => takeAll(workspace))
  taking.set(workspace, next)
  return next
}

async function takeAll(workspace: Workspace): Promise<void> {
  for (;;) {
    // Without a project they wait in the host.
    if (!workspace.state.view) return
    const result = await workspace.host.takeArrivals()
    if (!result.ok) return workspace.say('problem', result.sentence)
    if (result.value.length === 0) return
    for (const one of result.value) if (one.kind === 'refused') takingOf(workspace).queue.tell(one.sentence)
    takeFiles(workspace, result.value)
    for (const one of result.value) if (one.kind === 'handed over') takePage(workspace, one)
  }
}

function takeFiles(workspace: Workspace, arrivals: readonly Arrival[]): void {
  const files = arrivals.flatMap((one) => (one.kind === 'file' ? [one.file] : []))
  const items = withoutCompanions(files).map((file) => ({
    ...toChosenItem(workspace, file, 'file'),
    directories: file.name.split('/').slice(0, -1),
  }))
  if (items.length > 0) void takeItems(workspace, items, { isInFolders: true })
}

function takePage(workspace: Workspace, { address, title, selection }: HandedOver): void {
  if (selection.trim() === '')
    return void takeItems(workspace, [toLinkItem(address, title || null, 'handed over')])
  const item = toSelectionItem({ address, title, selection })
  const { labSources, view } = workspace.state
  const known = labSources && new KnownSources(labSources, view?.project).findByAddress(address)
  if (!known) return void takeItems(workspace, [item])
  const { board } = takingOf(workspace)
  const sentence = `“${known.title || titleOfAddress(address)}” is here already. The words that were selected on the page were not added to it.`
  board.addReport({
    id: board.nextId(),
    name: null,
    known: null,
    isFew: true,
    things: 1,
    added: 0,
    lines: [
      { id: 0, name: title, kind: 'there', sentence, source: known.id, capture: null, change: null, item },
    ],
    changes: [],
    placed: [],
    isInFolders: false,
    notes: [],
    wasTakenBack: false,
  })
}

/** The selected words as the text of a page. */
function toSelectionItem({ address, title, selection }: Omit<HandedOver, 'kind'>): IntakeItem {
  const name = title || titleOfAddress(address)
  const task = { kind: 'text', name, text: selection } as const
  return {
    ...unknownOf,
    name,
    task,
    wayIn: 'handed over',
    title: name,
    address,
    kind: 'page',
    rescue: selection,
  }
}

const listening = new WeakSet<Workspace>()

/** Takes in what arrives and what lies in the drop folder, for as long as a project is open. */
export function useOutside(): void {
  const workspace = useWorkspace()
  useEffect(() => {
    if (!listening.has(workspace)) {
      listening.add(workspace)
      workspace.host.onArrived(() => void takeArrivals(workspace))
    }
    void takeArrivals(workspace)
    dropFolderOf(workspace).look()
  }, [workspace])
}
