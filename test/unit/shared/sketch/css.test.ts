import { describe, expect, test } from 'vitest'
import { declarationsOf, rulesOf } from '../../../../shared/sketch/css.ts'

describe('style sheets', () => {
  test('rules come weakest first: names, classes, ids, and later ones after earlier ones (CSS Cascading 4 §6)', () => {
    const rules = rulesOf('#a{fill:red}.b .c{fill:blue}g{fill:green}.b{fill:tan}g{fill:gold}')
    expect(rules.map(({ selector }) => selector)).toEqual(['g', 'g', '.b', '.b .c', '#a'])
    expect(rules[0]!.declarations[0]!.value).toBe('green')
  })

  test('a list of selectors becomes several rules, and brackets are no place to part one', () => {
    expect(rulesOf(':is(a, b) c, d{fill:none}').map(({ selector }) => selector)).toEqual(['d', ':is(a, b) c'])
  })

  test('at-rules have no say, not even with rules inside, and what follows them counts', () => {
    const sheet = '@import "x.css";@keyframes k{from{fill:red}}@media print{g{fill:red}}g{fill:blue}'
    expect(rulesOf(sheet)).toEqual([
      { selector: 'g', declarations: [{ property: 'fill', value: 'blue', isImportant: false }] },
    ])
  })

  test('importance is told apart from the value; a semicolon in brackets or strings parts nothing', () => {
    expect(declarationsOf('fill : #f0f !important; marker-end:url("#a;b") ;; broken')).toEqual([
      { property: 'fill', value: '#f0f', isImportant: true },
      { property: 'marker-end', value: 'url("#a;b")', isImportant: false },
    ])
  })

  test('what is not closed ends with the text', () => {
    expect(rulesOf('g{fill:red')).toHaveLength(1)
    expect(rulesOf('g')).toEqual([])
  })
})
