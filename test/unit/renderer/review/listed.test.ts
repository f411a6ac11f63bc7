import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  countByRule,
  countOpen,
  firstAt,
  groupByStep,
  keyAfter,
  listFindings,
  type Present,
} from '../../../../renderer/review/listed.ts'
import { excerptOf } from '../../../../renderer/review/excerpt.ts'
import type { PartId, SilenceId } from '../../../../shared/lab/ids.ts'
import { reviewProcedure, rules } from '../../../../shared/procedure/review/review.ts'
import type { ReviewedDocument } from '../../../../shared/procedure/review/types.ts'
import { reviewedDocument, reviewedPart, reviewedRow } from '../../../support/reviewed.ts'

const own = reviewedPart('closing checks', 'Check it properly.')
const first = reviewedPart('do', 'Wait long enough.\n\nWait long enough.', 1)
const second = reviewedPart('do', 'Close the lid properly.', 1)
const document = reviewedDocument({
  parts: [own],
  rows: [reviewedRow('1', { parts: [first] }), reviewedRow('2', { parts: [second] })],
})
const [one, two] = document.rows.map(({ id }) => id)
const silence = { id: 'a' as SilenceId, rule: 'vague words', step: two!, words: 'properly', reason: 'So.' }

function standing(of: ReviewedDocument, changes: Partial<Present> = {}): Present {
  const texts = new Map(
    [...of.parts, ...of.rows.flatMap(({ parts }) => parts)].map(({ id, text }) => [id, text]),
  )
  return { silences: [], textOf: (part) => texts.get(part), hasStep: () => true, ...changes }
}

const vague = (changes: Partial<Present> = {}) =>
  listFindings(
    document,
    reviewProcedure(document).filter(({ rule }) => rule === 'vague words'),
    standing(document, changes),
  )

describe('the list of findings', () => {
  it('has the procedure’s own first, then step by step, and tells equal words apart', () => {
    const { open, openAt } = vague()
    expect(groupByStep(open).map(({ step, findings }) => [step, findings.length])).toEqual([
      [null, 1],
      [one, 2],
      [two, 1],
    ])
    expect(new Set(open.map(({ key }) => key)).size).toBe(4)
    expect([...openAt]).toEqual([
      [own.id, 1],
      [one, 2],
      [two, 1],
    ])
  })

  it('counts nothing of a text that is another by now, and shows it as such', () => {
    const listed = vague({
      textOf: (part) => (part === second.id ? 'Close the lid.' : standing(document).textOf(part)),
    })
    expect(listed.open.filter(({ isStale }) => isStale).map(({ step }) => step)).toEqual([two])
    expect(listed.openAt.has(two!)).toBe(false)
    expect(countOpen(listed)).toBe(3)
  })

  it('leaves out what spoke of a part or a step that is gone', () => {
    const gone = (part: PartId) => (part === own.id ? undefined : standing(document).textOf(part))
    expect(vague({ textOf: gone }).open.map(({ step }) => step)).toEqual([one, one, two])
    expect(vague({ hasStep: (step) => step !== one }).open.map(({ step }) => step)).toEqual([null, two])
  })

  it('sets apart what a silence covers, and it alone', () => {
    const listed = vague({ silences: [silence] })
    expect(listed.passedOver.map(({ step, silence: by }) => [step, by.reason])).toEqual([[two, 'So.']])
    expect(listed.open.map(({ step }) => step)).toEqual([null, one, one])
    expect(listed.spent).toEqual([])
  })

  it('names the silences that cover nothing any more, for another step, rule or word, and them alone', () => {
    const spent = [
      { ...silence, id: 'b' as SilenceId, words: 'gently' },
      { ...silence, id: 'c' as SilenceId, step: one! },
      { ...silence, id: 'd' as SilenceId, rule: 'plain verb' },
    ]
    expect(vague({ silences: [silence, ...spent] }).spent).toEqual(spent)
    // One of a step that is gone comes back with the step.
    expect(vague({ silences: [silence], hasStep: (step) => step !== two }).spent).toEqual([silence])
  })

  it('is gone into at a step or at a part of the procedure’s own', () => {
    const { open } = vague()
    expect(firstAt(open, own.id)).toBe(open[0])
    expect(firstAt(open, two!)?.part).toBe(second.id)
    expect(firstAt(open, second.id)).toBeUndefined()
  })

  it('counts by rule, in the order of the rules', () => {
    const { open } = listFindings(document, reviewProcedure(document), standing(document))
    const order = rules.map(({ id }) => id as string)
    const counts = countByRule(open, order)
    expect(counts.map(({ rule }) => order.indexOf(rule))).toEqual(
      counts.map(({ rule }) => order.indexOf(rule)).sort((a, b) => a - b),
    )
    expect(counts.reduce((sum, { count }) => sum + count, 0)).toBe(open.length)
    expect(counts.find(({ rule }) => rule === 'vague words')?.count).toBe(4)
  })
})

describe('the line that the keyboard goes to when one is gone', () => {
  const lines = fc.uniqueArray(fc.constantFrom(...'abcdefgh'), { minLength: 1 })
  it('is the next one left, else the last one left before, else none', () => {
    fc.assert(
      fc.property(lines, fc.nat(), fc.func(fc.boolean()), (before, at, stays) => {
        const gone = before[at % before.length]!
        const now = before.filter((key) => key !== gone && stays(key))
        const index = before.indexOf(gone)
        const behind = now.filter((key) => before.indexOf(key) > index)
        expect(keyAfter(before, gone, now)).toBe(behind[0] ?? now.at(-1) ?? null)
      }),
    )
  })
  it('is the first of what is there where nothing of the old lines is left', () => {
    expect(keyAfter(['a', 'b'], 'a', ['x', 'y'])).toBe('x')
  })
})

describe('the words at fault', () => {
  it('stand between what is around them on their line', () => {
    expect(excerptOf('Stop.\nCheck it properly now.\nGo on.', { start: 15, end: 23 })).toEqual({
      before: 'Check it ',
      words: 'properly',
      after: ' now.',
    })
  })
  it('are one line at most, and none where they are blank', () => {
    expect(excerptOf('one\ntwo', { start: 0, end: 7 })).toEqual({ before: '', words: 'one …', after: '' })
    expect(excerptOf('one \n two', { start: 3, end: 6 })).toBeNull()
  })
  it('are never cut within a pair of surrogates', () => {
    const text = `${'🔭'.repeat(60)}x${'🔭'.repeat(60)}`
    const { before, after } = excerptOf(text, { start: 120, end: 121 })!
    expect(before).not.toMatch(/^… [\udc00-\udfff]/)
    expect(after).not.toMatch(/[\ud800-\udbff] …$/)
  })
})
