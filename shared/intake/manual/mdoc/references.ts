/** Bibliographic references, between `.Rs` and `.Re` (mdoc(7)). */
import { addText, type Font, type Run } from '../roff/style.ts'
import type { State } from './page-state.ts'

/** The order in which fields are read, with the font of each. */
const fields: readonly (readonly [string, Font])[] = [
  ['A', 'R'],
  ['T', 'R'],
  ['B', 'I'],
  ['I', 'I'],
  ['J', 'I'],
  ['R', 'R'],
  ['N', 'R'],
  ['V', 'R'],
  ['U', 'R'],
  ['P', 'R'],
  ['Q', 'R'],
  ['C', 'R'],
  ['D', 'R'],
  ['O', 'R'],
]

export function addField(state: State, name: string, words: string): void {
  const found = state.fields?.get(name)
  if (found) found.push(words)
  else state.fields?.set(name, [words])
}

/** All fields in one sentence. */
export function referenceRuns(state: State, found: ReadonlyMap<string, readonly string[]>): Run[] {
  const runs: Run[] = []
  for (const [name, font] of fields) {
    const values = found.get(name)
    if (!values) continue
    if (runs.length > 0) addText(runs, ', ', 'R')
    const isQuoted = name === 'T' && (found.has('J') || found.has('B'))
    const words = name === 'A' ? listed(values) : values.join(', ')
    state.machine.style.set(name === 'T' && !isQuoted ? 'I' : font)
    const own = state.machine.runsOf(isQuoted ? `\\[lq]${words}\\[rq]` : words)
    state.machine.style.reset()
    for (const run of own) addText(runs, run.text, run.font)
  }
  if (runs.length > 0) addText(runs, '.', 'R')
  return runs
}

function listed(names: readonly string[]): string {
  if (names.length < 3) return names.join(' and ')
  return `${names.slice(0, -1).join(', ')}, and ${names.at(-1)}`
}
