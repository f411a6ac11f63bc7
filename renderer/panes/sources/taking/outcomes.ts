/** What the person is told about runs that are through, and what they are asked. Stays until it is dismissed. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { TakenBookmarks } from '../intakeQueue.ts'
import type { Report, ReportLine } from './report.ts'

/** A file of bookmarks that waits for an answer, or is being added. */
export interface BookmarksQuestion<Place> {
  readonly id: number
  readonly name: string
  readonly place: Place
  readonly bookmarks: Pick<TakenBookmarks, 'links' | 'notes'>
  readonly folders: number
  /** Different pages that the lab does not have. */
  readonly fresh: number
  /** 0 to 1 while the links are added; null while the person is asked. */
  readonly share: number | null
}

export interface Outcomes<Place> {
  readonly reports: readonly Report[]
  readonly questions: readonly BookmarksQuestion<Place>[]
}

export class OutcomeBoard<Place> {
  readonly store: StoreApi<Outcomes<Place>> = createStore(() => ({ reports: [], questions: [] }))
  private counter = 0
  private readonly stopped = new Set<number>()

  nextId(): number {
    return ++this.counter
  }

  addReport(report: Report): void {
    this.store.setState(({ reports }) => ({ reports: [...reports, report] }))
  }

  changeReport(id: number, change: Partial<Report>): void {
    this.store.setState(({ reports }) => ({
      reports: reports.map((one) => (one.id === id ? { ...one, ...change } : one)),
    }))
  }

  /** Takes one line away; a report of few things that has none left goes with it. */
  dropLine(report: number, line: ReportLine['id'], isLastToo: boolean): void {
    this.store.setState(({ reports }) => ({
      reports: reports.flatMap((one) => {
        if (one.id !== report) return [one]
        const lines = one.lines.filter(({ id }) => id !== line)
        return lines.length === 0 && isLastToo ? [] : [{ ...one, lines }]
      }),
    }))
  }

  dropReport(id: number): void {
    this.store.setState(({ reports }) => ({ reports: reports.filter((one) => one.id !== id) }))
  }

  ask(question: BookmarksQuestion<Place>): void {
    this.store.setState(({ questions }) => ({ questions: [...questions, question] }))
  }

  changeQuestion(id: number, share: number | null): void {
    this.store.setState(({ questions }) => ({
      questions: questions.map((one) => (one.id === id ? { ...one, share } : one)),
    }))
  }

  /** Calls off adding the links of a file. Those that are added stay. */
  stop(question: number): void {
    this.stopped.add(question)
  }

  wasStopped(question: number): boolean {
    return this.stopped.has(question)
  }

  dropQuestion(id: number): void {
    this.store.setState(({ questions }) => ({ questions: questions.filter((one) => one.id !== id) }))
  }
}
