/** Rows of a procedure: numbers, moves and places, beside naive versions of the same. */
import fc from 'fast-check'
import { generateNKeysBetween } from 'fractional-indexing'
import { expect, test } from 'vitest'
import { compareSteps, moveSteps, rowsUnder } from '../../../../../shared/lab/acts.ts'
import type { ProcedureId, StepId } from '../../../../../shared/lab/ids.ts'
import { stepLevels, type Place, type Step, type StepLevel } from '../../../../../shared/lab/model.ts'
import { countSteps, numberOf, rowNumbers } from '../../../../../shared/procedure/rows/numbers.ts'
import {
  chosenRows,
  landingBehind,
  levelBehind,
  moveOf,
  moveOfRows,
  neighbourBehind,
  neighbourOfRows,
} from '../../../../../shared/procedure/rows/order.ts'
import { nameOfPlace, placesIn } from '../../../../../shared/distil/landing.ts'
import { stepLinksIn, withPresentNumbers } from '../../../../../shared/procedure/rows/step-links.ts'
import { placeInWords, rowPlaces } from '../../../../../shared/procedure/rows/places.ts'
import { repeatableSurroundings } from '../../../support/lab.ts'

const procedure = 'p' as ProcedureId

function rowsOf(levels: readonly StepLevel[], places: readonly (Place | null)[] = []): Step[] {
  const positions = generateNKeysBetween(null, null, levels.length)
  return levels.map((level, i) => ({
    id: `s${i}` as StepId,
    procedure,
    position: positions[i]!,
    level,
    place: places[i] ?? null,
    pointOfNoReturn: false,
  }))
}

const levels = fc.array(fc.constantFrom(...stepLevels), { minLength: 1, maxLength: 40 })

test('steps are numbered through all sections, sub-steps within their step', () => {
  const rows = rowsOf(['step', 'section', 'step', 'sub-step', 'sub-step', 'section', 'step', 'sub-step'])
  expect([...rowNumbers(rows).values()]).toEqual(['1', '', '2', '2.1', '2.2', '', '3', '3.1'])
  expect(numberOf(rows, rows[4]!.id)).toBe('2.2')
  expect(countSteps(rows)).toBe(3)
})

test('a sub-step under no step counts as a step', () => {
  expect([...rowNumbers(rowsOf(['sub-step', 'sub-step', 'section', 'sub-step'])).values()]).toEqual([
    '1',
    '1.1',
    '',
    '2',
  ])
})

test('numbers grow from row to row and no two are alike', () => {
  fc.assert(
    fc.property(levels, (list) => {
      const numbers = [...rowNumbers(rowsOf(list)).values()].filter((number) => number !== '')
      const keys = numbers.map((number) => number.split('.').map(Number))
      expect(new Set(numbers).size).toBe(numbers.length)
      for (let i = 1; i < keys.length; i++) {
        const [a, b] = [keys[i - 1]!, keys[i]!]
        expect(
          b[0]! > a[0]! ? b[0]! - a[0]! === 1 && b[1] === undefined : (b[1] ?? 0) === (a[1] ?? 0) + 1,
        ).toBe(true)
      }
    }),
  )
})

/** The order after a move, worked out on the list alone. */
function moved(rows: readonly Step[], step: Step, after: Step | null): StepId[] {
  const order = [...rows].sort(compareSteps)
  const move = moveOf(order, step, after)
  if (!move) return order.map(({ id }) => id)
  const ids = new Set(move.rows.map(({ id }) => id))
  const staying = order.filter(({ id }) => !ids.has(id))
  const at = move.after ? staying.findIndex(({ id }) => id === move.after!.id) + 1 : 0
  return [...staying.slice(0, at), ...move.rows, ...staying.slice(at)].map(({ id }) => id)
}

function applied(rows: readonly Step[], step: Step, after: Step | null): Step[] {
  const move = moveOf(rows, step, after)
  const change =
    move && moveSteps(repeatableSurroundings(), rows, new Set(move.rows.map(({ id }) => id)), move.after)
  if (!change) return [...rows].sort(compareSteps)
  const next = new Map(rows.map((row) => [row.id, row]))
  for (const one of change.operations)
    if (one.op === 'put' && one.table === 'steps') next.set(one.record.id, one.record)
  return [...next.values()].sort(compareSteps)
}

test('a row moves with all under it, by one Change, and never tears a step from its sub-steps', () => {
  fc.assert(
    fc.property(levels, fc.nat(), fc.nat(), (list, from, to) => {
      const rows = rowsOf(list)
      const step = rows[from % rows.length]!
      const after = to % (rows.length + 1) === rows.length ? null : rows[to % (rows.length + 1)]!
      const next = applied(rows, step, after)
      expect(next.map(({ id }) => id)).toEqual(moved(rows, step, after))
      if (step.level === 'sub-step') return
      // Whoever did not move keeps the step that it is under, unless what moved is that step.
      const headOf = (order: readonly Step[], row: Step): StepId | undefined => {
        const at = order.findIndex(({ id }) => id === row.id)
        return order
          .slice(0, at)
          .filter(({ level }) => level === 'step')
          .at(-1)?.id
      }
      for (const row of rows) {
        const isUnderStep = rows.some(
          (one) => one.level === 'step' && rowsUnder(rows, one).some(({ id }) => id === row.id),
        )
        if (row.level === 'sub-step' && isUnderStep) expect(headOf(next, row)).toBe(headOf(rows, row))
      }
    }),
  )
})

test('up and then down again leads back where a row went over a whole neighbour of its kind', () => {
  const rows = rowsOf(['step', 'sub-step', 'step', 'sub-step', 'sub-step', 'step'])
  const up = neighbourBehind(rows, rows[2]!, -1)
  expect(up).toBeNull()
  const next = applied(rows, rows[2]!, null)
  expect(next.map(({ id }) => id)).toEqual(['s2', 's3', 's4', 's0', 's1', 's5'])
  const down = neighbourBehind(next, next[0]!, 1)!
  expect(applied(next, next[0]!, down).map(({ id }) => id)).toEqual(rows.map(({ id }) => id))
})

test('every way up and down keeps all rows and stops at the ends', () => {
  fc.assert(
    fc.property(levels, fc.nat(), fc.constantFrom(-1 as const, 1 as const), (list, from, by) => {
      const rows = rowsOf(list)
      const step = rows[from % rows.length]!
      const after = neighbourBehind(rows, step, by)
      if (after === undefined) return
      const next = applied(rows, step, after)
      const at = (order: readonly Step[]) => order.findIndex(({ id }) => id === step.id)
      expect(new Set(next)).toHaveLength(rows.length)
      if (by === -1) expect(at(next)).toBeLessThan(at(rows))
      else expect(at(next)).toBeGreaterThan(at(rows))
    }),
  )
})

test('a new row among sub-steps is one of them, and a step comes behind them', () => {
  const rows = rowsOf(['step', 'sub-step', 'sub-step', 'step'])
  expect(levelBehind(rows, rows[0]!.id)).toBe('sub-step')
  expect(levelBehind(rows, rows[2]!.id)).toBe('step')
  expect(landingBehind(rows, rows[0]!, 'step')).toBe(rows[2])
  expect(landingBehind(rows, rows[0]!, 'sub-step')).toBe(rows[0])
})

test('fifty steps of a section are put elsewhere by one Change', () => {
  const rows = rowsOf([
    'step',
    'section',
    ...Array.from({ length: 50 }, () => 'step' as const),
    'section',
    'step',
  ])
  const move = moveOf(rows, rows[1]!, null)!
  expect(move.rows).toHaveLength(51)
  expect(
    applied(rows, rows[1]!, null)
      .slice(0, 2)
      .map(({ id }) => id),
  ).toEqual(['s1', 's2'])
})

const place = (fields: Partial<Place>): Place => ({
  machine: null,
  host: null,
  user: null,
  directory: null,
  ...fields,
})

test('a place holds until another is said, and shows where it changes alone', () => {
  const said = [null, place({ directory: '/var' }), null, place({ host: 'gate', user: 'ops' })]
  const rows = rowsOf(['step', 'step', 'step', 'step'], said)
  const start = place({ host: 'logger', user: 'root', directory: '/etc' })
  const places = [...rowPlaces({ place: start }, rows).values()]
  expect(places.map(({ isChanged }) => isChanged)).toEqual([true, true, false, true])
  expect(places.map((one) => placeInWords(one.place!, []))).toEqual([
    'on logger, as root, in /etc',
    'on logger, as root, in /var',
    'on logger, as root, in /var',
    'on gate, as ops',
  ])
  expect([...rowPlaces({ place: null }, rowsOf(['step'])).values()]).toEqual([
    { place: null, isChanged: false },
  ])
})

const [one, other] = ['0190a2b4-7c3e-7000-8000-000000000001', '0190a2b4-7c3e-7000-8000-000000000002']

test('references to steps are found in words, never in code, and read as present numbers', () => {
  const text = `See [step 4](step:${one}) and \`[step 4](step:${one})\`, not [this](https://x.example.org) or [that](step:nothing).`
  expect(stepLinksIn(text)).toMatchObject([{ step: one, words: 'step 4', start: 4 }])
  expect(withPresentNumbers(text, new Map([[one, '2.1']]))).toBe(
    `See step 2.1 and \`[step 4](step:${one})\`, not [this](https://x.example.org) or [that](step:nothing).`,
  )
})

test('a reference to a step that is gone says so, one to a section keeps its words', () => {
  const text = `[step 4](step:${one}), [the *disk*](step:${other})`
  expect(withPresentNumbers(text, new Map([[other, '']]))).toBe('step 4 (gone), the disk')
})

test('a place is named by the row that it comes behind, with its number', () => {
  const rows = rowsOf(['section', 'step', 'sub-step', 'section', 'step'])
  const names = placesIn(procedure, rows).map((place) =>
    nameOfPlace(place, { origin: { kind: 'source' }, fence: 'sh' }, rows),
  )
  expect(names).toEqual([
    'New step before 1: do',
    'New step before 1, first in its section: do',
    'Do of step 1',
    'New sub-step after 1: do',
    'Do of step 1.1',
    'New step after 1.1: do',
    'New step after 1.1, first in its section: do',
    'Do of step 2',
    'New step after 2: do',
    'Of the procedure itself: Purpose',
    'Of the procedure itself: Made for',
    'Of the procedure itself: Access',
    'Of the procedure itself: Parts and tools',
    'Of the procedure itself: Time',
    'Of the procedure itself: Back-up first',
    'Of the procedure itself: Closing checks',
    'Of the procedure itself: How to undo it all',
  ])
})

const anyTwo = fc.tuple(levels, fc.nat(39), fc.nat(39)).map(([list, a, b]) => {
  const rows = rowsOf(list)
  return { rows, from: rows[a % rows.length]!, to: rows[b % rows.length]! }
})
const idsOf = (rows: readonly Step[]): string[] => rows.map(({ id }) => id)

test('rows that are chosen stand together, hold both ends and all that goes with each, and are the same from either end', () => {
  fc.assert(
    fc.property(anyTwo, ({ rows, from, to }) => {
      const chosen = chosenRows(rows, from.id, to.id)
      const at = rows.indexOf(chosen[0]!)
      expect(chosen).toEqual(rows.slice(at, at + chosen.length))
      expect(idsOf(chosen)).toEqual(expect.arrayContaining([from.id, to.id]))
      for (const row of chosen)
        expect(idsOf(chosen)).toEqual(expect.arrayContaining(idsOf(rowsUnder(rows, row))))
      expect(chosenRows(rows, to.id, from.id)).toEqual(chosen)
    }),
  )
  expect(chosenRows(rowsOf(['step']), 's0' as StepId, 'gone' as StepId)).toEqual([])
})

test('one row that is chosen goes where it would go by itself', () => {
  fc.assert(
    fc.property(anyTwo, fc.constantFrom(-1 as const, 1 as const), ({ rows, from, to }, by) => {
      const own = chosenRows(rows, from.id, from.id)
      expect(own).toEqual(rowsUnder(rows, from))
      expect(neighbourOfRows(rows, own, by)?.id).toBe(neighbourBehind(rows, from, by)?.id)
      expect(moveOfRows(rows, own, to)).toEqual(moveOf(rows, from, to))
    }),
  )
})

test('chosen rows move in their order, the others keep theirs, and no sub-step of another step is parted from it', () => {
  const around = repeatableSurroundings()
  fc.assert(
    fc.property(anyTwo, fc.constantFrom(-1 as const, 1 as const), ({ rows, from, to }, by) => {
      const chosen = chosenRows(rows, from.id, to.id)
      const after = neighbourOfRows(rows, chosen, by)
      fc.pre(after !== undefined)
      const moving = new Set(chosen.map(({ id }) => id))
      const change = moveSteps(around, rows, moving, moveOfRows(rows, chosen, after)?.after ?? after)
      fc.pre(change !== null)
      const moved = new Map(
        change.operations.flatMap((one) =>
          one.op === 'put' && one.table === 'steps' ? [[one.record.id, one.record] as const] : [],
        ),
      )
      const next = rows.map((row) => moved.get(row.id) ?? row).sort(compareSteps)
      expect(idsOf(next.filter(({ id }) => moving.has(id)))).toEqual(idsOf(chosen))
      expect(idsOf(next.filter(({ id }) => !moving.has(id)))).toEqual(
        idsOf(rows.filter(({ id }) => !moving.has(id))),
      )
      // One that stands under no step has nothing to be parted from.
      const headOf = (list: readonly Step[], row: Step): Step | undefined =>
        list
          .slice(
            0,
            list.findIndex(({ id }) => id === row.id),
          )
          .findLast(({ level }) => level !== 'sub-step')
      for (const row of rows) {
        const head = headOf(rows, row)
        if (row.level === 'sub-step' && head?.level === 'step' && !moving.has(row.id))
          expect(headOf(next, row)?.id).toBe(head.id)
      }
    }),
    { numRuns: 300 },
  )
})
