/** Reads a page line by line: control lines are carried out, text lines go to the flow. */
import type { RootContent } from 'mdast'
import { Budget } from './budget.ts'
import { maybeCondition } from './condition.ts'
import { splitMarked, withoutComment, type MarkedArg } from './escape.ts'
import { Flow } from './flow.ts'
import { Input } from './input.ts'
import { Names } from './names.ts'
import { Style, type Font, type Run } from './style.ts'
import { toRuns, widthOfRuns } from './text.ts'

export interface Call {
  readonly name: string
  readonly args: readonly MarkedArg[]
  /** The arguments as they stand, strings and registers put in. */
  readonly rest: string
}
export type Macro = (machine: Machine, call: Call) => void
export type Macros = ReadonlyMap<string, Macro>

/** Requests whose lines are read before anything is put into them. */
export type RawRequest = (machine: Machine, rest: string) => void

export interface Language {
  readonly requests: Macros
  readonly raw: ReadonlyMap<string, RawRequest>
}

export class Machine {
  readonly budget = new Budget()
  readonly input: Input
  readonly names: Names
  flow = new Flow(this.budget)
  readonly style = new Style()
  readonly translate = new Map<string, string>()
  readonly notes: string[] = []
  /** Sentences are said once each. */
  note(sentence: string): void {
    if (!this.notes.includes(sentence)) this.notes.push(sentence)
  }
  /** The macro package: it may be chosen only when its first macro is met. */
  macros: Macros = new Map()
  /** Takes every line of text, where a macro package sets lines in its own way. */
  onText: ((line: string) => boolean) | null = null
  /** Set while backslashes are plain signs (`.eo`). */
  isLiteral = false
  /** What the next line of text is set in (`.B` without words). */
  nextFont: Font | null = null
  /** Lines that are carried out within lines. */
  #reading = 0
  readonly #renamed = new Map<string, string>()
  readonly #removed = new Set<string>()
  readonly #language: Language

  constructor(lines: readonly string[], language: Language) {
    this.input = new Input(lines, this.budget)
    this.names = new Names(this.input, this.budget, (text) =>
      widthOfRuns(toRuns(text, new Style(), this.translate).runs),
    )
    this.#language = language
  }

  run(): void {
    for (let line = this.input.next(); line !== undefined; line = this.input.next()) this.read(line)
    this.flow.close()
  }

  /** Reads some lines as a page of their own. @returns its blocks */
  apart(lines: readonly string[]): RootContent[] {
    const { flow, onText } = this
    this.flow = new Flow(this.budget)
    this.onText = null
    this.budget.checkDepth(this.input.depth)
    const depth = this.input.depth
    this.input.push(lines, null)
    while (this.input.depth > depth && this.#readNext(depth));
    this.flow.close()
    const { root } = this.flow
    this.flow = flow
    this.onText = onText
    return root
  }

  #readNext(depth: number): boolean {
    if (!this.input.hasMore(depth)) return false
    const line = this.input.next()
    if (line !== undefined) this.read(line)
    return line !== undefined
  }

  /** Carries out one line. */
  read(raw: string): void {
    this.#reading += 1
    this.budget.checkDepth(this.#reading)
    this.#readLine(raw)
    this.#reading -= 1
  }

  #readLine(raw: string): void {
    const line = this.isLiteral ? raw : withoutComment(raw)
    const control = /^[.'][ \t]*([^\s\\]*)/u.exec(line.slice(0, 200))
    if (control) this.#control(control[1]!, line.slice(control[0].length))
    // A line that held only a comment is none.
    else if (line !== '' || raw === '') this.#text(line)
  }

  #control(name: string, rest: string): void {
    if (name === '') return
    const macro = this.names.strings.get(name)
    const words = rest.replace(/^ +/u, '')
    if (macro !== undefined) {
      const args = splitMarked(this.expand(words)).map(({ value }) => value)
      this.input.push(macro.replace(/\n$/u, '').split('\n'), args, name)
      return
    }
    const own = this.#ownName(name)
    const raw = own === undefined ? undefined : this.#language.raw.get(own)
    if (raw) raw(this, words)
    else if (own !== undefined) this.#native(own)?.(this, this.#call(own, words))
  }

  #call(name: string, words: string): Call {
    const rest = this.expand(words).trimEnd()
    return { name, rest, args: splitMarked(rest) }
  }

  expand(text: string): string {
    return this.isLiteral ? text.replaceAll('\\', '\\e') : this.names.expand(text)
  }

  #native(name: string): Macro | undefined {
    return this.macros.get(name) ?? this.#language.requests.get(name)
  }

  #ownName(name: string): string | undefined {
    return this.#removed.has(name) ? undefined : (this.#renamed.get(name) ?? name)
  }

  /** Says whether a macro, a string or a request of that name is there. */
  isDefined(name: string): boolean {
    if (this.names.strings.has(name)) return true
    const own = this.#ownName(name)
    return own !== undefined && (this.#native(own) !== undefined || this.#language.raw.has(own))
  }

  rename(from: string, to: string, isCopy: boolean): void {
    const value = this.names.strings.get(from)
    const own = this.#ownName(from)
    if (value !== undefined) this.names.strings.set(to, value)
    else if (own !== undefined) this.#renamed.set(to, own)
    this.#removed.delete(to)
    if (!isCopy) this.remove(from)
  }

  remove(name: string): void {
    this.names.strings.delete(name)
    this.#removed.add(name)
  }

  /** The text of a line, from its escapes; it goes to the flow. */
  text(line: string): void {
    const { runs, isJoined } = toRuns(line, this.style, this.translate)
    this.flow.text(runs, isJoined)
  }

  /** The runs of some words in the font of now. */
  runsOf(words: string): Run[] {
    return toRuns(words, this.style, this.translate).runs
  }

  #text(raw: string): void {
    if (raw.trim() === '') {
      this.flow.space()
      return
    }
    const line = this.expand(raw)
    if (this.onText?.(line)) return
    if (line.startsWith(' ')) this.flow.lineBreak()
    const font = this.nextFont
    this.nextFont = null
    if (font) this.style.set(font)
    this.text(line.replaceAll('\\}', ''))
    if (font) this.style.set('R')
  }

  /** The condition at the beginning of some words, and what stands behind it. */
  condition(words: string): { isTrue: boolean; rest: string } {
    return maybeCondition(words, {
      isDefined: (name) => this.isDefined(name),
      hasRegister: (name) => this.names.hasRegister(name),
      toWords: (text) =>
        this.runsOf(text)
          .map(({ text: shown }) => shown)
          .join(''),
    })
  }
}
