import fc from 'fast-check'
import { fromMarkdown } from 'mdast-util-from-markdown'
import { describe, expect, it } from 'vitest'
import { carry, type Landing } from '../../../../shared/distil/carry.ts'
import { distilForJournal, distilForPart } from '../../../../shared/distil/distil.ts'
import { pickFragment, pickSource, wordsOfFragment } from '../../../../shared/distil/fragment.ts'
import { newPart, newStep } from '../../../../shared/lab/acts.ts'
import type { ProcedureId, ProjectId } from '../../../../shared/lab/ids.ts'
import { changeText, toStorableText } from '../../../../shared/lab/text.ts'
import { isSelectorTrue } from '../../../../shared/provenance/selectors.ts'
import { from, hostile, origins, picked } from '../../support/fragments.ts'
import { repeatableSurroundings } from '../../support/lab.ts'

const around = repeatableSurroundings()
const step = newStep(around, around.ids.make<ProcedureId>(), 'a0')
const part = newPart(around, step, 'do')
const numbers = fc.array(fc.nat({ max: 997 }), { minLength: 2, maxLength: 6 })
const squeeze = (text: string): string => text.replace(/\s+/gu, ' ').trim()

const landings = (before: string, offset: number): Landing[] => [
  { at: 'journal', project: around.ids.make<ProjectId>(), kind: 'observation' },
  { at: 'new step', procedure: step.procedure, position: 'a1', kind: 'why' },
  { at: 'new part', step, kind: 'expect' },
  {
    at: 'text',
    part,
    text: { text: before, revision: around.ids.make() },
    offset: offset % (before.length + 1),
  },
]

describe('a carry', () => {
  it('lands the carried words, word for word, at the ranges that its link names, wherever it lands', () => {
    fc.assert(
      fc.property(hostile, hostile, numbers, fc.nat({ max: 997 }), (raw, rawBefore, at, n) => {
        const [text, before] = [toStorableText(raw), toStorableText(rawBefore)]
        const fragment = picked(text, at, n)
        if (!fragment) return
        for (const landing of landings(before, n)) {
          const { change, link } = carry(around, fragment, landing, 'drag')
          const operation = change.operations.find((each) => each.op === 'text')!
          const landed = changeText(landing.at === 'text' ? before : '', operation.changeSet)
          expect(link.newer.ranges.every((selector) => isSelectorTrue(landed, selector))).toBe(true)
          expect(link.older.ranges.every((selector) => isSelectorTrue(text, selector))).toBe(true)
          const words = link.newer.ranges.map(({ quote }) => quote.exact).join('\n')
          expect(squeeze(words)).toBe(squeeze(wordsOfFragment(fragment)))
          link.newer.ranges.forEach(({ position }, i) =>
            expect(i === 0 || link.newer.ranges[i - 1]!.position.end < position.start).toBe(true),
          )
          if (landing.at !== 'text') continue
          expect(landed.startsWith(before.slice(0, landing.offset))).toBe(true)
          expect(landed.endsWith(before.slice(landing.offset))).toBe(true)
        }
      }),
      { numRuns: 400 },
    )
  })

  it('sets code into a fence that it cannot break out of, with its info string', () => {
    fc.assert(
      fc.property(hostile, fc.constantFrom('', 'sh', 'text a=1', 'a`b', '~x`y'), (raw, info) => {
        const code = toStorableText(raw).replace(/^\n+|\n+$/g, '')
        if (code.trim() === '') return
        const fence = '~'.repeat(60)
        const text = `${fence} ${info}\n${code}\n${fence}\n`
        const start = text.indexOf('\n') + 1
        const fragment = pickFragment(from(text), [{ start, end: start + code.length }])!
        expect(fragment.fence).toBe(info)
        const tree = fromMarkdown(distilForPart(fragment).text)
        expect(tree.children).toHaveLength(1)
        const [node] = tree.children
        expect(node).toMatchObject({ type: 'code', value: code })
        if (node?.type === 'code') expect([node.lang, node.meta].filter(Boolean).join(' ')).toBe(info)
      }),
      { numRuns: 300 },
    )
  })

  it('sets words of a source into the journal as one quotation and nothing else', () => {
    fc.assert(
      fc.property(hostile, (raw) => {
        const text = toStorableText(raw)
        const fragment = pickFragment(from(text), [{ start: 0, end: text.length }])
        if (!fragment || fragment.fence !== null) return
        expect(fromMarkdown(distilForJournal(fragment).text).children.map(({ type }) => type)).toEqual([
          'blockquote',
        ])
      }),
      { numRuns: 300 },
    )
  })

  it('of a source as a whole is a citation with its title and address', () => {
    const fragment = pickSource({ ...from(''), node: { kind: 'source', id: around.ids.make() } })
    const { text, ranges } = distilForJournal(fragment)
    expect(ranges).toEqual([])
    expect(fromMarkdown(text)).toMatchObject({
      children: [
        {
          children: [
            {
              type: 'link',
              url: 'https://example.org/%3Ca%3E%5C?q=1',
              children: [{ value: 'Disks [old]\\' }],
            },
          ],
        },
      ],
    })
    expect(origins).toHaveLength(3)
  })
})
