import { describe, expect, it } from 'vitest'
import { findActs, type FoundAct } from '../../../../renderer/find/acts.ts'
import {
  countsOf,
  rowsOf,
  SHOWN_AT_FIRST,
  toGroups,
  type FoundParts,
} from '../../../../renderer/find/groups.ts'
import type { OfferedAct } from '../../../../renderer/store/offers.ts'
import type { FoundAnswer, FoundCommands } from '../../../../renderer/workers/found.ts'
import type { FoundThing } from '../../../../shared/find/document.ts'

const answerOf = (
  things: readonly FoundThing[],
  counts: readonly (readonly [FoundThing, number])[],
  respelt: readonly string[] = [],
): FoundAnswer =>
  ({
    hits: things.map((thing, at) => ({ id: `${thing} ${at}`, thing })),
    counts,
    taken: { words: [{ form: 'x', stem: null, isBeginning: false, respelt }], phrases: [] },
  }) as unknown as FoundAnswer
const commandsOf = (...starts: readonly number[]): FoundCommands =>
  ({
    count: starts.length,
    isWhole: true,
    commands: starts.map((start, at) => ({ command: `c${at}`, marks: [{ start, end: start + 1 }] })),
  }) as unknown as FoundCommands
const act = (id: string, word: string, hint = ''): OfferedAct => ({
  id,
  about: 'Journal',
  item: { id, word, hint, onChoose: () => undefined },
})
const called = (isCalledSo: boolean): FoundAct[] => [{ act: act('seal', 'The seal…'), isCalledSo }]
const parts = (given: Partial<FoundParts>): FoundParts => ({
  ...{ answer: null, commands: null, acts: [], completions: [], answers: [], order: 'best', narrow: null },
  ...given,
})
const names = (given: Partial<FoundParts>): string[] => toGroups(parts(given)).map(({ name }) => name)

describe('the groups of what was found', () => {
  const answer = answerOf(
    ['step', 'entry', 'step'],
    [
      ['entry', 1],
      ['step', 30],
    ],
  )

  it('come by their best hit, with their own hits best first', () => {
    expect(names({ answer })).toEqual(['step', 'entry'])
    expect(rowsOf(toGroups(parts({ answer }))).map(({ key }) => key)).toEqual([
      'hit step 0',
      'hit step 2',
      'more step',
      'hit entry 1',
    ])
  })

  it('say how many there are more, and show a few beside others and all alone', () => {
    const many = answerOf(Array<FoundThing>(9).fill('entry'), [['entry', 12]])
    const [group] = toGroups(parts({ answer: many }))
    expect(group!.rows).toHaveLength(SHOWN_AT_FIRST + 1)
    expect(group!.rows.at(-1)).toMatchObject({ is: 'more', of: 'entry', count: 12 - SHOWN_AT_FIRST })
    expect(toGroups(parts({ answer: many, narrow: 'entry' }))[0]!.rows).toHaveLength(10)
    expect(toGroups(parts({ answer: many, narrow: 'step' }))).toEqual([])
  })

  it('begin with commands that begin so, and with an act where no text holds its name', () => {
    expect(names({ answer, commands: commandsOf(0) })).toEqual(['command', 'step', 'entry'])
    expect(names({ answer, commands: commandsOf(3) })).toEqual(['step', 'entry', 'command'])
    expect(names({ answer, acts: called(true) })).toEqual(['step', 'act', 'entry'])
    expect(names({ answer, acts: called(false) })).toEqual(['step', 'entry', 'act'])
    expect(names({ answer: answerOf(['entry'], [['entry', 1]], ['real']), acts: called(true) })).toEqual([
      'act',
      'entry',
    ])
    expect(names({ acts: called(false) })).toEqual(['act'])
  })

  it('are one in the order of time', () => {
    expect(names({ answer, order: 'oldest' })).toEqual(['all'])
    const [group] = toGroups(parts({ answer, order: 'newest' }))
    expect(group!.count).toBe(31)
    expect(group!.rows.map(({ key }) => key)).toEqual(['hit step 0', 'hit entry 1', 'hit step 2', 'more all'])
  })

  it('are counted whether they are shown or not', () => {
    const counts = countsOf({ answer, commands: commandsOf(0, 2), acts: called(true) })
    expect([...counts]).toEqual([
      ['entry', 1],
      ['command', 2],
      ['step', 30],
      ['act', 1],
    ])
  })
})

describe('acts of the program', () => {
  const acts = [
    act('coverage', 'What is missing…', 'Alt+G'),
    act('seal', 'The seal…'),
    act('map', 'Map of the project'),
  ]
  const found = (words: string) =>
    findActs(acts, words).map(({ act: { id }, isCalledSo }) => [id, isCalledSo])

  it('are found by half a word of their name, and by other names that people know them by', () => {
    expect(found('seal')).toEqual([['seal', true]])
    expect(found('cover')).toEqual([['coverage', true]])
    expect(found('what is mis')).toEqual([['coverage', true]])
    expect(found('project map')).toEqual([['map', false]])
    expect(found('seal map')).toEqual([])
    expect(found('  ')).toEqual([])
  })
})
