import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { depthsOf, headingAt, headingsOf } from '../../../../../../renderer/panes/sources/reading/outline.ts'
import { parseNow } from '../../../../../../renderer/panes/sources/reading/parsing.ts'

const outlineOf = (text: string) => headingsOf(text, parseNow(text)).map(({ level, words }) => [level, words])

describe('the outline', () => {
  it('names headings of both kinds without their signs, and none in code', () => {
    const text =
      '# The *fans* #\n\nUnder\n---\n\n```\n# no heading\n```\n\n> ## In `quotes`\n\n### [Care](https://x.example.org) \\& more\n\n#\n'
    expect(outlineOf(text)).toEqual([
      [1, 'The fans'],
      [2, 'Under'],
      [2, 'In quotes'],
      [3, 'Care & more'],
    ])
  })

  it('keeps words of names with underscores', () => {
    expect(outlineOf('## fan_min and __bold__')).toEqual([[2, 'fan_min and bold']])
  })

  it('finds the heading above a place as a plain walk does', () => {
    const places = fc.array(fc.nat(100), { maxLength: 12 }).map((all) => all.sort((a, b) => a - b))
    fc.assert(
      fc.property(places, fc.nat(110), (all, at) => {
        const headings = all.map((from) => ({ from, level: 1, words: 'h' }))
        expect(headingAt(headings, at)).toBe(all.filter((from) => from <= at).length - 1)
      }),
    )
  })

  it('never steps deeper by more than one, and equal levels beside each other stand alike', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 6 })), (levels) => {
        const depths = depthsOf(levels.map((level) => ({ level, words: 'h', from: 0 })))
        depths.forEach((depth, at) => {
          expect(depth).toBeLessThanOrEqual((depths[at - 1] ?? -1) + 1)
          if (levels[at] === levels[at - 1]) expect(depth).toBe(depths[at - 1])
        })
      }),
    )
  })
})
