/** Lines that are not filled: they stay as they are. */

/** Tab stops of a terminal. */
const tabStop = 8

export class CodeLines {
  #lines: string[] = []
  #isOpen = false
  #isJoined = false

  get isEmpty(): boolean {
    return this.#lines.length === 0
  }

  add(words: string, isJoined: boolean): void {
    const shown = words
      .replace(/\ufdd0/gu, '')
      .replace(/\ufdd1|\u00a0/gu, ' ')
      .split('\n')
    if (this.#isJoined && this.#isOpen) this.#lines.push((this.#lines.pop() ?? '') + shown.shift()!)
    this.#lines.push(...shown)
    this.#isOpen = true
    this.#isJoined = isJoined
  }

  join(): void {
    this.#isJoined = true
  }

  endLine(): void {
    this.#isJoined = false
  }

  blank(): void {
    this.#isJoined = false
    if (this.#lines.length > 0) this.#lines.push('')
  }

  /** The lines so far without blank ones at the ends and without the indent that all have; none are left. */
  take(): string {
    const lines = this.#lines.map(expandTabs)
    this.#lines = []
    this.#isJoined = false
    while (lines.at(-1) === '') lines.pop()
    while (lines[0] === '') lines.shift()
    const indents = lines.filter((line) => line !== '').map((line) => line.length - line.trimStart().length)
    const indent = indents.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY)
    return lines.map((line) => line.slice(Math.min(indent, line.length))).join('\n')
  }
}

function expandTabs(line: string): string {
  if (!line.includes('\t')) return line.trimEnd()
  return line
    .split('\t')
    .reduce(
      (out, part, i) => (i === 0 ? part : out + ' '.repeat(tabStop - (out.length % tabStop)) + part),
      '',
    )
    .trimEnd()
}
