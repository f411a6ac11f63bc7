/** One log of a terminal while it is open in this window: what it offers, what was taken, how it stands. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { FoundCommand } from '../../shared/journal/terminal/found.ts'
import type { RunningCommand } from '../../shared/journal/terminal/reader.ts'
import type { MachineId } from '../../shared/lab/ids.ts'
import { TerminalReading, type LogAnswer } from '../workers/terminal.ts'

export type OfferStanding = 'offered' | 'taken' | 'folded'

export interface Offer {
  /** 0, 1, 2 … in the order in which they were found. */
  readonly number: number
  readonly found: FoundCommand
  readonly standing: OfferStanding
  readonly isChosen: boolean
}

export type SessionPhase =
  | { readonly kind: 'reading'; readonly share: number | null }
  | { readonly kind: 'following' }
  | { readonly kind: 'ended' }
  /** Not read from a log: it was pasted, and all that it offers stands there. */
  | { readonly kind: 'pasted' }
  | { readonly kind: 'stopped'; readonly sentence: string }

export interface SessionState {
  readonly phase: SessionPhase
  readonly offers: readonly Offer[]
  readonly running: RunningCommand | null
  /** What was left out, lost or changed, for the person; each once. */
  readonly notes: readonly string[]
  readonly asksSize: boolean
  readonly machine: MachineId | null
  /** Whether each command is taken as it comes. */
  readonly takesAll: boolean
}

export interface FinishedLog {
  readonly name: string
  readonly bytes: Uint8Array
  readonly timing: Uint8Array | null
}

/** Where a session's offers come from. */
export type SessionLog =
  | { readonly kind: 'live'; readonly isTimed: boolean }
  | (FinishedLog & { readonly kind: 'finished' })
  | { readonly kind: 'pasted'; readonly found: readonly FoundCommand[] }

/** What a session does with what it found, and where it says so. */
export interface SessionParts {
  /** Whether the journal has it already. */
  readonly isKnown: (found: FoundCommand, log: string) => boolean
  /** Writes found commands into the journal, by one act or each as it comes. @returns whether they stand */
  readonly take: (
    found: readonly FoundCommand[],
    session: LogSession,
    how: 'at once' | 'as it came',
  ) => Promise<boolean>
}

let made = 0

export class LogSession {
  readonly id = `log ${made++}`
  readonly store: StoreApi<SessionState> = createStore(() => ({
    phase: { kind: 'reading', share: null },
    offers: [],
    running: null,
    notes: [],
    asksSize: false,
    machine: null,
    takesAll: false,
  }))
  /** Null where nothing is read: what was pasted. */
  private readonly reading: TerminalReading | null
  private taking: Promise<unknown> = Promise.resolve()

  /**
   * @param log `live` for one that is still written; else the whole of it, or what was pasted
   * @param onStop ends what brings the bytes
   */
  constructor(
    readonly name: string,
    private readonly parts: SessionParts,
    log: SessionLog,
    private readonly onStop: () => void = () => undefined,
  ) {
    if (log.kind === 'pasted') {
      this.reading = null
      this.store.setState({ phase: { kind: 'pasted' } })
      for (const one of log.found) this.onFound(one)
      return
    }
    const request =
      log.kind === 'live'
        ? ({ kind: 'live', name, isTimed: log.isTimed, size: null } as const)
        : ({ kind: 'finished', name, log: log.bytes, timing: log.timing, size: null } as const)
    this.reading = new TerminalReading(request, (answer) => this.onAnswer(answer))
  }

  get state(): SessionState {
    return this.store.getState()
  }

  /** Nothing is read any more. */
  get isOver(): boolean {
    const { kind } = this.state.phase
    return kind !== 'reading' && kind !== 'following'
  }

  push(bytes: Uint8Array, arrivedMs: number | null): Promise<void> {
    return this.reading?.push(bytes, arrivedMs) ?? Promise.resolve()
  }

  pushTiming(bytes: Uint8Array): Promise<void> {
    return this.reading?.pushTiming(bytes) ?? Promise.resolve()
  }

  /** Everything that stood in the log has been given; what comes now is new. */
  catchUp(): void {
    if (this.state.phase.kind === 'reading') this.store.setState({ phase: { kind: 'following' } })
  }

  note(sentence: string): void {
    const { notes } = this.state
    // What is true again stands once, and last.
    this.store.setState({ notes: [...notes.filter((note) => note !== sentence), sentence] })
  }

  setColumns(columns: number): void {
    this.store.setState({ asksSize: false })
    this.reading?.setSize({ columns, rows: 24 })
  }

  setMachine(machine: MachineId | null): void {
    this.store.setState({ machine })
  }

  setTakesAll(takesAll: boolean): void {
    this.store.setState({ takesAll })
    if (takesAll) void this.take(this.open())
  }

  choose(numbers: readonly number[], isChosen: boolean): void {
    this.change(numbers, { isChosen })
  }

  fold(numbers: readonly number[]): void {
    this.change(numbers, { standing: 'folded', isChosen: false })
  }

  unfold(): void {
    const folded = this.state.offers.filter(({ standing }) => standing === 'folded')
    this.change(
      folded.map(({ number }) => number),
      { standing: 'offered' },
    )
  }

  /** Numbers of what is neither taken nor folded away. */
  open(): number[] {
    return this.state.offers.filter(({ standing }) => standing === 'offered').map(({ number }) => number)
  }

  /** Takes offers into the journal, in their order, by one act. One taking at a time. */
  take(numbers: readonly number[], how: 'at once' | 'as it came' = 'at once'): Promise<void> {
    const run = async (): Promise<void> => {
      const wanted = new Set(numbers)
      const offers = this.state.offers.filter(
        ({ number, standing }) => wanted.has(number) && standing === 'offered',
      )
      if (offers.length === 0) return
      const isTaken = await this.parts.take(
        offers.map(({ found }) => found),
        this,
        how,
      )
      if (isTaken)
        this.change(
          offers.map(({ number }) => number),
          { standing: 'taken', isChosen: false },
        )
    }
    this.taking = this.taking.then(run, run)
    return this.taking as Promise<void>
  }

  /** Ends reading; what was offered stays until the session is closed. */
  stop(phase: SessionPhase): void {
    this.onStop()
    this.reading?.stop()
    this.store.setState({ phase, running: null, asksSize: false })
  }

  /** What ran is offered as it stands, then reading is over. */
  finish(): void {
    this.reading?.end()
  }

  private change(numbers: readonly number[], fields: Partial<Offer>): void {
    const own = new Set(numbers)
    this.store.setState(({ offers }) => ({
      offers: offers.map((offer) => (own.has(offer.number) ? { ...offer, ...fields } : offer)),
    }))
  }

  private onAnswer(answer: LogAnswer): void {
    switch (answer.kind) {
      case 'found':
        return this.onFound(answer.found)
      case 'running':
        // Nothing ran and nothing runs: not worth drawing anew.
        if (answer.running !== null || this.state.running !== null)
          this.store.setState({ running: answer.running })
        return
      case 'note':
        return this.note(answer.sentence)
      case 'asks size':
        return this.store.setState({ asksSize: true })
      case 'share':
        return this.store.setState({ phase: { kind: 'reading', share: answer.share } })
      case 'refused':
        return this.stop({ kind: 'stopped', sentence: answer.sentence })
      case 'ended':
        return this.store.setState({ phase: { kind: 'ended' }, running: null })
      case 'broken':
        console.error(answer.reason)
        return this.stop({
          kind: 'stopped',
          sentence:
            'The program could not read this log any further. What was taken is safe, and the log itself is untouched.',
        })
      case 'taken':
        return
    }
  }

  private onFound(found: FoundCommand): void {
    const standing = this.parts.isKnown(found, this.name) ? 'taken' : 'offered'
    const number = this.state.offers.length
    this.store.setState(({ offers }) => ({
      offers: [...offers, { number, found, standing, isChosen: false }],
    }))
    if (this.state.takesAll && standing === 'offered') void this.take([number], 'as it came')
  }
}
