/** Where lines come from: the page itself, and above it the macros and blocks that are being read just now. */
import type { Budget } from './budget.ts'

interface Frame {
  readonly lines: readonly string[]
  at: number
  /** What `\$1` and so on stand for; null where the frame is a block and not a macro. */
  args: string[] | null
  readonly name: string
}

export class Input {
  readonly #frames: Frame[]
  readonly #budget: Budget

  constructor(lines: readonly string[], budget: Budget) {
    this.#frames = [{ lines, at: 0, args: [], name: '' }]
    this.#budget = budget
  }

  push(lines: readonly string[], args: string[] | null, name = ''): void {
    this.#budget.checkDepth(this.#frames.length)
    this.#frames.push({ lines, at: 0, args, name })
  }

  /** The next line with its continuations (a newline behind a backslash); undefined at the end of all. */
  next(): string | undefined {
    while (this.#frames.length > 0) {
      const frame = this.#frames.at(-1)!
      if (frame.at < frame.lines.length) return this.#joined(frame)
      this.#frames.pop()
    }
    return undefined
  }

  #joined(frame: Frame): string {
    let line = frame.lines[frame.at]!
    frame.at += 1
    this.#budget.spend(line.length)
    if (!endsInEscape(line) || frame.at >= frame.lines.length) return line
    const parts: string[] = []
    while (endsInEscape(line) && frame.at < frame.lines.length) {
      parts.push(line.slice(0, -1))
      line = frame.lines[frame.at]!
      frame.at += 1
      this.#budget.spend(line.length)
    }
    return parts.join('') + line
  }

  /** Whether lines are left in the frames above that depth; those without are left. */
  hasMore(depth: number): boolean {
    while (this.#frames.length > depth) {
      const frame = this.#frames.at(-1)!
      if (frame.at < frame.lines.length) return true
      this.#frames.pop()
    }
    return false
  }

  /** The next line as it stands, from the same frame only. */
  nextRaw(): string | undefined {
    const frame = this.#frames.at(-1)
    if (!frame || frame.at >= frame.lines.length) return undefined
    const line = frame.lines[frame.at]!
    frame.at += 1
    this.#budget.spend(line.length)
    return line
  }

  /** The arguments of the macro that is being read. */
  get args(): string[] {
    return this.#macro?.args ?? []
  }

  get macroName(): string {
    return this.#macro?.name ?? ''
  }

  get #macro(): Frame | undefined {
    for (let i = this.#frames.length - 1; i >= 0; i -= 1) if (this.#frames[i]!.args) return this.#frames[i]
    return undefined
  }

  shift(by: number): void {
    this.#macro?.args?.splice(0, Math.max(0, by))
  }

  /** Leaves the macro that is being read. */
  leaveMacro(): void {
    while (this.#frames.length > 1) if (this.#frames.pop()!.args) return
  }

  /** Leaves the innermost frame. */
  leave(): void {
    if (this.#frames.length > 1) this.#frames.pop()
  }

  get depth(): number {
    return this.#frames.length
  }

  /** Drops frames above that depth. */
  leaveTo(depth: number): void {
    while (this.#frames.length > Math.max(1, depth)) this.#frames.pop()
  }

  end(): void {
    this.#frames.length = 0
  }
}

/** An odd number of backslashes at the end, none of them within a comment. */
function endsInEscape(line: string): boolean {
  if (!line.endsWith('\\')) return false
  let count = 0
  while (line[line.length - 1 - count] === '\\') count += 1
  return count % 2 === 1 && !hasComment(line)
}

function hasComment(line: string): boolean {
  return line.length < 10_000 && /^(?:[^\\]|\\[^"#])*\\["#]/u.test(line)
}
