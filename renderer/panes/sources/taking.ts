/** How what came from outside becomes sources of the project: links at once, all else through the queue. */
import { maxHtmlBytes, maxTextBytes } from '../../../shared/intake/limits.ts'
import { tooLarge } from '../../../shared/intake/taken.ts'
import type { ProjectId } from '../../../shared/lab/ids.ts'
import type { WayIn } from '../../../shared/lab/model.ts'
import type { OpenLab } from '../../db/lab.ts'
import { keepSource, undo } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'
import { takeInByWorker, type IntakeTask } from '../../workers/intake.ts'
import { IntakeQueue, type IntakeItem, type TakenIn } from './intakeQueue.ts'
import { titleOfAddress, type Matter } from './matter.ts'

interface Place {
  readonly lab: OpenLab
  readonly project: ProjectId
}

/** Larger files are not read at all, in bytes. What a kind of text allows below that is checked once it was read. */
const LARGEST_FILE = Math.max(maxTextBytes, maxHtmlBytes)

const queues = new WeakMap<Workspace, IntakeQueue<Place>>()

/** The window's queue. */
export function intakeOf(workspace: Workspace): IntakeQueue<Place> {
  const known = queues.get(workspace)
  if (known) return known
  const queue = new IntakeQueue<Place>({
    takeIn: takeInByWorker,
    keep: (item, taken) => keepTaken(workspace, item, taken),
    onThrough: (kept) => sayKept(workspace, kept),
  })
  queues.set(workspace, queue)
  return queue
}

async function keepTaken(workspace: Workspace, item: IntakeItem<Place>, taken: TakenIn) {
  const { name } = item.task
  const { lab, project } = item.place
  const notKept = (why: string) => ({ ok: false, sentence: `“${name}” was not added. ${why}` }) as const
  if (workspace.state.lab !== lab)
    return notKept('Another lab was opened meanwhile. Open the first one and add it again.')
  const { text, bytes, sha256, mediaType } = taken
  const source = await keepSource(
    workspace,
    {
      title: item.title ?? taken.title,
      address: item.address ?? taken.address,
      kind: taken.kind,
      wayIn: item.wayIn,
      capture: { text, bytes, sha256, mediaType },
    },
    project,
  )
  if (!source) return notKept('The reason stands at the foot of the screen. What it came from is unchanged.')
  for (const note of taken.notes) workspace.say('notice', `“${source.title}”: ${note}`)
  return { ok: true } as const
}

function sayKept(workspace: Workspace, kept: number): void {
  if (kept === 0) return
  const words = kept === 1 ? 'Source added.' : `${kept} sources added.`
  workspace.say('done', words, kept === 1 ? undoOfLast(workspace) : undefined)
}

function undoOfLast(workspace: Workspace) {
  const change = workspace.state.undoable
  return change?.act === 'add a source'
    ? { word: 'Undo', onAct: () => void undo(workspace, change.id) }
    : undefined
}

/** Adds an address as a source without text. @returns whether it was added */
export async function takeLink(
  workspace: Workspace,
  address: string,
  title: string | null,
  wayIn: WayIn,
): Promise<boolean> {
  const source = await keepSource(workspace, {
    title: title ?? titleOfAddress(address),
    address,
    kind: 'link',
    wayIn,
    capture: null,
  })
  if (source) sayKept(workspace, 1)
  return source !== null
}

/** Takes one text in for the open project. */
export function takeText(
  workspace: Workspace,
  task: IntakeTask,
  about: Pick<IntakeItem<Place>, 'wayIn' | 'title' | 'address' | 'rescue'>,
) {
  const place = { lab: workspace.requireLab(), project: workspace.requireView().project }
  return intakeOf(workspace).add({ place, task, ...about })
}

/** Takes in all that a drop or a paste brought, one thing after the other. */
export async function takeMatter(
  workspace: Workspace,
  matter: readonly Matter[],
  wayIn: WayIn,
): Promise<void> {
  const word = wayIn === 'pasted' ? 'Pasted' : 'Dropped'
  for (const one of matter) {
    if (one.kind === 'link') await takeLink(workspace, one.address, one.title, wayIn)
    else if (one.kind === 'file') takeFile(workspace, one.file)
    else if (one.kind === 'html')
      void takeText(
        workspace,
        { kind: 'html', name: `${word} page`, html: one.html, address: null },
        { wayIn, title: null, address: null, rescue: one.plain || null },
      )
    else
      void takeText(
        workspace,
        { kind: 'text', name: `${word} text`, text: one.text },
        { wayIn, title: one.title, address: null, rescue: one.text },
      )
  }
}

function takeFile(workspace: Workspace, file: File): void {
  if (file.size > LARGEST_FILE)
    return intakeOf(workspace).tell(tooLarge(file.name, file.size, LARGEST_FILE).sentence)
  void takeText(
    workspace,
    { kind: 'file', name: file.name, file },
    { wayIn: 'file', title: null, address: null, rescue: null },
  )
}

/** Lets the person choose files and takes them in. */
export async function chooseFiles(workspace: Workspace): Promise<void> {
  const queue = intakeOf(workspace)
  const result = await workspace.host.openFiles({
    // Any file may hold text; what does not is refused with a sentence.
    accept: [],
    multiple: true,
    limitBytes: LARGEST_FILE,
  })
  if (!result.ok) return queue.tell(result.sentence)
  if (result.value.kind === 'cancelled') return
  for (const file of result.value.files) {
    if (file.kind === 'refused') queue.tell(tooLarge(file.name, file.size, file.limit).sentence)
    else
      void takeText(
        workspace,
        { kind: 'bytes', name: file.name, bytes: new Uint8Array(file.bytes) },
        { wayIn: 'file', title: null, address: null, rescue: null },
      )
  }
}
