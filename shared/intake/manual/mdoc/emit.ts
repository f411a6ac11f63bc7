/** Where a finished line goes: to the page, to an item's head, or to a table's cell. */
import type { MarkedArg } from '../roff/escape.ts'
import { addText, type Run } from '../roff/style.ts'
import type { Words } from './words.ts'
import { Line } from './line.ts'
import type { State } from './page-state.ts'

export const newLine = (state: State): Line => new Line(state.isSpaced, state.isTight)

export const wordsFor = (state: State, line: Line, args: readonly MarkedArg[]): Words => ({
  state,
  line,
  args,
  end: args.length,
  depth: 0,
})

export function emit(state: State, line: Line): void {
  emitRuns(state, line.runs, line.joinsBefore)
  state.isTight = line.joinsNext
}

export function emitRuns(state: State, runs: readonly Run[], joinsBefore: boolean): void {
  if (runs.length === 0) return
  const table = state.lists.at(-1)?.table
  if (state.head) {
    if (state.head.runs.length > 0 && !joinsBefore) addText(state.head.runs, ' ', 'R')
    for (const { text, font } of runs) addText(state.head.runs, text, font)
  } else if (table) table.add(runs, joinsBefore)
  else {
    if (joinsBefore) state.machine.flow.join()
    state.machine.flow.text(runs)
  }
}
