/** Requests that read lines before anything is put into them: definitions, conditions, loops. */
import { withoutComment } from './escape.ts'
import type { Machine, RawRequest } from './machine.ts'

const define =
  (isMore: boolean): RawRequest =>
  (machine, rest) => {
    const [name, end] = machine.expand(rest).trim().split(/\s+/u)
    const lines = bodyUntil(machine, end)
    if (name === undefined || name === '') return
    const before = isMore ? (machine.names.strings.get(name) ?? '') : ''
    const body = lines.map((line) => `${machine.names.expand(withoutComment(line), true)}\n`).join('')
    machine.names.setString(name, before + body)
  }

/** The lines up to `..`, or to a call of the macro that was named as the end. */
function bodyUntil(machine: Machine, end: string | undefined): string[] {
  const lines: string[] = []
  const isEnd = (line: string): boolean =>
    end === undefined || end === '' ? /^[.'][ \t]*\.(?:\s|\\"|$)/u.test(line) : endName(line) === end
  for (let line = machine.input.nextRaw(); line !== undefined; line = machine.input.nextRaw()) {
    if (isEnd(line)) return lines
    lines.push(line)
  }
  return lines
}

const endName = (line: string): string | undefined => /^[.'][ \t]*(\S+)/u.exec(line)?.[1]

/** What a condition commands: one line, or the lines of a block. */
function bodyAfter(machine: Machine, rest: string): string[] {
  const words = rest.replace(/^[ \t]+/u, '')
  if (!words.startsWith('\\{')) return words === '' ? [] : [words]
  let depth = 0
  const lines: string[] = []
  let line: string | undefined = words
  for (; line !== undefined; line = machine.input.nextRaw()) {
    const text: string = lines.length === 0 ? line : withoutComment(line)
    depth += count(text, '\\{') - count(text, '\\}')
    lines.push(line)
    if (depth <= 0) break
  }
  return withoutBraces(lines)
}

function count(line: string, mark: string): number {
  let found = 0
  for (let at = line.indexOf('\\'); at >= 0; at = line.indexOf('\\', at + 2))
    if (line.startsWith(mark, at)) found += 1
  return found
}

/** The outer braces go; lines that are continued behind them were one with the next line. */
function withoutBraces(lines: readonly string[]): string[] {
  const body = [...lines]
  body[0] = body[0]!.replace(/^\\\{[ \t]*/u, '')
  const last = body.length - 1
  body[last] = body[last]!.replace(/\\\}[^]*$/u, '')
  if (body[0] === '' || body[0] === '\\') body.shift()
  if (/^[.']?[ \t]*$/u.test(body.at(-1) ?? 'x')) body.pop()
  return body
}

/** Results of `.ie` that wait for their `.el`. */
const waiting = new WeakMap<Machine, boolean[]>()

const conditional =
  (waits: boolean): RawRequest =>
  (machine, rest) => {
    const { isTrue, rest: body } = machine.condition(expandCondition(machine, rest))
    if (waits) waitingOf(machine).push(isTrue)
    carryOut(machine, body, isTrue)
  }

/** Only the condition is read with its strings and registers put in: a block behind it is read line by line later. */
function expandCondition(machine: Machine, rest: string): string {
  const at = rest.indexOf('\\{')
  return at < 0 ? machine.expand(rest) : machine.expand(rest.slice(0, at)) + rest.slice(at)
}

function waitingOf(machine: Machine): boolean[] {
  const found = waiting.get(machine)
  if (found) return found
  const made: boolean[] = []
  waiting.set(machine, made)
  return made
}

function carryOut(machine: Machine, body: string, isTrue: boolean): void {
  const lines = bodyAfter(machine, body)
  if (!isTrue || lines.length === 0) return
  if (lines.length === 1) machine.read(lines[0]!)
  else machine.input.push(lines, null)
}

const otherwise: RawRequest = (machine, rest) => {
  const was = waitingOf(machine).pop() ?? true
  carryOut(machine, rest, !was)
}

const maxRounds = 10_000
/** Loops that are going on, innermost last; `.break` ends the last. */
const broken = new WeakSet<Machine>()

/** The body is read again and again, each time to its end, as long as the condition holds. */
const loop: RawRequest = (machine, rest) => {
  const at = rest.indexOf('\\{')
  const condition = machine.condition(expandCondition(machine, rest))
  const lines = bodyAfter(machine, at < 0 ? condition.rest : rest.slice(at))
  let isTrue = condition.isTrue
  for (let round = 0; isTrue && round < maxRounds && !broken.has(machine); round += 1) {
    const depth = machine.input.depth
    machine.input.push([...lines, endMark], null)
    for (
      let line = machine.input.next();
      line !== undefined && line !== endMark;
      line = machine.input.next()
    ) {
      machine.read(line)
      if (broken.has(machine) || machine.input.depth <= depth) break
    }
    machine.input.leaveTo(depth)
    isTrue = machine.condition(expandCondition(machine, rest)).isTrue
  }
  broken.delete(machine)
}
/** Ends one round; no line of a page is equal to it, since lines hold no line ends. */
const endMark = '\n'

export const rawRequests: ReadonlyMap<string, RawRequest> = new Map<string, RawRequest>([
  ['de', define(false)],
  ['de1', define(false)],
  ['dei', define(false)],
  ['am', define(true)],
  ['am1', define(true)],
  ['ig', (machine, rest) => void bodyUntil(machine, rest.trim() || undefined)],
  ['if', conditional(false)],
  ['ie', conditional(true)],
  ['el', otherwise],
  ['while', loop],
  ['break', (machine) => void broken.add(machine)],
])
