/**
 * What is being taken in, one thing after the other: what is under way, how many wait, and what went wrong. Lives as long
 * as its window, so that neither folding the pane nor going to another project loses anything.
 *
 * What one gesture brings is a run. Its things are kept in batches, so how each of them ended may be known only later.
 */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { CaptureId, ChangeId, SourceId } from '../../../shared/lab/ids.ts'
import type { Source, WayIn } from '../../../shared/lab/model.ts'
import {
  IntakeCancelled,
  type IntakeAnswer,
  type IntakeProgress,
  type IntakeTask,
  type Intaking,
  type TakeIn,
} from '../../workers/intake.ts'

/** What is to be read, or why it cannot be. */
export type Loaded =
  { readonly ok: true; readonly task: IntakeTask } | { readonly ok: false; readonly sentence: string }

/** An address without text: there is nothing to read. */
export interface LinkTask {
  readonly kind: 'link'
  readonly address: string
}

/** One thing to take in and what is known of it beforehand. */
export interface IntakeItem {
  /** For the person: a file's name, or what was pasted. */
  readonly name: string
  /** A function where it is to be fetched only when its turn comes, and can be once more. */
  readonly task: IntakeTask | LinkTask | (() => Promise<Loaded>)
  readonly wayIn: WayIn
  /** What the person or the link called it; null to let the text tell. */
  readonly title: string | null
  readonly address: string | null
  /** What it is, where that is known better than its text tells. */
  readonly kind: 'page' | null
  /** Words that are lost if this fails, since they stand nowhere else; null for a file. */
  readonly rescue: string | null
  /** Names of the folders that it lay in, the outermost first. */
  readonly directories: readonly string[]
  /** What an earlier state of the same file became. */
  readonly again: SourceId | null
  /** It becomes a source of its own also where the lab has it already. */
  readonly isOwn: boolean
}

/** A thing of which nothing else is known. */
export const unknownOf = {
  title: null,
  address: null,
  kind: null,
  rescue: null,
  directories: [],
  again: null,
  isOwn: false,
} as const satisfies Omit<IntakeItem, 'name' | 'task' | 'wayIn'>

type Answered = Extract<IntakeAnswer, { readonly ok: true }>
export type TakenBookmarks = Extract<Answered, { readonly kind: 'bookmarks' }>
export type TakenIn = Exclude<Answered, TakenBookmarks>

/** How taking one thing in ended. `failed` has a sentence; `asked` are bookmarks, about which the person is asked. */
export type ItemEnd =
  | {
      readonly kind: 'added'
      readonly source: Source
      readonly change: ChangeId
      readonly notes: readonly string[]
    }
  /** The lab had it already. `change`: it was taken into the project. `source`: null where it was given up before. */
  | { readonly kind: 'there'; readonly source: Source | null; readonly change: ChangeId | null }
  | {
      readonly kind: 'again'
      readonly source: Source
      readonly capture: CaptureId
      readonly change: ChangeId
    }
  | { readonly kind: 'failed'; readonly sentence: string }
  | { readonly kind: 'cancelled' }
  | { readonly kind: 'asked' }

export interface IntakeRun<Place> {
  /** The project that it is for. */
  readonly place: Place
  readonly items: readonly IntakeItem[]
  /** The sources come to lie in folders named like those that the files lay in. */
  readonly isInFolders: boolean
  /** The drop folder brought it, and nobody is looking. */
  readonly isQuiet: boolean
  /** Whether bytes of this digest were taken in before and are to be passed over, also where the lab has them no more. */
  readonly wasTaken: (sha256: string) => boolean
  /** Told of each thing once it is kept or given up; with the digest of its bytes where they were read. */
  readonly onEnd: (item: IntakeItem, end: ItemEnd, sha256: string | null) => void
}

/** A run that is through. `ends` stand in the order of its items. */
export interface EndedRun<Place> {
  readonly run: IntakeRun<Place>
  readonly ends: readonly ItemEnd[]
}

/** Makes sources of what one run takes in. */
export interface Keeper {
  /** Resolves when the next thing may be read; it need not be kept then. */
  keep(item: IntakeItem, taken: TakenIn): Promise<void>
  keepLink(item: IntakeItem, address: string): Promise<void>
  /** Resolves when all is kept. */
  finish(): Promise<void>
}

export interface IntakeProblem {
  readonly id: number
  readonly sentence: string
  /** What can still be put into the form. */
  readonly rescue: string | null
}

export interface QueueState {
  readonly current: {
    readonly words: string
    readonly share: number | null
    /** Its place in its run from 1 on, and how many things that has. */
    readonly at: number
    readonly of: number
  } | null
  /** Things of all runs that come after the current one. */
  readonly waiting: number
  readonly problems: readonly IntakeProblem[]
}

export interface QueueParts<Place> {
  readonly takeIn: TakeIn
  readonly beginKeeping: (
    run: IntakeRun<Place>,
    onEnd: (item: IntakeItem, end: ItemEnd, sha256: string | null) => void,
  ) => Keeper
  readonly onBookmarks: (run: IntakeRun<Place>, item: IntakeItem, bookmarks: TakenBookmarks) => void
  /** Told when everything of a run is through. */
  readonly onThrough: (ended: EndedRun<Place>) => void
  /** Waits until the screen had its turn. */
  readonly pause: () => Promise<void>
}

interface Waiting<Place> {
  readonly run: IntakeRun<Place>
  readonly end: (ended: EndedRun<Place>) => void
}

/** A run of up to so many things need not wait for a larger one. */
const smallRun = 8

const nothing: QueueState = { current: null, waiting: 0, problems: [] }

export class IntakeQueue<Place> {
  readonly store: StoreApi<QueueState> = createStore(() => nothing)
  private readonly runs: Waiting<Place>[] = []
  private running: Intaking | null = null
  private isWorking = false
  /** What is under way was called off, while it was fetched or read. */
  private isOff = false
  private isAllOff = false
  /** Things of the present run that come after the current one. */
  private left = 0
  private counter = 0

  constructor(private readonly parts: QueueParts<Place>) {}

  /** Takes all of a run in, behind those that wait. */
  add(run: IntakeRun<Place>): Promise<EndedRun<Place>> {
    return new Promise((end) => {
      this.runs.push({ run, end })
      this.showWaiting()
      void this.work()
    })
  }

  /** Calls off what is under way. What waits goes on. */
  cancel(): void {
    this.isOff = true
    this.running?.cancel()
  }

  /** Calls off what is under way and all that waits. What was read before is kept. */
  cancelAll(): void {
    for (const { run, end } of this.runs.splice(0)) {
      for (const item of run.items) run.onEnd(item, { kind: 'cancelled' }, null)
      end({ run, ends: run.items.map(() => ({ kind: 'cancelled' })) })
    }
    this.isAllOff = true
    this.left = 0
    this.showWaiting()
    this.cancel()
  }

  /** Shows a sentence beside those of what was refused here. */
  tell(sentence: string, rescue: string | null = null): void {
    const problem: IntakeProblem = { id: ++this.counter, sentence, rescue }
    this.store.setState(({ problems }) => ({ problems: [...problems, problem] }))
  }

  dismiss(id: number): void {
    this.store.setState(({ problems }) => ({ problems: problems.filter((problem) => problem.id !== id) }))
  }

  private showWaiting(): void {
    const behind = this.runs.reduce((sum, { run }) => sum + run.items.length, 0)
    this.store.setState({ waiting: this.left + behind })
  }

  private async work(): Promise<void> {
    if (this.isWorking) return
    this.isWorking = true
    for (let next = this.runs.shift(); next; next = this.runs.shift()) {
      const ended = await this.takeRun(next.run)
      if (this.runs.length === 0) this.store.setState({ current: null })
      this.end(next, ended)
    }
    this.isWorking = false
  }

  private end({ end }: Waiting<Place>, ended: EndedRun<Place>): void {
    end(ended)
    this.parts.onThrough(ended)
  }

  /** What a person brings meanwhile comes in between two of many. */
  private async takeSmallOnes(): Promise<void> {
    for (;;) {
      const at = this.runs.findIndex(({ run }) => run.items.length <= smallRun)
      const [next] = at < 0 ? [] : this.runs.splice(at, 1)
      if (!next) return
      this.end(next, await this.takeRun(next.run))
      if (this.isAllOff) return
    }
  }

  private async takeRun(run: IntakeRun<Place>): Promise<EndedRun<Place>> {
    const ends = new Map<IntakeItem, ItemEnd>()
    const note = (item: IntakeItem, end: ItemEnd, sha256: string | null): void => {
      ends.set(item, end)
      run.onEnd(item, end, sha256)
    }
    const keeper = this.parts.beginKeeping(run, note)
    this.isAllOff = false
    for (const [at, item] of run.items.entries()) {
      this.left = run.items.length - at
      if (run.items.length > smallRun && !this.isAllOff) await this.takeSmallOnes()
      this.left = this.isAllOff ? 0 : run.items.length - at - 1
      if (this.isAllOff) {
        note(item, { kind: 'cancelled' }, null)
        continue
      }
      this.showWaiting()
      const end = await this.takeOne(run, item, at + 1, keeper)
      if (end) note(item, end, null)
      await this.parts.pause()
    }
    this.left = 0
    this.showWaiting()
    await keeper.finish()
    return { run, ends: run.items.map((item) => ends.get(item) ?? { kind: 'cancelled' }) }
  }

  /** @returns how it ended; null where its keeper tells that */
  private async takeOne(
    run: IntakeRun<Place>,
    item: IntakeItem,
    at: number,
    keeper: Keeper,
  ): Promise<ItemEnd | null> {
    const { name } = item
    const show = (words: string, share: number | null): void =>
      this.show({ words, share, at, of: run.items.length })
    this.isOff = false
    show(`Reading ${name}`, null)
    try {
      if (typeof item.task === 'object' && item.task.kind === 'link') {
        await keeper.keepLink(item, item.task.address)
        return null
      }
      const loaded =
        typeof item.task === 'function' ? await item.task() : { ok: true as const, task: item.task }
      if (this.isOff) return { kind: 'cancelled' }
      if (!loaded.ok) return { kind: 'failed', sentence: loaded.sentence }
      this.running = this.parts.takeIn(loaded.task, (progress) =>
        show(wordsOf(progress, name), progress.share),
      )
      const answer = await this.running.answer
      this.running = null
      if (!answer.ok) return { kind: 'failed', sentence: answer.sentence }
      if (answer.kind === 'bookmarks') {
        this.parts.onBookmarks(run, item, answer)
        return { kind: 'asked' }
      }
      show(`Keeping ${name}`, null)
      await keeper.keep(item, answer)
      return null
    } catch (error) {
      this.running = null
      if (error instanceof IntakeCancelled) return { kind: 'cancelled' }
      console.error(error)
      return { kind: 'failed', sentence: brokenSentence(name) }
    }
  }

  /** Progress is told more often than it can be seen. */
  private show(next: NonNullable<QueueState['current']>): void {
    const now = this.store.getState().current
    const percent = (share: number | null): number | null => (share === null ? null : Math.round(share * 100))
    if (now?.words === next.words && now.at === next.at && percent(now.share) === percent(next.share)) return
    this.store.setState({ current: next })
  }
}

function wordsOf({ doing, page }: IntakeProgress, name: string): string {
  const words = `${doing === 'reading' ? 'Reading' : 'Cleaning'} ${name}`
  return page ? `${words}, page ${page.at} of ${page.of}` : words
}

/** What a person is told where the program itself failed on a thing. */
export function brokenSentence(name: string): string {
  return `Something in the program went wrong while “${name}” was read. Nothing was added, and what was there is unchanged. Try it again, or paste its text.`
}
