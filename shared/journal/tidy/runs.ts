/**
 * Finds the runs of lines that are commands and their answers, in text that no fence holds yet.
 *
 * A run begins with a line behind a prompt. What stands directly below it, without an empty line between, is its answer,
 * unless it surely is what the person wrote; so is what follows behind an empty line where it surely is a machine's.
 * Several commands at one prompt without an answer between them are one run, so that in each run the lines at its head
 * are commands and all others are not. Without a prompt, only paragraphs that surely are commands or answers are runs.
 */
import { commandLikelihood } from '../../shell/likely.ts'
import {
  areAligned,
  columnsOf,
  hasMachineSigns,
  isSentence,
  isSurelyHuman,
  isSurelyOutput,
  proseWordsIn,
  speaksOfSelf,
} from './likeness.ts'
import { fencedLines, indentOf, isBlank, type Line, type Span } from './lines.ts'
import { isHeading, isItem } from './markers.ts'
import { isPrinter, isSureCommand, linesOfCommand, maybePrompted, type Prompted } from './prompts.ts'

/** One command, over as many lines as it takes. */
export interface TypedCommand extends Span {
  /** How many characters of its first line are the prompt, the indent included. */
  readonly promptLength: number
  /** Whether anything was typed at the prompt. */
  readonly isEmpty: boolean
}

/** Commands, then their answer. One of the two may be missing. */
export interface Run extends Span {
  /** The prompt of all its commands, without the blanks around it; empty where they were typed without one. */
  readonly prompt: string
  readonly commands: readonly TypedCommand[]
  readonly answer: Span | null
}

/** What is known of a text's lines before Markdown is looked at. */
export interface FoundRuns {
  /** In order, none inside a fence. */
  readonly runs: readonly Run[]
  /** Lines outside runs and fences that may be a machine's all the same: no character of them may change. */
  readonly doubtful: ReadonlySet<number>
}

export function findRuns(lines: readonly Line[]): FoundRuns {
  return new Finder(lines).find()
}

class Finder {
  private readonly fenced: ReadonlySet<number>
  private readonly runs: Run[] = []
  private readonly doubtful = new Set<number>()
  /** Whether a command stands above, and nothing that a person surely wrote between. */
  private isBelowCommand = false

  constructor(private readonly lines: readonly Line[]) {
    this.fenced = fencedLines(lines)
  }

  find(): FoundRuns {
    for (let n = 0; n < this.lines.length;) {
      if (this.fenced.has(n) || isBlank(this.lines[n])) {
        // A session that was set apart before is one still.
        if (this.fenced.has(n) && machineFence.test(this.lines[n]!.text)) this.isBelowCommand = true
        n += 1
        continue
      }
      n = this.takeParagraph(n, this.endOfParagraph(n))
    }
    return { runs: this.runs, doubtful: this.doubtful }
  }

  /** The first line behind a paragraph: an empty one, one of a fence, a prompt where one is given, or none. */
  private endOfParagraph(n: number, prompted?: Prompted): number {
    let end = n
    while (this.isTextLine(end) && !(prompted && this.promptAt(end, prompted))) end += 1
    return end
  }

  /** @returns the line to go on at */
  private takeParagraph(first: number, end: number): number {
    for (let n = first; n < end; n += 1) {
      const prompted = this.promptAt(n)
      if (!prompted) continue
      this.takeProse(first, n)
      return this.takeSession(n, prompted)
    }
    const further = this.endOfUnfinished(first, end)
    if (further > end) {
      this.doubt(first, further)
      return further
    }
    this.takeProse(first, end)
    return end
  }

  /** A line that is a prompt for sure, or perhaps one and stands where a session goes on. */
  private promptAt(n: number, before?: Prompted): Prompted | null {
    const { text } = this.lines[n]!
    if (indentOf(text) > 3 && !this.isInList(n)) return null
    const prompted = maybePrompted(text)
    if (!prompted || prompted.isSure) return prompted
    const sign = prompted.prompt.trim()
    if (!before || sign !== before.prompt.trim()) return null
    if (sign !== '#' || prompted.command === '') return prompted
    // Remarks in settings look like commands of root: not behind a command that shows a file.
    return commandLikelihood(prompted.command) >= 0 && !isPrinter(before.command) ? prompted : null
  }

  /** Whether the line may belong to an item above it: such lines are set in. */
  private isInList(n: number): boolean {
    for (let above = n - 1; above >= 0; above -= 1) {
      const { text } = this.lines[above]!
      if (text.trim() === '') continue
      if (item.test(text)) return true
      if (indentOf(text) < 2) return false
    }
    return false
  }

  private takeSession(first: number, prompted: Prompted): number {
    const commands: TypedCommand[] = []
    let n = first
    let at: Prompted | null = prompted
    // What a program with a prompt of its own was told is no command of a shell: such a session stays in one piece.
    let last = prompted
    while (at && !prompted.isInner) {
      last = at
      const end: number = n + this.linesOfCommandAt(n, at)
      const { prompt, command } = at
      commands.push({ first: n, last: end - 1, promptLength: prompt.length, isEmpty: command.trim() === '' })
      n = end
      const next: Prompted | null = this.isTextLine(n) ? this.promptAt(n, at) : null
      at = next?.prompt.trim() === prompted.prompt.trim() ? next : null
    }
    const answered = n
    if (prompted.isInner) n += 1
    n = this.endOfAnswer(n, last, indentOf(this.lines[first]!.text), commands)
    this.isBelowCommand = true
    const answer = n > answered ? { first: answered, last: n - 1 } : null
    if (commands.length > 0 && commands.every(({ isEmpty }) => isEmpty)) this.doubt(first, n)
    else this.runs.push({ first, last: n - 1, prompt: prompted.prompt.trim(), commands, answer })
    return n
  }

  private isTextLine(n: number): boolean {
    return n < this.lines.length && !this.fenced.has(n) && !isBlank(this.lines[n])
  }

  private linesOfCommandAt(n: number, { command }: Prompted): number {
    const rest: string[] = [command]
    for (let at = n + 1; at < this.lines.length && !this.fenced.has(at) && rest.length < 400; at += 1)
      rest.push(this.lines[at]!.text)
    return linesOfCommand(rest)
  }

  /** The first line behind an answer: a prompt, what a person wrote, a fence, or what may be anything. */
  private endOfAnswer(
    from: number,
    prompted: Prompted,
    indent: number,
    commands: readonly TypedCommand[],
  ): number {
    let n = from
    const isPrinted = commands.some(({ first, promptLength }) =>
      isPrinter(this.lines[first]!.text.slice(promptLength)),
    )
    for (;;) {
      while (this.isTextLine(n) && this.isAnswer(n, prompted, indent, isPrinted)) n += 1
      if (!isBlank(this.lines[n]) || n >= this.lines.length) return n
      let next = n
      while (next < this.lines.length && isBlank(this.lines[next])) next += 1
      if (!this.isTextLine(next)) return n
      const end = this.endOfParagraph(next, prompted)
      if (!this.areOutput(next, end, 1) || this.hasLessIndent(next, end, indent)) return n
      n = end
    }
  }

  private isAnswer(n: number, prompted: Prompted, indent: number, isPrinted: boolean): boolean {
    const { text } = this.lines[n]!
    // What is set in less ends an item of a list, and with it the run.
    if (indent > 0 && indentOf(text) < indent) return false
    if (this.promptAt(n, prompted)) return false
    return isPrinted || !this.isRemark(n, prompted)
  }

  /** Whether the writer goes on here, directly below an answer: it says I or we, and nothing of a machine's follows. */
  private isRemark(n: number, prompted: Prompted): boolean {
    if (!speaksOfSelf(this.lines[n]!.text)) return false
    for (let at = n; this.isTextLine(at) && !this.promptAt(at, prompted); at += 1)
      if (hasMachineSigns(this.lines[at]!.text)) return false
    return true
  }

  private hasLessIndent(first: number, end: number, indent: number): boolean {
    return indent > 0 && this.lines.slice(first, end).some(({ text }) => indentOf(text) < indent)
  }

  /** Whether all lines are a machine's: by themselves, or as columns with those beside them. */
  private areOutput(first: number, end: number, least: number): boolean {
    if (end - first < least) return false
    const texts = this.lines.slice(first, end).map(({ text }) => text)
    return texts.every((text, at) => isSurelyOutput(text) || isColumned(texts, at))
  }

  /** Lines without a prompt. Headings, quotations and items part them as Markdown does. */
  private takeProse(first: number, end: number): void {
    let from = first
    for (let n = first; n < end; n += 1) {
      const { text } = this.lines[n]!
      if (isLikelyPrompted(text)) {
        // Perhaps a command, and then what stands below it is its answer.
        this.takeBlock(from, n)
        this.doubt(n, end)
        this.isBelowCommand = true
        return
      }
      if (!isHeading(text) && !quotation.test(text) && !isItem(text)) continue
      this.takeBlock(from, n)
      if (isHeading(text)) {
        this.noteHeading(n)
        from = n + 1
        continue
      }
      // What follows an item or a quotation goes on with it, up to the next heading.
      let last = n + 1
      while (last < end && !isHeading(this.lines[last]!.text)) last += 1
      this.noteProse(n, last)
      from = last
      n = last - 1
    }
    this.takeBlock(from, end)
  }

  /** A heading of the first rank may be a remark in an answer, or a command of root; it ends no doubt. */
  private noteHeading(n: number): void {
    const { text } = this.lines[n]!
    if (/^ {0,3}##/u.test(text)) this.isBelowCommand = false
    if (this.isBelowCommand || this.isDoubtful(n, n, n + 1)) this.doubtful.add(n)
  }

  private takeBlock(first: number, end: number): void {
    if (first >= end) return
    const begin = this.beginOfBare(first, end)
    const commands = this.bareCommandsFrom(begin, end)
    const answered = commands.at(-1) ? commands.at(-1)!.last + 1 : begin
    const isAnswered = answered < end
    if (isAnswered ? !this.isSureAnswer(answered, end) : commands.length === 0)
      return this.noteProse(first, end)
    // What leads on to it may itself be one.
    this.takeBlock(first, begin)
    const answer = isAnswered ? { first: answered, last: end - 1 } : null
    this.runs.push({ first: begin, last: end - 1, prompt: '', commands, answer })
    this.isBelowCommand = true
  }

  private isSureAnswer(first: number, end: number): boolean {
    return this.isPlainBlock(first, end) && this.areOutput(first, end, 1) && this.isWorthFencing(first, end)
  }

  /** Behind a line that leads on with a colon, what follows it is looked at by itself. */
  private beginOfBare(first: number, end: number): number {
    for (let n = end - 1; n > first; n -= 1)
      if (/[\p{L})]:\s*$/u.test(this.lines[n - 1]!.text) && !isSurelyOutput(this.lines[n - 1]!.text)) return n
    return first
  }

  /** The commands without a prompt that begin here, up to the first line that is not surely one. */
  private bareCommandsFrom(first: number, end: number): TypedCommand[] {
    const commands: TypedCommand[] = []
    if (!this.isPlainBlock(first, end)) return commands
    for (let n = first; n < end;) {
      const texts = this.lines.slice(n, end).map(({ text }) => text)
      const count = linesOfCommand(texts)
      if (!isSureCommand(texts.slice(0, count).join('\n'))) break
      commands.push({ first: n, last: n + count - 1, promptLength: 0, isEmpty: false })
      n += count
    }
    return commands
  }

  /** Whether the lines may be fenced without a prompt: none is an item, a heading, a quotation, a table or code. */
  private isPlainBlock(first: number, end: number): boolean {
    return this.lines
      .slice(first, end)
      .every(({ text }, at) => (indentOf(text) >= 4 ? at > 0 : !markup.test(text)))
  }

  /** One line alone must be one that surely nobody typed; columns need neighbours. */
  private isWorthFencing(first: number, end: number): boolean {
    return end - first >= 2 || isSurelyOutput(this.lines[first]!.text)
  }

  /** A command without a prompt whose here-document goes on over an empty line: where it ends. */
  private endOfUnfinished(first: number, end: number): number {
    for (let n = first; n < end; n += 1) {
      const { text } = this.lines[n]!
      if (!text.includes('<<') || commandLikelihood(text) < 1) continue
      const rest = this.lines.slice(n, n + 200).map((line) => line.text)
      const stop = n + linesOfCommand(rest)
      if (stop > end) return stop
    }
    return end
  }

  private noteProse(first: number, end: number): void {
    if (first >= end) return
    if (this.isBelowCommand && !this.hasPersonsWords(first, end)) return this.doubt(first, end)
    this.isBelowCommand = false
    for (let n = first; n < end; n += 1) if (this.isDoubtful(n, first, end)) this.doubtful.add(n)
  }

  private hasPersonsWords(first: number, end: number): boolean {
    const texts = this.lines.slice(first, end).map(({ text }) => text)
    if (texts.some(isSurelyHuman)) return true
    return texts.every((text) => wordedItem.test(text) && commandLikelihood(text) < 1)
  }

  private isDoubtful(n: number, first: number, end: number): boolean {
    const { text } = this.lines[n]!
    if (isSurelyOutput(text) || commandLikelihood(text) >= 1) return true
    if (columnsOf(text).length > 1 && !isSentence(text)) return true
    const [above, below] = [
      n > first ? this.lines[n - 1]!.text : '',
      n + 1 < end ? this.lines[n + 1]!.text : '',
    ]
    return areAligned(text, above) || areAligned(text, below)
  }

  private doubt(first: number, end: number): void {
    for (let n = first; n < end; n += 1) this.doubtful.add(n)
  }
}

const quotation = /^ {0,3}>/u
const machineFence = /^\s*(?:`{3,}|~{3,}) *(?:console|sh|bash|zsh|shell|text)\b/u
const item = /^\s*(?:[-+*•]|\d{1,9}[.)])\s+\S/u
const markup = /^\s*(?:\|.*\||<\/?[a-z!]|\[[^\]]*\]:)/iu
/** An item of at least two plain words. */
const wordedItem =
  /^\s*(?:[-+*•]|\d{1,9}[.)])\s+(?:\[[ xX]?\]\s+)?\p{L}[\p{L}'’-]*(?: [\p{L}\d'’,.()-]+)+\s*$/u

function isLikelyPrompted(text: string): boolean {
  const prompted = maybePrompted(text)
  if (!prompted) return false
  return prompted.isSure || /\$\s*$/u.test(prompted.prompt) || commandLikelihood(prompted.command) >= 0
}

/** Whether a line stands in columns with the one above or below it. */
function isColumned(texts: readonly string[], at: number): boolean {
  const text = texts[at]!
  if (proseWordsIn(text) > 0 && text.trim().split(/\s+/u).length > 3) return false
  return [texts[at - 1], texts[at + 1]].some((beside) => beside !== undefined && areAligned(text, beside))
}
