/** The macros of mdoc(7) that begin a line. */
import { tableMacros } from '../roff/table.ts'
import type { Call, Machine, Macro } from '../roff/machine.ts'
import { emit, emitRuns, newLine, wordsFor } from './emit.ts'
import { enclosures } from './enclosures.ts'
import { beginsLine, callable, callAll, callOne } from './inline.ts'
import { beginDisplay, beginItem, beginList, endDisplay, endList } from './lists.ts'
import { newState, type State } from './page-state.ts'
import { addField, referenceRuns } from './references.ts'

export interface MdocHead {
  title: string
  section: string
  date: string
}

export interface Mdoc {
  readonly macros: ReadonlyMap<string, Macro>
  readonly state: State
  readonly head: MdocHead
}

const words = ({ args }: Call): string[] => args.map(({ value }) => value)

/** A line that begins with a macro which other lines may call too. */
function lineOf(state: State, name: string, call: Call): void {
  const line = newLine(state)
  const all = wordsFor(state, line, call.args)
  if (beginsLine(state, name) && !state.head) breakBefore(state)
  state.isAuthorLine = name === 'An'
  if (name === 'An' && state.section.startsWith('AUTHOR')) state.machine.flow.lineBreak()
  const at = callOne(all, name, 0)
  callAll(all, at)
  emit(state, line)
  if (state.head) closeHead(state, [name, ...words(call)])
}

function breakBefore(state: State): void {
  state.machine.flow.lineBreak()
  state.isTight = false
}

/** `.It Xo` goes on to the `.Xc` that belongs to it. */
function closeHead(state: State, names: readonly string[]): void {
  const { head } = state
  if (!head) return
  for (const name of names) head.depth += name === 'Xo' ? 1 : name === 'Xc' ? -1 : 0
  if (head.depth > 0) return
  state.head = null
  state.machine.flow.item(head.runs)
}

const heading =
  (depth: 2 | 3) =>
  (state: State, call: Call): void => {
    while (state.displays.length > 0) endDisplay(state)
    state.lists.length = 0
    state.head = null
    state.isTight = false
    state.machine.flow.setFill(true)
    state.machine.style.reset()
    if (depth === 2) state.section = words(call).join(' ').toUpperCase()
    const line = newLine(state)
    callAll(wordsFor(state, line, call.args), 0)
    state.machine.flow.heading(depth, line.runs)
  }

function plainLine(state: State, text: string): void {
  const runs = state.machine.runsOf(text)
  emitRuns(state, runs, state.isTight)
  state.isTight = false
}

function exits(state: State, call: Call): void {
  const names = words(call).filter((word) => word !== '-std')
  const all = names.length === 0 ? [state.name] : names
  const bold = all.map((name) => `\\fB${name}\\fR`)
  const listed = bold.length < 3 ? bold.join(' and ') : `${bold.slice(0, -1).join(', ')}, and ${bold.at(-1)}`
  const noun = all.length === 1 ? 'utility exits' : 'utilities exit'
  plainLine(state, `The ${listed} ${noun}\\~0 on success, and\\~>0 if an error occurs.`)
}

const otherwise =
  'otherwise the value\\~-1 is returned and the global variable \\fIerrno\\fR is set to indicate the error.'

function returns(state: State, call: Call): void {
  const all = words(call)
    .filter((word) => word !== '-std')
    .map((name) => `\\fB${name}\\fR()`)
  const listed = all.length < 3 ? all.join(' and ') : `${all.slice(0, -1).join(', ')}, and ${all.at(-1)}`
  const verb = all.length === 1 ? 'function returns' : 'functions return'
  const done =
    all.length === 0
      ? 'Upon successful completion, the value\\~0 is returned;'
      : `The ${listed} ${verb} the value\\~0 if successful;`
  plainLine(state, `${done} ${otherwise}`)
}

function beginReference(state: State): void {
  state.fields = new Map()
  if (state.section === 'SEE ALSO') state.machine.flow.space()
}

function endReference(state: State): void {
  const fields = state.fields
  state.fields = null
  if (fields) emitRuns(state, referenceRuns(state, fields), false)
}

/** A field of a reference; outside of one it is a title or a name within the text. */
function field(state: State, name: string, call: Call): void {
  const all = words(call)
    .join(' ')
    .replace(/ (?=[,.]$)/u, '')
  if (state.fields) addField(state, name, all)
  else plainLine(state, 'BITJ'.includes(name) ? `\\fI${all}\\fR` : all)
}

function oneLine(state: State, call: Call, isLiteral: boolean): void {
  const { flow } = state.machine
  const wasFilled = flow.isFilled
  flow.space()
  if (isLiteral) flow.setFill(false)
  const line = newLine(state)
  callAll(wordsFor(state, line, call.args), 0)
  emit(state, line)
  flow.setFill(wasFilled)
  flow.space()
}

type Block = (state: State, call: Call) => void

const blocks = (head: MdocHead): [string, Block][] => [
  ['Dd', (_, call) => void (head.date = words(call).join(' '))],
  ['Dt', (_, call) => void ([head.title = '', head.section = ''] = words(call))],
  ['Os', () => {}],
  ['Sh', heading(2)],
  ['Ss', heading(3)],
  ['Pp', (state) => state.machine.flow.space()],
  ['Lp', (state) => state.machine.flow.space()],
  ['Bl', beginList],
  ['El', endList],
  ['It', beginItem],
  ['Bd', beginDisplay],
  ['Ed', endDisplay],
  ['D1', (state, call) => oneLine(state, call, false)],
  ['Dl', (state, call) => oneLine(state, call, true)],
  ['Rs', beginReference],
  ['Re', endReference],
  ['Ex', exits],
  ['Rv', returns],
  ['Bt', (state) => plainLine(state, 'is currently in beta test.')],
  ['Ud', (state) => plainLine(state, 'currently under development.')],
  ['Sm', (state, call) => spacing(state, call)],
  ['Bk', () => {}],
  ['Ek', () => {}],
  ['Bf', () => {}],
  ['Ef', () => {}],
  ['Ta', (state, call) => nextCell(state, call)],
  ...[...'ATBIJRNVUPQCDO'].map((name): [string, Block] => [
    `%${name}`,
    (state, call) => field(state, name, call),
  ]),
]

function spacing(state: State, call: Call): void {
  const mode = words(call)[0]
  state.isSpaced = mode === undefined ? !state.isSpaced : mode === 'on'
  state.isTight = false
}

function nextCell(state: State, call: Call): void {
  state.lists.at(-1)?.table?.cell()
  const line = newLine(state)
  callAll(wordsFor(state, line, call.args), 0)
  emit(state, line)
}

/** Strings that a page may use (mdoc(7), "Predefined strings"). */
const strings: readonly [string, string][] = [
  ['Am', '&'],
  ['Ba', '|'],
  ['Ge', '\\[>=]'],
  ['Gt', '>'],
  ['If', '\\[if]'],
  ['Le', '\\[<=]'],
  ['Lq', '\\[lq]'],
  ['Lt', '<'],
  ['Na', 'NaN'],
  ['Ne', '\\[!=]'],
  ['Pi', '\\[*p]'],
  ['Pm', '\\[+-]'],
  ['Rq', '\\[rq]'],
  ['aa', '\\[aa]'],
  ['ga', '\\[ga]'],
  ['q', '\\[dq]'],
]

/** The macros of one page, and what they find. */
export function mdocFor(machine: Machine): Mdoc {
  const state = newState(machine)
  const head: MdocHead = { title: '', section: '', date: '' }
  const macros = new Map<string, Macro>()
  for (const [name, value] of strings) machine.names.strings.set(name, value)
  for (const name of [...callable.keys(), ...enclosures.keys()])
    macros.set(name, (_, call) => lineOf(state, name, call))
  for (const [name, block] of blocks(head)) macros.set(name, (_, call) => block(state, call))
  for (const [name, macro] of tableMacros) macros.set(name, macro)
  machine.onText = (text) => takeText(state, text)
  return { macros, state, head }
}

/** Text lines go where macro lines go. */
function takeText(state: State, text: string): boolean {
  const table = state.lists.at(-1)?.table
  if (!state.head && !table) {
    if (state.isTight) state.machine.flow.join()
    state.isTight = false
    return false
  }
  plainLine(state, text)
  return true
}
