import { describe, expect, it } from 'vitest'
import { chanceOf, LEAST_SCORE, MOST_SHOWN, worthShowing } from '../../../../shared/find/shown-suggestions.ts'
import type { TagSuggestion } from '../../../../shared/find/suggest-tags.ts'

const own = (tag: string, score: number, near = ['a'], isNamed = false): TagSuggestion => ({
  tag,
  score,
  why: { from: 'own tags', near, isNamed, used: 1, of: 4 },
})
const phrase = (tag: string, score = 5): TagSuggestion => ({ tag, score, why: { from: 'text' } })
const many = <T>(count: number, make: (at: number) => T): T[] =>
  Array.from({ length: count }, (_, at) => make(at))
const shown = (list: TagSuggestion[]): string[] => worthShowing(list).map(({ tag }) => tag)

describe('suggestions worth showing', () => {
  it('are own tags that something in the text speaks for or that are used very often, and then phrases', () => {
    const list = [
      own('near', 0.6),
      own('named', 0.05, [], true),
      own('far', LEAST_SCORE.near / 2),
      own('often', LEAST_SCORE.often, []),
      own('seldom', LEAST_SCORE.near, []),
      phrase('words'),
    ]
    expect(shown(list)).toEqual(['near', 'named', 'often', 'words'])
  })

  it('are never more than seven, with room for two phrases where the text has them', () => {
    const owns = many(9, (at) => own(`own ${at}`, 0.9 - at / 100))
    expect(shown(owns)).toHaveLength(MOST_SHOWN)
    expect(shown([...owns, ...many(5, (at) => phrase(`phrase ${at}`))]).slice(5)).toEqual([
      'phrase 0',
      'phrase 1',
    ])
  })

  it('are none that were struck out', () => {
    expect(shown([own('██████', 0.9), own('of ████', 0.9, [], true), own('dome', 0.3)])).toEqual(['dome'])
  })

  it('are a few more phrases where no own tag suits', () => {
    expect(shown(many(9, (at) => phrase(`phrase ${at}`)))).toHaveLength(5)
    expect(shown([own('one', 0.9), ...many(9, (at) => phrase(`phrase ${at}`))])).toHaveLength(4)
  })
})

it('only an own tag’s score is a chance of acceptance; a phrase promises nothing', () => {
  expect(chanceOf(own('one', 0.7))).toBe(0.7)
  expect(chanceOf(phrase('words', 12))).toBe(0)
})
