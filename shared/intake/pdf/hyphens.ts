/** Joining lines to running text. A word that was parted at a line's end is joined only where the document itself says so. */

/** Words of one document. */
export class Hyphens {
  private readonly words = new Set<string>()

  /** @param lines all lines of the document's text */
  constructor(lines: readonly string[]) {
    for (const line of lines) {
      const inner = line.replace(/\S*[-\u2010]$/u, '')
      for (const [word] of inner.matchAll(/[\p{L}\p{N}]+(?:[-\u2010][\p{L}\p{N}]+)*/gu)) {
        this.words.add(word.toLowerCase())
        for (const part of word.split(/[-\u2010]/u)) this.words.add(part.toLowerCase())
      }
    }
  }

  /** Lines as one line. */
  join(lines: readonly string[]): string {
    return lines.reduce((text, line) => (text === '' ? line : this.joinTwo(text, line)), '')
  }

  private joinTwo(text: string, line: string): string {
    if (text.endsWith('\u00ad')) return text.slice(0, -1) + line
    const start = /([\p{L}\p{N}]+)[-\u2010]$/u.exec(text)?.[1]
    const end = /^[\p{L}\p{N}]+/u.exec(line)?.[0]
    if (start === undefined || end === undefined) return `${text} ${line}`
    return this.isParted(start, end) ? text.slice(0, -1) + line : text + line
  }

  /** The word stands joined elsewhere; or it stands nowhere with its hyphen, and its parts are no words of their own. */
  private isParted(start: string, end: string): boolean {
    if (!/\p{Ll}$/u.test(start) || !/^\p{Ll}/u.test(end)) return false
    const [a, b] = [start.toLowerCase(), end.toLowerCase()]
    if (this.words.has(a + b)) return true
    return !this.words.has(`${a}-${b}`) && !(this.words.has(a) && this.words.has(b))
  }
}
