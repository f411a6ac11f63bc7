/** Formulas of reading ease on published counts, against kept libraries, and the error of the syllables that they rest on. */
import { automatedReadability as theirAri } from 'automated-readability'
import { dictionary } from 'cmu-pronouncing-dictionary'
import { colemanLiau as theirColemanLiau } from 'coleman-liau'
import fc from 'fast-check'
import { flesch } from 'flesch'
import { fleschKincaid } from 'flesch-kincaid'
import { gunningFog as theirFog } from 'gunning-fog'
import { smogFormula } from 'smog-formula'
import { describe, expect, it } from 'vitest'
import { countProse, syllablesOf } from '../../shared/procedure/ease/counts.ts'
import {
  automatedReadability,
  colemanLiau,
  fleschKincaidGrade,
  fleschReadingEase,
  gunningFog,
  smog,
} from '../../shared/procedure/ease/formulas.ts'

describe('formulas on published counts', () => {
  // Worked by the constants of Flesch 1948 and Kincaid 1975 for the two sentences that are given as examples everywhere.
  it.each([
    [{ sentences: 1, words: 6, syllables: 6 }, 116.145, -1.45],
    [{ sentences: 1, words: 13, syllables: 24 }, 37.455, 11.265],
  ])('Flesch and Flesch–Kincaid of %j', (counts, score, grade) => {
    expect(fleschReadingEase(counts)).toBeCloseTo(score, 2)
    expect(fleschKincaidGrade(counts)).toBeCloseTo(grade, 2)
  })

  it('Coleman–Liau of 537 letters and 4.20 sentences for each 100 words is 14.5 (an abstract of 119 words; from memory)', () => {
    expect(colemanLiau({ sentences: 5, words: 119, letters: 639 })).toBeCloseTo(14.5, 1)
  })

  it('SMOG of 30 sentences is 3.1291 + 1.0430 times the root of the polysyllables (McLaughlin 1969; from memory)', () => {
    expect(smog({ sentences: 30, polysyllables: 100 })).toBeCloseTo(13.5591, 4)
    expect(smog({ sentences: 30, polysyllables: 0 })).toBeCloseTo(3.1291, 4)
  })

  it('Gunning Fog of 100 words, 5 sentences and 10 complex words is 12 (0.4 × (20 + 10); from memory)', () => {
    expect(gunningFog({ sentences: 5, words: 100, complexWords: 10 })).toBeCloseTo(12, 10)
  })

  it('ARI of 5 characters a word and 20 words a sentence is 12.12 (Smith and Senter 1967; from memory)', () => {
    expect(automatedReadability({ sentences: 5, words: 100, characters: 500 })).toBeCloseTo(12.12, 10)
  })

  it('all agree with kept libraries on any counts', () => {
    const count = fc.integer({ min: 1, max: 5000 })
    fc.assert(
      fc.property(count, count, count, count, (sentences, words, some, more) => {
        expect(fleschReadingEase({ sentences, words, syllables: more })).toBeCloseTo(
          flesch({ sentence: sentences, word: words, syllable: more }),
          6,
        )
        expect(fleschKincaidGrade({ sentences, words, syllables: more })).toBeCloseTo(
          fleschKincaid({ sentence: sentences, word: words, syllable: more }),
          6,
        )
        expect(gunningFog({ sentences, words, complexWords: some })).toBeCloseTo(
          theirFog({ sentence: sentences, word: words, complexPolysillabicWord: some }),
          6,
        )
        expect(smog({ sentences, polysyllables: some })).toBeCloseTo(
          smogFormula({ sentence: sentences, polysillabicWord: some }),
          6,
        )
        expect(colemanLiau({ sentences, words, letters: more })).toBeCloseTo(
          theirColemanLiau({ sentence: sentences, word: words, letter: more }),
          6,
        )
        expect(automatedReadability({ sentences, words, characters: more })).toBeCloseTo(
          theirAri({ sentence: sentences, word: words, character: more }),
          6,
        )
      }),
    )
  })
})

describe('syllables', () => {
  it('are those of the CMU pronouncing dictionary for 92 of 100 words, and off by more than one for less than 1 in 200', () => {
    const words = Object.entries(dictionary).filter(([word]) => /^[a-z]+$/.test(word))
    const errors = words.map(([word, sounds]) => syllablesOf(word) - (sounds.match(/\d/g)?.length ?? 0))
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length
    expect(words.length).toBeGreaterThan(100_000)
    expect(errors.filter((error) => error === 0).length / errors.length).toBeGreaterThan(0.92)
    expect(errors.filter((error) => Math.abs(error) > 1).length / errors.length).toBeLessThan(0.005)
    // Over a whole text the errors nearly cancel out: 0.01 syllables a word is less than one point of Flesch's score.
    expect(Math.abs(mean) * 84.6).toBeLessThan(1)
  })

  it('of the two example sentences are counted as given', () => {
    expect(countProse('The cat sat on the mat.')).toMatchObject({ sentences: 1, words: 6, syllables: 6 })
    expect(
      countProse('The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.'),
    ).toMatchObject({ sentences: 1, words: 13 })
  })
})
