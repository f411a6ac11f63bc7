/** The lines of one stretch of a log: what a marked command answered, or all of a log without marks. */
import type { StoodLine } from './screen.ts'
import { emptyReading, extend, promptsOf, type Reading } from './prompts/learn.ts'
import type { PromptedCommand } from './prompts/line.ts'

/** Characters that are kept of one output; of a longer one its head and its tail. */
export const MOST_OUTPUT = 16_000_000
const HEAD = MOST_OUTPUT / 2
const TAIL = MOST_OUTPUT / 2

/** Lines by number, of which old ones can be let go and the middle of a long output is left out. */
export class LineStore {
  private readonly head: StoodLine[] = []
  private tail: StoodLine[] = []
  private first = 0
  private headLength = 0
  private tailLength = 0
  private dropped = 0

  /** The number that the next line gets. */
  get count(): number {
    return this.first + this.head.length + this.dropped + this.tail.length
  }

  push(line: StoodLine): void {
    if (this.dropped === 0 && this.tail.length === 0 && this.headLength + line.text.length <= HEAD) {
      this.head.push(line)
      this.headLength += line.text.length + 1
      return
    }
    this.tail.push(line)
    this.tailLength += line.text.length + 1
    if (this.tailLength > 2 * TAIL) this.shorten()
  }

  private shorten(): void {
    let gone = 0
    while (gone < this.tail.length - 1 && this.tailLength > TAIL)
      this.tailLength -= this.tail[gone++]!.text.length + 1
    this.tail = this.tail.slice(gone)
    this.dropped += gone
  }

  /** Lets go of the lines before a number. */
  forgetBefore(n: number): void {
    const gone = Math.min(Math.max(0, n - this.first), this.head.length)
    if (gone === 0) return
    this.first += gone
    const left = this.head.splice(0, gone)
    this.headLength -= left.reduce((sum, { text }) => sum + text.length + 1, 0)
    if (this.head.length > 0 || this.dropped > 0) return
    // What stood behind the head begins anew.
    const rest = this.tail
    this.tail = []
    this.tailLength = 0
    for (const line of rest) this.push(line)
  }

  lineAt(n: number): StoodLine | undefined {
    const at = n - this.first
    if (at < this.head.length) return this.head[at]
    return this.tail[at - this.head.length - this.dropped]
  }

  /** The lines from one number to before another, as text, and how many were left out of it. */
  textOf(from: number, to: number): { readonly text: string; readonly leftOut: number } {
    const behind = this.first + this.head.length
    const tailFrom = behind + this.dropped
    const head = this.head.slice(Math.max(0, from - this.first), Math.max(0, to - this.first))
    const tail = this.tail.slice(Math.max(0, from - tailFrom), Math.max(0, to - tailFrom))
    const leftOut = Math.max(0, Math.min(to, tailFrom) - Math.max(from, behind))
    const gap = leftOut > 0 ? [`[${leftOut} lines left out]`] : []
    const lines = [...head.map(({ text }) => text), ...gap, ...tail.map(({ text }) => text)]
    return { text: lines.join('\n'), leftOut }
  }
}

/** A prompt that was found in the lines, with what it answered. */
export interface FoundPrompt extends PromptedCommand {
  readonly output: string
  readonly leftOut: number
  readonly started: number | null
  readonly ended: number | null
}

/** Lines that settled, and prompts found in them as they come. */
export class Stretch {
  readonly store = new LineStore()
  private reading: Reading = emptyReading
  private given = 0

  /** @param isLearning whether prompts are looked for in these lines */
  constructor(private readonly isLearning: boolean) {}

  /** Takes lines that do not change any more. */
  settle(lines: readonly StoodLine[]): void {
    for (const line of lines) this.store.push(line)
    if (this.isLearning) this.reading = extend(this.reading, lines)
  }

  /**
   * Prompts whose output has ended and that were not given before.
   * @param standing lines behind the settled ones as they stand now
   * @param isOver whether nothing more comes, so that the last one has ended too
   */
  takeFound(standing: readonly StoodLine[], isOver: boolean): FoundPrompt[] {
    if (!this.isLearning) return []
    const prompts = promptsOf(extend(this.reading, standing))
    const base = this.store.count
    const lineAt = (n: number): StoodLine | undefined =>
      n < base ? this.store.lineAt(n) : standing[n - base]
    const end = base + standing.length
    const fresh = prompts.filter(
      ({ from, outputTo }) => from >= this.given && (isOver || (outputTo !== null && outputTo <= end)),
    )
    const found = fresh.map((prompt) => this.withOutput(prompt, prompts, standing, lineAt, end))
    const last = fresh.at(-1)
    if (last) {
      this.given = last.outputTo ?? end
      this.store.forgetBefore(Math.min(this.given, base))
    }
    return found
  }

  /** The prompt that something runs at now, or null. */
  findRunning(standing: readonly StoodLine[]): PromptedCommand | null {
    if (!this.isLearning) return null
    const last = promptsOf(extend(this.reading, standing)).at(-1)
    return last && last.outputTo === null && last.command !== '' ? last : null
  }

  /** Everything before the first prompt that was found, and how much was left out of it. */
  ownOutput(first: number | null): { readonly text: string; readonly leftOut: number } {
    return this.store.textOf(0, first ?? this.store.count)
  }

  private withOutput(
    prompt: PromptedCommand,
    all: readonly PromptedCommand[],
    standing: readonly StoodLine[],
    lineAt: (n: number) => StoodLine | undefined,
    end: number,
  ): FoundPrompt {
    const to = prompt.outputTo ?? end
    const base = this.store.count
    const settled = this.store.textOf(prompt.outputFrom, Math.min(to, base))
    const rest = standing.slice(Math.max(0, prompt.outputFrom - base), Math.max(0, to - base))
    // An output without a line end stands before the next prompt, in its line.
    const next = all.find(({ from }) => from === to)
    const lines = [
      ...(prompt.outputFrom < Math.min(to, base) ? [settled.text] : []),
      ...rest.map(({ text }) => text),
      ...(next && next.before !== '' ? [next.before] : []),
    ]
    return {
      ...prompt,
      output: lines.join('\n').replace(/\n+$/, ''),
      leftOut: settled.leftOut,
      started: lineAt(prompt.outputFrom)?.at ?? null,
      ended: lineAt(to)?.at ?? lineAt(to - 1)?.at ?? null,
    }
  }
}
