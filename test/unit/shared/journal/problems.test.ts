import { describe, expect, it } from 'vitest'
import { problemsOf, wordsOfDuration, wordsOfOpen } from '../../../../shared/journal/problems.ts'
import { addEntry, addProject, answerProblem } from '../../../../shared/lab/acts.ts'
import type { Entry, Link } from '../../../../shared/lab/model.ts'
import { toMoment, type Moment } from '../../../../shared/lab/moment.ts'
import { repeatableSurroundings } from '../../support/lab.ts'

const around = repeatableSurroundings(3)
const { project } = addProject(around, { title: 'Mast', aim: '', status: 'under way' })
const at = (minute: number): Moment => toMoment(Date.UTC(2026, 2, 3, 1, minute), 60)
const entry = (kind: Entry['kind'], minute: number): Entry =>
  addEntry(around, { project: project.id, kind, text: 'x', happened: at(minute) }).entry
const answer = (newer: Entry, older: Entry): Link => {
  const [operation] = answerProblem(around, newer.id, older.id, 'button').operations
  return (operation as { record: Link }).record
}
const read = (entries: readonly Entry[], links: readonly Link[], withdrawn: readonly Entry[] = []) =>
  problemsOf({
    entries: new Map(entries.map((one) => [one.id, one])),
    withdrawn: new Set(withdrawn.map(({ id }) => id)),
    marks: new Map(),
    links,
  })

describe('problems', () => {
  it('end with the last fix or decision that answers them, and take the time until then', () => {
    const [problem, first, second] = [entry('problem', 0), entry('fix', 30), entry('decision', 72)]
    const [one] = read([second, problem, first], [answer(second, problem), answer(first, problem)])
    expect(one!.answers.map(({ entry: { id } }) => id)).toEqual([first.id, second.id])
    expect(one!.ended?.entry).toEqual(second)
    expect(wordsOfDuration(one!.took!)).toBe('1 h 12 min')
  })

  it('are open again when their fix is withdrawn, and no problem any more when they are', () => {
    const [problem, fix] = [entry('problem', 0), entry('fix', 5)]
    const links = [answer(fix, problem)]
    expect(read([problem, fix], links)[0]!.ended?.entry).toEqual(fix)
    expect(read([problem, fix], links, [fix])[0]!.ended).toBeNull()
    expect(read([problem, fix], links, [problem])).toEqual([])
  })

  it('are not ended by an observation, and take no time that runs backwards', () => {
    const [problem, seen, fix] = [entry('problem', 10), entry('observation', 12), entry('fix', 4)]
    expect(read([problem, seen], [answer(seen, problem)])[0]!.ended).toBeNull()
    expect(read([problem, fix], [answer(fix, problem)])[0]!.took).toBeNull()
  })

  it('are counted with the age of the oldest', () => {
    const problems = [entry('problem', 0), entry('problem', 20)]
    expect(wordsOfOpen(read(problems, []), at(72))).toBe('2 open problems, 1 h 12 min')
    expect(wordsOfOpen(read(problems.slice(0, 1), []), at(0))).toBe('1 open problem, under 1 min')
    expect(wordsOfOpen([], at(0))).toBeNull()
  })
})
