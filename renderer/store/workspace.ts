/**
 * The state of one window: the open lab, the project in its panes, and what the person is at. Created without React;
 * bound to it in useWorkspace.ts. Every asynchronous load carries a number, and stale answers are dropped.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { Host } from '../../shared/host.ts'
import type { Fragment } from '../../shared/distil/fragment.ts'
import type { Change, Operation, StoredChange } from '../../shared/lab/change.ts'
import type { ChangeId, LabId, ProcedureId, ProjectId, SourceId, WindowId } from '../../shared/lab/ids.ts'
import { forgetRemembered } from '../../shared/lab/remembered.ts'
import type { EntryKind, Folder, Lab, LinkNode, Machine, Project, Range } from '../../shared/lab/model.ts'
import type { LabRegistry } from '../db/labs.ts'
import type { OpenLab } from '../db/lab.ts'
import type { TextSession } from '../editor/textSession.ts'
import type { Notice } from '../ui/Notices.tsx'
import { advanceLabSources, toLabSources, type LabSources } from './labSources.ts'
import type { OpenPanel } from './panels.ts'
import { Places } from './places.ts'
import { createSignal } from './signal.ts'
import type { Traced } from './traced.ts'
import { advanceView, needsReload, touchedBy, toView, type ProjectView } from './view.ts'

export type Phase =
  | { readonly kind: 'opening' }
  | { readonly kind: 'failed'; readonly sentence: string }
  | { readonly kind: 'ready' }

/** Somewhere to go, with words to mark there. A new `serial` asks again for the same place. */
export interface Focus {
  readonly node: LinkNode
  readonly ranges: readonly Range[]
  readonly serial: number
}

export interface WorkspaceState {
  readonly phase: Phase
  readonly labs: readonly Lab[]
  readonly lab: OpenLab | null
  readonly projects: readonly Project[]
  readonly view: ProjectView | null
  /** The projects that are open in this window, in the order in which they were opened. */
  readonly openProjects: readonly ProjectId[]
  /** All sources of the lab, of every project. */
  readonly labSources: LabSources | null
  /** The machines of the lab in the order in which they were added, those that were set aside too. */
  readonly machines: readonly Machine[]
  /** The folders for projects. */
  readonly projectFolders: readonly Folder[]
  /** The procedure that the right pane shows. */
  readonly procedure: ProcedureId | null
  /** The source that the left pane shows to be read; null for the list. */
  readonly source: SourceId | null
  /** What is being dragged, so that every place can say what it will become there. */
  readonly dragging: Fragment | null
  /** What the person picked with the keyboard or the pointer to carry by a list of places. */
  readonly carrying: Fragment | null
  readonly focus: Focus | null
  /** What is traced; null when the trace is not shown. */
  readonly traced: Traced | null
  /** The panel beside the panes; null while none is open. */
  readonly panel: OpenPanel | null
  readonly undoable: StoredChange | null
  readonly redoable: StoredChange | null
  readonly notices: readonly Notice[]
  /** Problems of saving that hold right now, by text; shown until they are over. */
  readonly unsaved: ReadonlyMap<string, string>
}

const nothing: WorkspaceState = {
  phase: { kind: 'opening' },
  labs: [],
  lab: null,
  projects: [],
  view: null,
  openProjects: [],
  labSources: null,
  machines: [],
  projectFolders: [],
  procedure: null,
  source: null,
  dragging: null,
  carrying: null,
  focus: null,
  traced: null,
  panel: null,
  undoable: null,
  redoable: null,
  notices: [],
  unsaved: new Map(),
}

/** What a window is made of. */
export interface WorkspaceParts {
  readonly registry: LabRegistry
  readonly openLab: (id: LabId) => Promise<OpenLab>
  readonly host: Host
  readonly window: WindowId
}

export class Workspace {
  readonly store: StoreApi<WorkspaceState> = createStore(() => nothing)
  private readonly sessions = new Set<TextSession>()
  private readonly flushes = new Set<() => Promise<void>>()
  /** Texts that undo gives back to be written anew. */
  readonly composerReturns = createSignal<{ readonly kind: EntryKind; readonly text: string }>()
  /** A text was struck out somewhere in the lab: who holds a draft in memory must read it anew. */
  readonly textsStruck = createSignal<void>()
  /** Where the person was in each project of the open lab. */
  places = new Places({ findSetting: () => Promise.resolve(), keepSetting: () => Promise.resolve() })
  private stopListening: (() => void) | null = null
  /** Number of the latest load; answers to earlier ones are dropped. */
  private load = 0
  private counter = 0
  private catching: Promise<void> = Promise.resolve()

  constructor(readonly parts: WorkspaceParts) {}

  get state(): WorkspaceState {
    return this.store.getState()
  }

  get window(): WindowId {
    return this.parts.window
  }

  get host(): Host {
    return this.parts.host
  }

  /** The open lab. @throws Error before one is open */
  requireLab(): OpenLab {
    const { lab } = this.state
    if (!lab) throw new Error('no lab is open')
    return lab
  }

  /** The project in the panes. @throws Error where none is open */
  requireView(): ProjectView {
    const { view } = this.state
    if (!view) throw new Error('no project is open')
    return view
  }

  set(state: Partial<WorkspaceState>): void {
    this.store.setState(state)
  }

  /** Opens a lab and the project that was open in it last. */
  async openLab(id: LabId): Promise<void> {
    const load = ++this.load
    await this.flushTexts()
    const lab = await this.parts.openLab(id)
    if (load !== this.load) return lab.close()
    this.stopListening?.()
    this.state.lab?.close()
    this.set({ ...nothing, lab, labs: await this.parts.registry.labs(), notices: this.state.notices })
    await this.parts.registry.keepSetting('last lab', id)
    const projects = await lab.queries.projects()
    const lists = await this.readLists(lab)
    this.set({ projects, ...lists, labSources: toLabSources(await lab.queries.labSources()) })
    this.places = new Places(lab)
    this.set({ openProjects: toOpen(await lab.findSetting('open projects'), projects) })
    const last = await lab.findSetting('last project')
    const project = this.state.projects.find((one) => one.id === last) ?? this.state.projects.at(-1)
    if (project) await this.openProject(project.id)
    this.stopListening = lab.onSequence(
      () => void this.catchUp(),
      (error) =>
        this.say('problem', `The lab cannot be watched for changes of other windows: ${String(error)}`),
    )
    await this.renewTargets()
    this.set({ phase: { kind: 'ready' } })
  }

  async openProject(id: ProjectId): Promise<void> {
    const lab = this.requireLab()
    const load = ++this.load
    await this.flushTexts()
    const view = toView(id, await lab.queries.project(id))
    const { procedure = null, source = null } = await this.places.find(id)
    if (load !== this.load) return
    this.keepPlace()
    const first = [...view.procedures.values()].at(0)?.id ?? null
    const openProjects = this.withOpen(id)
    this.set({ view, openProjects, source, focus: null, traced: null, panel: null, carrying: null })
    this.set({ procedure: procedure && view.procedures.has(procedure) ? procedure : first })
    await lab.keepSetting('last project', id)
    await lab.keepSetting('open projects', openProjects)
  }

  /** Puts a project away in this window; the one that was opened before it comes up. The last open one stays. */
  async closeProject(id: ProjectId): Promise<void> {
    const { openProjects, view } = this.state
    const at = openProjects.indexOf(id)
    const others = openProjects.filter((one) => one !== id)
    if (at < 0 || others.length === 0) return
    if (view?.project === id) await this.openProject(others[Math.max(0, at - 1)]!)
    this.set({ openProjects: others })
    await this.requireLab().keepSetting('open projects', others)
  }

  private withOpen(id: ProjectId): readonly ProjectId[] {
    const { openProjects } = this.state
    return openProjects.includes(id) ? openProjects : [...openProjects, id]
  }

  private keepPlace(): void {
    const { view, procedure, source } = this.state
    if (view) this.places.note(view.project, { procedure, source })
  }

  /**
   * Commits a Change and brings the panes up to it. A refusal is said.
   * @returns whether it was committed
   */
  async commit(change: Change, doneDrafts: readonly string[] = []): Promise<boolean> {
    const result = await this.requireLab().committer.commit(change, doneDrafts)
    if (!result.ok) this.say('problem', result.sentence)
    await this.catchUp()
    return result.ok
  }

  /** Brings the panes up to the last Change, whichever window made it. One at a time. */
  catchUp(): Promise<void> {
    this.catching = this.catching.then(() => this.catchUpOnce()).catch((error: unknown) => this.fail(error))
    return this.catching
  }

  private async catchUpOnce(): Promise<void> {
    const { lab, view, labSources } = this.state
    if (!lab || !labSources) return
    const changes = await lab.queries.changesAfter(labSources.sequence)
    const newForView = changes.filter(({ sequence }) => view && sequence > view.sequence)
    const projects = await lab.queries.projects()
    const next = view && newForView.length > 0 ? await this.viewAfter(lab, view, newForView) : view
    const all = changes.length > 0 ? await this.sourcesAfter(lab, labSources, changes) : labSources
    const lists = touchesLists(changes) ? await this.readLists(lab) : {}
    if (lab !== this.state.lab) return
    const isSameProject = this.state.view?.project === next?.project
    this.set({ projects, ...lists, labSources: all, ...(isSameProject ? { view: next } : {}) })
    if (changes.length > 0) await this.pullSessions(changes)
    await this.renewTargets()
  }

  /** Short lists of the lab that are read whole. */
  private async readLists(lab: OpenLab) {
    const folders = await lab.queries.folders()
    return {
      machines: await lab.queries.machines(),
      projectFolders: folders.filter(({ holds }) => holds === 'projects'),
    }
  }

  private async viewAfter(
    lab: OpenLab,
    view: ProjectView,
    changes: readonly StoredChange[],
  ): Promise<ProjectView> {
    if (needsReload(changes)) return toView(view.project, await lab.queries.project(view.project))
    const { nodes, links, sources } = touchedBy(changes)
    const touched = await lab.queries.touched(nodes, links)
    return advanceView(view, changes, touched, await lab.queries.captureHeads(sources))
  }

  private async sourcesAfter(
    lab: OpenLab,
    before: LabSources,
    changes: readonly StoredChange[],
  ): Promise<LabSources> {
    if (needsReload(changes)) return toLabSources(await lab.queries.labSources())
    return advanceLabSources(before, changes, await lab.queries.captureHeads(touchedBy(changes).sources))
  }

  private async pullSessions(changes: readonly StoredChange[]): Promise<void> {
    const nodes = new Set<string>(touchedBy(changes).nodes)
    const all = changes.some(({ act }) => act === 'strike out')
    for (const session of this.sessions) if (all || nodes.has(session.node.id)) await session.pull()
    if (!all) return
    this.places.forgetJournals()
    forgetRemembered()
    this.textsStruck.emit()
  }

  private async renewTargets(): Promise<void> {
    const { undo, redo } = await this.requireLab().committer.findTargets()
    this.set({ undoable: undo, redoable: redo })
  }

  /** Texts that are open for typing, so that all can be cut before an act that needs them. */
  addSession(session: TextSession): () => void {
    this.sessions.add(session)
    return () => this.sessions.delete(session)
  }

  /**
   * Waits until all that an earlier editor of a text took in is written down. Opened beside it, a text would have a draft
   * and soon the revision that was made of it, so the same words twice.
   */
  async settleText(node: string): Promise<void> {
    const sessions = [...this.sessions].filter((session) => session.node.id === node)
    await Promise.all(sessions.map((session) => session.flush()))
  }

  /** Adds something else that must be written down before the window closes, for instance the composer's draft. */
  addFlush(flush: () => Promise<void>): () => void {
    this.flushes.add(flush)
    return () => this.flushes.delete(flush)
  }

  /** Writes down everything that is being typed: a revision of what cuts by itself, a draft of the rest. */
  async flushTexts(): Promise<void> {
    const sessions = [...this.sessions].map((session) => session.flush())
    await Promise.all([...sessions, ...[...this.flushes].map((flush) => flush()), this.places.flush()])
    await this.catchUp()
  }

  /**
   * Tells the person something at the foot of the screen.
   * @param about the Change that an offered undo or redo takes back; the offer goes once that was done elsewhere
   */
  say(tone: Notice['tone'], words: string, action?: Notice['action'], about?: ChangeId): void {
    const notice: Notice = { id: `${++this.counter} ${about ?? ''}`, tone, words, action }
    const others = this.state.notices.filter((one) => one.words !== words).slice(-3)
    this.set({ notices: [...others, notice] })
  }

  /** Takes away what was offered about a Change. */
  dismissAbout(change: ChangeId): void {
    this.set({ notices: this.state.notices.filter(({ id }) => !id.endsWith(change)) })
  }

  dismiss(id: string): void {
    this.set({ notices: this.state.notices.filter((notice) => notice.id !== id) })
  }

  /** Goes to a thing, with words marked in it. */
  goTo(node: LinkNode, ranges: readonly Range[] = []): void {
    this.set({ focus: { node, ranges, serial: ++this.counter } })
  }

  /** Says that a text could not be saved, or that it was. */
  setUnsaved(node: string, sentence: string | null): void {
    const unsaved = new Map(this.state.unsaved)
    if (sentence === null) unsaved.delete(node)
    else unsaved.set(node, sentence)
    this.set({ unsaved })
  }

  private fail(error: unknown): void {
    console.error(error)
    this.say(
      'problem',
      'Something in the program went wrong. What was saved is safe; what you typed stays on the screen.',
    )
  }
}

/** Those of the projects that were open last and are still there. */
function toOpen(kept: unknown, projects: readonly Project[]): readonly ProjectId[] {
  const ids = projects.map(({ id }) => id)
  return Array.isArray(kept) ? ids.filter((id) => kept.includes(id)) : []
}

function touchesLists(changes: readonly StoredChange[]): boolean {
  const isOfList = (one: Operation): boolean =>
    one.op !== 'text' && (one.table === 'machines' || one.table === 'folders')
  return needsReload(changes) || changes.some(({ operations }) => operations.some(isOfList))
}
