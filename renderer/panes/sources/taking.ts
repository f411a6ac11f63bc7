/** How what came from outside becomes sources of a project: all of it through the window's queue, links at once. */
import type { ChosenFile } from '../../../shared/host.ts'
import { isCompanionFolder } from '../../../shared/intake/folder-rules.ts'
import { maxFileBytes } from '../../../shared/intake/limits.ts'
import { tooLarge } from '../../../shared/intake/taken.ts'
import type { ChangeId, ProjectId } from '../../../shared/lab/ids.ts'
import type { WayIn } from '../../../shared/lab/model.ts'
import type { OpenLab } from '../../db/lab.ts'
import { undo } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'
import { takeInByOneWorker } from '../../workers/intake.ts'
import {
  IntakeQueue,
  unknownOf,
  type EndedRun,
  type IntakeItem,
  type IntakeRun,
  type ItemEnd,
  type Loaded,
} from './intakeQueue.ts'
import type { Matter } from './matter.ts'
import { askAboutBookmarks } from './taking/askingBookmarks.ts'
import { BatchKeeper } from './taking/keeping.ts'
import { OutcomeBoard } from './taking/outcomes.ts'
import { changesOf, fewThings, toReport } from './taking/report.ts'
import type { FoundFile } from './taking/walking.ts'

/** Where something is to come in. */
export interface Place {
  readonly lab: OpenLab
  readonly project: ProjectId
}

/** The window's queue, and what it has to say. */
export interface Taking {
  readonly queue: IntakeQueue<Place>
  readonly board: OutcomeBoard<Place>
}

const sleep = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
/** Waits until keys and frames had their turn. */
export const pause = (): Promise<void> => sleep(0)

const takings = new WeakMap<Workspace, Taking>()

export function takingOf(workspace: Workspace): Taking {
  const known = takings.get(workspace)
  if (known) return known
  const board = new OutcomeBoard<Place>()
  const queue = new IntakeQueue<Place>({
    takeIn: takeInByOneWorker(),
    beginKeeping: (run, onEnd) => beginKeeping(workspace, run, onEnd),
    onBookmarks: (run, { name }, bookmarks) =>
      void askAboutBookmarks(workspace, board, run.place, name, bookmarks),
    onThrough: (ended) => tellThrough(workspace, { queue, board }, ended),
    pause,
  })
  const taking = { queue, board }
  takings.set(workspace, taking)
  return taking
}

function beginKeeping(
  workspace: Workspace,
  { place: { lab, project }, items, isInFolders, wasTaken }: IntakeRun<Place>,
  onEnd: (item: IntakeItem, end: ItemEnd, sha256: string | null) => void,
): BatchKeeper {
  const parts = {
    around: lab.surroundings,
    project,
    isInFolders,
    isFew: items.length <= fewThings,
    wasTaken,
    labSources: () => (workspace.state.lab === lab ? workspace.state.labSources : null),
    commit: async (change: Parameters<OpenLab['committer']['commit']>[0]) => {
      const result = await lab.committer.commit(change)
      await workspace.catchUp()
      return result.ok ? ({ ok: true } as const) : result
    },
    now: () => performance.now(),
    sleep,
  }
  return new BatchKeeper(parts, onEnd)
}

/** A run of few things is told like that many single ones, a large one by a report. */
function tellThrough(workspace: Workspace, { queue, board }: Taking, ended: EndedRun<Place>): void {
  const { run, ends } = ended
  const report = toReport(board.nextId(), ended, notesOf.get(run))
  const { isFew } = report
  if (isFew)
    ends.forEach((end, at) => {
      if (end.kind === 'failed') queue.tell(end.sentence, run.items[at]!.rescue)
    })
  if (isFew) {
    tellAdded(workspace, ended)
    const lines = report.lines.filter(({ kind }) => kind === 'again' || kind === 'there')
    if (lines.length === 0 || run.isQuiet) return
    board.addReport({ ...report, lines })
    showKnown(workspace, ended)
  } else if (!run.isQuiet || report.added + report.lines.length > 0) board.addReport(report)
}

/** What was left out before a run's files were read. */
const notesOf = new WeakMap<IntakeRun<Place>, readonly string[]>()

function tellAdded(workspace: Workspace, { run, ends }: EndedRun<Place>): void {
  const added = ends.flatMap((end) => (end.kind === 'added' ? [end] : []))
  for (const { source, notes } of added)
    for (const note of notes) workspace.say('notice', `“${source.title}”: ${note}`)
  if (added.length === 0) return
  const from = run.isQuiet ? ' from the drop folder' : ''
  const words = added.length === 1 ? `Source added${from}.` : `${added.length} sources added${from}.`
  const changes = changesOf(added)
  const onAct = (): void => void takeBackChanges(workspace, changes)
  workspace.say('done', words, { word: 'Undo', onAct }, changes.length === 1 ? changes[0] : undefined)
}

/** Takes Changes back, newest first, as one act of the person. What was changed or used since stays, as with every undo. */
export async function takeBackChanges(workspace: Workspace, changes: readonly ChangeId[]): Promise<void> {
  if (changes.length === 1) return undo(workspace, changes[0])
  await workspace.flushTexts()
  const { committer } = workspace.requireLab()
  for (const change of [...changes].reverse()) {
    const result = await committer.undo(change)
    if (!result.ok && result.code !== 'nothing-left') workspace.say('problem', result.sentence)
    await pause()
  }
  await workspace.catchUp()
  workspace.say('done', 'Undone.')
}

/** The one thing that was brought is shown where the lab has it already. */
function showKnown(workspace: Workspace, { run, ends: [end] }: EndedRun<Place>): void {
  const isHere = workspace.state.lab === run.place.lab && workspace.state.view?.project === run.place.project
  if (run.items.length === 1 && isHere && end?.kind === 'there' && end.source)
    workspace.goTo({ kind: 'source', id: end.source.id })
}

export interface RunOptions {
  readonly isInFolders?: boolean
  readonly isQuiet?: boolean
  readonly wasTaken?: IntakeRun<Place>['wasTaken']
  readonly onEnd?: IntakeRun<Place>['onEnd']
  readonly notes?: readonly string[]
}

/** Where things come in right now: the open project. */
export function placeNow(workspace: Workspace): Place {
  return { lab: workspace.requireLab(), project: workspace.requireView().project }
}

/** Takes some things in as one run. */
export function takeItems(
  workspace: Workspace,
  items: readonly IntakeItem[],
  options: RunOptions = {},
  place: Place = placeNow(workspace),
): Promise<EndedRun<Place>> {
  const run: IntakeRun<Place> = {
    place,
    items,
    isInFolders: options.isInFolders ?? false,
    isQuiet: options.isQuiet ?? false,
    wasTaken: options.wasTaken ?? (() => false),
    onEnd: options.onEnd ?? (() => undefined),
  }
  if (options.notes) notesOf.set(run, options.notes)
  const taking = takingOf(workspace)
  return items.every(isLinkItem) ? takeLinks(workspace, taking, run) : taking.queue.add(run)
}

const isLinkItem = ({ task }: IntakeItem): boolean => typeof task === 'object' && task.kind === 'link'

/** Addresses alone need no reading, so they wait for nothing. */
async function takeLinks(
  workspace: Workspace,
  taking: Taking,
  run: IntakeRun<Place>,
): Promise<EndedRun<Place>> {
  const ends = new Map<IntakeItem, ItemEnd>()
  const keeper = beginKeeping(workspace, run, (item, end) => {
    ends.set(item, end)
    run.onEnd(item, end, null)
  })
  for (const item of run.items) await keeper.keepLink(item, item.address ?? '')
  await keeper.finish()
  const ended = { run, ends: run.items.map((item) => ends.get(item)!) }
  tellThrough(workspace, taking, ended)
  return ended
}

/** Takes in all that a drop or a paste brought, as one run. */
export async function takeMatter(
  workspace: Workspace,
  matter: readonly Matter[],
  wayIn: WayIn,
): Promise<void> {
  if (matter.length === 0) return
  await takeItems(
    workspace,
    matter.map((one) => itemOf(one, wayIn)),
  )
}

function itemOf(one: Matter, wayIn: WayIn): IntakeItem {
  const word = wayIn === 'pasted' ? 'Pasted' : 'Dropped'
  switch (one.kind) {
    case 'link':
      return toLinkItem(one.address, one.title, wayIn)
    case 'file':
      return { ...toFileItem(one.file, one.name, wayIn), address: one.address }
    case 'html': {
      const name = `${word} page`
      const task = { kind: 'html', name, html: one.html, address: one.address } as const
      return { ...unknownOf, name, task, wayIn, rescue: one.plain || null }
    }
    case 'text': {
      const name = `${word} text`
      const task = { kind: 'text', name, text: one.text } as const
      return { ...unknownOf, name, task, wayIn, title: one.title, rescue: one.text }
    }
  }
}

/** Adds an address as a source without text. @returns whether the lab has it now */
export async function takeLink(
  workspace: Workspace,
  address: string,
  title: string | null,
  wayIn: WayIn,
): Promise<boolean> {
  const { ends } = await takeItems(workspace, [toLinkItem(address, title, wayIn)])
  return ends.every(({ kind }) => kind === 'added' || kind === 'there')
}

/** An address without text. */
export function toLinkItem(address: string, title: string | null, wayIn: WayIn): IntakeItem {
  return { ...unknownOf, name: address, task: { kind: 'link', address }, wayIn, title, address }
}

function toFileItem(file: File, name: string, wayIn: WayIn): IntakeItem {
  const way = wayIn === 'dropped' ? 'file' : wayIn
  const load = (): Promise<Loaded> =>
    Promise.resolve(
      file.size > maxFileBytes
        ? { ok: false, sentence: tooLarge(name, file.size, maxFileBytes).sentence }
        : { ok: true, task: { kind: 'file', name, file } },
    )
  return { ...unknownOf, name, task: load, wayIn: way }
}

/** Takes in the files of folders that were dropped, into folders of the same names. */
export async function takeFound(
  workspace: Workspace,
  files: readonly FoundFile[],
  notes: readonly string[],
): Promise<void> {
  if (files.length === 0) return tellNothing(workspace, notes)
  const items = files.map(({ file, directories }) => ({
    ...toFileItem(file, [...directories, file.name].join('/'), 'file'),
    directories,
  }))
  await takeItems(workspace, items, { isInFolders: true, notes })
}

function tellNothing(workspace: Workspace, notes: readonly string[]): void {
  workspace.say('notice', ['The folder holds no file that could be taken in.', ...notes].join(' '))
}

/** Lets the person choose files and takes them in. */
export async function chooseFiles(workspace: Workspace): Promise<void> {
  // Any file may hold text; what does not is refused with a sentence.
  const result = await workspace.host.chooseFiles({ accept: [], multiple: true })
  if (!result.ok) return takingOf(workspace).queue.tell(result.sentence)
  if (result.value.kind === 'cancelled') return
  await takeItems(
    workspace,
    result.value.files.map((file) => toChosenItem(workspace, file, 'file')),
  )
}

/** Lets the person choose a folder and takes its files in, into folders of the same names. */
export async function chooseFolder(workspace: Workspace): Promise<void> {
  const result = await workspace.host.chooseFolder()
  if (!result.ok) return takingOf(workspace).queue.tell(result.sentence)
  if (result.value.kind === 'cancelled') return
  const { name, files, notes } = result.value
  const wanted = withoutCompanions(files)
  if (wanted.length === 0) return tellNothing(workspace, notes)
  const items = wanted.map((file) => ({
    ...toChosenItem(workspace, file, 'file'),
    directories: [name, ...file.name.split('/').slice(0, -1)],
  }))
  await takeItems(workspace, items, { isInFolders: true, notes })
}

/** The files but for those that a browser saved beside a page. Names have `/` between their segments. */
export function withoutCompanions<F extends { readonly name: string }>(files: readonly F[]): readonly F[] {
  const folderOf = (name: string): string => name.slice(0, name.lastIndexOf('/') + 1)
  const beside = new Map<string, string[]>()
  for (const { name } of files) {
    const folder = folderOf(name)
    beside.set(folder, [...(beside.get(folder) ?? []), name.slice(folder.length)])
  }
  const isOut = new Map<string, boolean>([['', false]])
  const isCompanion = (folder: string): boolean => {
    const known = isOut.get(folder)
    if (known !== undefined) return known
    const above = folderOf(folder.slice(0, -1))
    const out =
      isCompanion(above) || isCompanionFolder(folder.slice(above.length, -1), beside.get(above) ?? [])
    isOut.set(folder, out)
    return out
  }
  return files.filter(({ name }) => !isCompanion(folderOf(name)))
}

/** A file that is read through the host when its turn comes. */
export function toChosenItem(workspace: Workspace, { token, name }: ChosenFile, wayIn: WayIn): IntakeItem {
  const load = async (): Promise<Loaded> =>
    toLoaded(await workspace.host.readChosenFile({ token, limitBytes: maxFileBytes }), name)
  return { ...unknownOf, name, task: load, wayIn }
}

/** What the host gave of a file. */
export function toLoaded(
  result: Awaited<ReturnType<Workspace['host']['readChosenFile']>>,
  name: string,
): Loaded {
  if (!result.ok) return { ok: false, sentence: result.sentence }
  const file = result.value
  if (file.kind === 'refused') return { ok: false, sentence: tooLarge(name, file.size, file.limit).sentence }
  return { ok: true, task: { kind: 'bytes', name, bytes: new Uint8Array(file.bytes) } }
}
