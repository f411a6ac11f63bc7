/** The logs that are open in this window, and the ways to open one. They go on while the panel is closed. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import { entriesOf } from '../../shared/journal/terminal/offers.ts'
import type { FoundCommand } from '../../shared/journal/terminal/found.ts'
import { addEntries, type EntryInput } from '../../shared/lab/acts.ts'
import { instantOf, offsetOf } from '../../shared/lab/moment.ts'
import type { KnownLog } from '../../shared/host.ts'
import { writeEntries } from '../store/gestures.ts'
import type { Workspace } from '../store/workspace.ts'
import { LogSession, type FinishedLog, type SessionLog } from './session.ts'

export interface LogsState {
  readonly sessions: readonly LogSession[]
  /** Logs that were named before, of this lab; empty where the shell cannot follow. */
  readonly known: readonly KnownLog[]
}

/** The largest finished log that is taken in at once, in bytes. */
export const LARGEST_LOG = 500 * 1024 * 1024

export class Logs {
  readonly store: StoreApi<LogsState> = createStore(() => ({ sessions: [], known: [] }))

  /** How many offers of a session were taken as they came, and what was said of it last. */
  private readonly came = new WeakMap<LogSession, { readonly count: number; readonly words: string }>()

  constructor(private readonly workspace: Workspace) {
    // Nothing crosses between labs: what was found for one is not offered in another.
    workspace.store.subscribe((now, before) => {
      if (now.lab?.id !== before.lab?.id)
        for (const session of this.store.getState().sessions) this.close(session)
    })
  }

  async renewKnown(): Promise<void> {
    const listed = await this.workspace.host.listLogs({ lab: this.workspace.requireLab().id })
    this.store.setState({ known: listed.ok ? listed.value : [] })
  }

  /** The person names a file that a terminal writes to; it is followed from its beginning. */
  async followNew(): Promise<void> {
    const { host } = this.workspace
    const chosen = await host.chooseLog({ lab: this.workspace.requireLab().id, timingOf: null })
    if (!chosen.ok) return this.workspace.say('problem', chosen.sentence)
    if (chosen.value.kind === 'cancelled') return
    await this.renewKnown()
    await this.follow(chosen.value.log)
  }

  async addTiming({ log }: KnownLog): Promise<void> {
    const { host } = this.workspace
    const chosen = await host.chooseLog({ lab: this.workspace.requireLab().id, timingOf: log })
    if (!chosen.ok) this.workspace.say('problem', chosen.sentence)
    await this.renewKnown()
  }

  async forget({ log }: KnownLog): Promise<void> {
    await this.workspace.host.forgetLog({ lab: this.workspace.requireLab().id, log })
    await this.renewKnown()
  }

  async follow(log: KnownLog): Promise<void> {
    const { host } = this.workspace
    const lab = this.workspace.requireLab().id
    const begun = await host.followLog({ lab, log: log.log, after: null })
    if (!begun.ok) return this.workspace.say('problem', begun.sentence)
    const { following } = begun.value
    const session = this.begin(log.name, { kind: 'live', isTimed: log.timing !== null }, () => {
      void host.stopFollowing({ following })
    })
    void this.readAll(following, session).catch((error: unknown) => {
      console.error(error)
      session.stop({
        kind: 'stopped',
        sentence: 'Following ended. What was taken is safe; follow the log again to go on.',
      })
    })
  }

  /** Brings in a log that is finished. */
  open(log: FinishedLog): void {
    this.begin(log.name, { ...log, kind: 'finished' }, () => undefined)
  }

  /**
   * Offers what a pasted text was split into, in the panel.
   * @param write writes what the person takes @returns whether it stands
   * @param onDone nothing of it is open any more, and something was taken
   */
  offerPasted(
    found: readonly FoundCommand[],
    write: (taken: readonly FoundCommand[]) => Promise<boolean>,
    onDone: () => void,
  ): void {
    const parts = { isKnown: () => false, take: write }
    const session = new LogSession('Pasted text', parts, { kind: 'pasted', found })
    const unsubscribe = session.store.subscribe(({ offers }) => {
      const isOpen = offers.some(({ standing }) => standing === 'offered')
      if (isOpen || !offers.some(({ standing }) => standing === 'taken')) return
      unsubscribe()
      onDone()
      this.close(session)
    })
    this.store.setState(({ sessions }) => ({ sessions: [...sessions, session] }))
    this.workspace.set({ panel: { kind: 'logs' } })
  }

  close(session: LogSession): void {
    session.stop({ kind: 'ended' })
    this.store.setState(({ sessions }) => ({ sessions: sessions.filter((one) => one !== session) }))
  }

  private begin(name: string, log: SessionLog, onStop: () => void): LogSession {
    const session = new LogSession(
      name,
      {
        isKnown: (found, from) => this.isKnown(found, from),
        take: (found, by, how) => this.take(found, by, how),
      },
      log,
      onStop,
    )
    this.store.setState(({ sessions }) => ({ sessions: [...sessions, session] }))
    return session
  }

  /** Asks for what came as soon as the last of it is interpreted, so that nothing piles up. */
  private async readAll(following: string, session: LogSession): Promise<void> {
    for (;;) {
      const read = await this.workspace.host.readFollowed({ following })
      if (session.isOver) return
      if (!read.ok) return session.stop({ kind: 'stopped', sentence: read.sentence })
      if (read.value.kind === 'stopped') return
      for (const piece of read.value.pieces) {
        if (piece.kind === 'bytes')
          await (piece.of === 'log'
            ? session.push(piece.bytes, piece.arrivedMs)
            : session.pushTiming(piece.bytes))
        else if (piece.kind === 'caught up') session.catchUp()
        else session.note(piece.sentence)
      }
    }
  }

  /** The same command of the same log at the same time stands in the open project. */
  private isKnown(found: FoundCommand, log: string): boolean {
    if (found.started === null) return false
    for (const { ran, kind } of this.workspace.requireView().entries.values())
      if (kind === 'action' && ran?.log === log && ran.started && instantOf(ran.started) === found.started)
        return true
    return false
  }

  private take(
    found: readonly FoundCommand[],
    session: LogSession,
    how: 'at once' | 'as it came',
  ): Promise<boolean> {
    const { machines } = this.workspace.state
    const { clock } = this.workspace.requireLab().surroundings
    const facts = {
      name: session.name,
      machine: machines.find(({ id }) => id === session.state.machine) ?? null,
      machines,
      offset: offsetOf(clock.now()),
    }
    const inputs = found.flatMap((one) => entriesOf(one, facts))
    if (how === 'as it came') return this.takeQuietly(inputs, session)
    return writeEntries(this.workspace, inputs, [], `${wordsOfTaken(found.length)} from ${session.name}.`)
  }

  /** Writes what came by itself, and says so in one notice that counts on: one for each would hide everything else. */
  private async takeQuietly(
    inputs: readonly Omit<EntryInput, 'project'>[],
    session: LogSession,
  ): Promise<boolean> {
    const { workspace } = this
    const { project } = workspace.requireView()
    const { change } = addEntries(
      workspace.requireLab().surroundings,
      inputs.map((input) => ({ ...input, project })),
    )
    if (!(await workspace.commit(change))) return false
    const before = this.came.get(session)
    const count = (before?.count ?? 0) + 1
    const words = `${wordsOfTaken(count)} from ${session.name}, each as it came.`
    const said = workspace.state.notices.find((notice) => notice.words === before?.words)
    if (said) workspace.dismiss(said.id)
    workspace.say('notice', words)
    this.came.set(session, { count, words })
    return true
  }
}

const wordsOfTaken = (count: number): string => `${count} ${count === 1 ? 'offer' : 'offers'} taken`

const kept = new WeakMap<Workspace, Logs>()

/** The logs of a window. */
export function logsOf(workspace: Workspace): Logs {
  const logs = kept.get(workspace) ?? new Logs(workspace)
  kept.set(workspace, logs)
  return logs
}
