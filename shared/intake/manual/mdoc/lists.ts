/** Lists and displays of mdoc(7). */
import type { Call } from '../roff/machine.ts'
import type { Run } from '../roff/style.ts'
import { ColumnTable } from './columns.ts'
import { callAll } from './inline.ts'
import { emit, newLine, wordsFor } from './emit.ts'
import type { OpenList, State } from './page-state.ts'

const listTypes = [
  'bullet',
  'dash',
  'hyphen',
  'item',
  'enum',
  'tag',
  'hang',
  'ohang',
  'inset',
  'diag',
  'column',
]

export function beginList(state: State, { args }: Call): void {
  const given = args.map(({ value }) => value.replace(/^-/u, ''))
  const type = listTypes.find((one) => given.includes(one)) ?? 'item'
  state.machine.flow.nest()
  state.lists.push({ type, count: 0, table: type === 'column' ? new ColumnTable() : null })
}

export function endList(state: State): void {
  const list = state.lists.pop()
  if (!list) return
  const table = list.table?.toTable()
  state.machine.flow.dedent()
  if (table) state.machine.flow.block(table)
  state.machine.flow.resume()
}

/** One item: its mark, its number, or its head with all macros in it. */
export function beginItem(state: State, call: Call): void {
  const list = state.lists.at(-1)
  if (!list) return
  list.count += 1
  state.isTight = false
  const { flow } = state.machine
  if (list.table) return beginRow(state, call, list.table)
  if (list.type === 'item') return flow.paragraph()
  const mark = markOf(list)
  if (mark !== undefined) return flow.item([{ text: mark, font: 'R' }])
  const opened = call.args.filter(({ value, isQuoted }) => value === 'Xo' && !isQuoted).length
  const closed = call.args.filter(({ value, isQuoted }) => value === 'Xc' && !isQuoted).length
  const line = newLine(state)
  if (list.type === 'diag') for (const { value } of call.args) line.put(bold(state, value))
  else callAll(wordsFor(state, line, call.args), 0)
  if (opened > closed) {
    state.head = { runs: line.runs, depth: opened - closed }
    state.isTight = line.joinsNext
  } else flow.item(line.runs)
}

function bold({ machine }: State, word: string): Run[] {
  machine.style.set('B')
  const runs = machine.runsOf(word)
  machine.style.reset()
  return runs
}

function markOf({ type, count }: OpenList): string | undefined {
  if (type === 'enum') return `${count}.`
  return type === 'bullet' || type === 'dash' || type === 'hyphen' ? '•' : undefined
}

/** `.It one Ta two`: the cells of a row; tabs part them too. */
function beginRow(state: State, call: Call, table: ColumnTable): void {
  table.row()
  let from = 0
  call.args.forEach(({ value, isQuoted }, i) => {
    if (value !== 'Ta' || isQuoted) return
    putCell(state, call, from, i)
    table.cell()
    from = i + 1
  })
  putCell(state, call, from, call.args.length)
}

function putCell(state: State, call: Call, from: number, end: number): void {
  const line = newLine(state)
  callAll({ ...wordsFor(state, line, call.args), end }, from)
  emit(state, line)
}

/** `.Bd -literal`: lines as they stand; other displays are paragraphs. */
export function beginDisplay(state: State, { args }: Call): void {
  const { flow } = state.machine
  const isLiteral = args.some(({ value }) => value === '-literal' || value === '-unfilled')
  flow.space()
  state.displays.push(flow.isFilled)
  if (isLiteral) flow.setFill(false)
}

export function endDisplay(state: State): void {
  const wasFilled = state.displays.pop()
  state.machine.style.reset()
  if (wasFilled !== undefined) state.machine.flow.setFill(wasFilled)
  state.machine.flow.space()
}
