/** What a page has given names to: strings, macros and number registers, and how they come into a line. */
import type { Budget } from './budget.ts'
import { delimitedAt, nameAt } from './escape.ts'
import { maybeNumber } from './expression.ts'
import type { Input } from './input.ts'

const maxString = 1_000_000

export class Names {
  /** Strings and macros share their names (groff(7)). A macro's lines are parted by `\n`. */
  readonly strings = new Map<string, string>([
    ['.T', 'utf8'],
    ['R', '\\[rg]'],
    ['Tm', '\\[tm]'],
    ['lq', '\\[lq]'],
    ['rq', '\\[rq]'],
    ['S', ''],
  ])
  readonly registers = new Map<string, number>()
  readonly #steps = new Map<string, number>()
  readonly #input: Input
  readonly #budget: Budget
  readonly #widthOf: (text: string) => number

  constructor(input: Input, budget: Budget, widthOf: (text: string) => number) {
    this.#input = input
    this.#budget = budget
    this.#widthOf = widthOf
  }

  setString(name: string, value: string): void {
    this.#budget.spend(value.length)
    this.strings.set(name, value.slice(0, maxString))
  }

  setRegister(name: string, words: string, step: string | undefined): void {
    const relative = /^[+-]/u.exec(words)?.[0]
    const found = maybeNumber(words, 'u')
    if (!found) return
    this.registers.set(name, relative === undefined ? found.value : this.register(name) + found.value)
    const by = step === undefined ? undefined : maybeNumber(step, 'u')
    if (by) this.#steps.set(name, by.value)
  }

  /** Registers of a terminal of 80 columns, as far as pages ask for them. */
  register(name: string): number {
    if (name === '.$') return this.#input.args.length
    return this.registers.get(name) ?? builtIn[name] ?? 0
  }

  hasRegister(name: string): boolean {
    return this.registers.has(name) || name in builtIn
  }

  /**
   * A line with strings, registers and arguments put in.
   * @param isCopied copy mode, in which definitions are read: `\\` becomes `\`
   */
  expand(line: string, isCopied = false, depth = 0): string {
    if (!line.includes('\\')) return line
    this.#budget.checkDepth(depth * 4)
    const parts: string[] = []
    let at = 0
    for (let next = line.indexOf('\\'); next >= 0; next = line.indexOf('\\', at)) {
      parts.push(line.slice(at, next))
      at = this.#escape(line, next, parts, isCopied, depth)
    }
    parts.push(line.slice(at))
    const all = parts.join('')
    this.#budget.spend(all.length)
    return all
  }

  #escape(line: string, at: number, parts: string[], isCopied: boolean, depth: number): number {
    const letter = line[at + 1]
    if (letter === '*') return this.#string(line, at + 2, parts, depth)
    if (letter === 'n') return this.#number(line, at + 2, parts)
    if (letter === '$') return this.#argument(line, at + 2, parts)
    if (!isCopied && letter === 'w') {
      const { name, end } = delimitedAt(line, at + 2)
      parts.push(String(this.#widthOf(this.expand(name, false, depth + 1))))
      return end
    }
    if (!isCopied && (letter === 'V' || letter === 'g')) return nameAt(line, at + 2).end
    if (!isCopied && (letter === 'A' || letter === 'B')) return this.#test(line, at, parts, depth)
    const kept = isCopied && (letter === '\\' || letter === '.') ? letter : line.slice(at, at + 2)
    parts.push(kept)
    return at + 2
  }

  #test(line: string, at: number, parts: string[], depth: number): number {
    const { name, end } = delimitedAt(line, at + 2)
    const value = this.expand(name, false, depth + 1)
    const number = maybeNumber(value, 'u')
    const isGood = line[at + 1] === 'A' ? /^\S+$/u.test(value) : number?.end === value.length
    parts.push(isGood ? '1' : '0')
    return end
  }

  #string(line: string, at: number, parts: string[], depth: number): number {
    const found = nameAt(line, at)
    const [name, ...args] = found.name.split(' ')
    const value = this.strings.get(name ?? '')
    if (value === undefined) return found.end
    this.#budget.checkDepth((depth + 1) * 4)
    const filled =
      args.length === 0 ? value : value.replace(/\\\$(\d)/gu, (_, i) => args[Number(i) - 1] ?? '')
    parts.push(this.expand(filled.replace(/\n$/u, ''), false, depth + 1))
    return found.end
  }

  #number(line: string, at: number, parts: string[]): number {
    const sign = line[at] === '+' || line[at] === '-' ? line[at] : ''
    const { name, end } = nameAt(line, at + sign.length)
    if (sign !== '') {
      const by = this.#steps.get(name) ?? 0
      this.registers.set(name, this.register(name) + (sign === '+' ? by : -by))
    }
    parts.push(String(this.register(name)))
    return end
  }

  #argument(line: string, at: number, parts: string[]): number {
    const args = this.#input.args
    const { name, end } = nameAt(line, at)
    if (name === '*') parts.push(args.join(' '))
    else if (name === '@') parts.push(args.map((arg) => `"${arg.replaceAll('"', '""')}"`).join(' '))
    else if (name === '0') parts.push(this.#input.macroName)
    else parts.push(args[Number(name) - 1] ?? '')
    return end
  }
}

/** groff's own registers for a terminal: its version, 78 columns of 24 units, lines of 40 units. */
const builtIn: Readonly<Record<string, number>> = {
  '.g': 1,
  '.x': 1,
  '.y': 23,
  '.C': 0,
  '.H': 24,
  '.V': 40,
  '.v': 40,
  '.l': 78 * 24,
  '.ll': 78 * 24,
  '.lt': 78 * 24,
  LL: 78 * 24,
  LT: 78 * 24,
  '.i': 7 * 24,
  IN: 7 * 24,
  SN: 3 * 24,
  '.in': 7 * 24,
  '.o': 0,
  '.p': 11 * 240,
  '.t': 10 * 240,
  '.s': 10,
  '.ps': 10,
  '.f': 1,
  '.fn': 1,
  '.u': 1,
  '.j': 0,
  '.k': 0,
  '.nl': 0,
  nl: 0,
  '%': 1,
  '.hy': 0,
  '.R': 10000,
  '.z': 0,
}
