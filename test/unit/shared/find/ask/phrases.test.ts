import { describe, expect, it } from 'vitest'
import { readPhrases } from '../../../../../shared/find/ask/phrases.ts'
import { phrases } from '../../../../../shared/find/ask/thesaurus/phrases.ts'

const said = (words: string): readonly string[] => readPhrases(words.split(' ')).words

describe('what several words say together', () => {
  it('is one word for them, with others beside it', () => {
    const { words, others } = readPhrases('the licence runs out'.split(' '))
    expect(words.slice(0, 2)).toEqual(['the', 'licence'])
    expect(words).toHaveLength(3)
    const known = new Map(phrases).get('run out')!
    expect([words[2], ...others.get(words[2]!)!]).toEqual(known)
  })

  it('is known in the past and with what it is done to between', () => {
    const off = said('switch off')
    expect(off).toHaveLength(1)
    expect(said('switched off')).toEqual(off)
    expect(said('switching the motor off')).toEqual([...off, 'the', 'motor'])
    expect(said('the licence ran out')).toEqual(said('the licence run out'))
  })

  it('is nothing where it says nothing of the matter', () => {
    expect(said('is the motor broken in the end')).toEqual(['is', 'the', 'motor', 'broken'])
  })

  it('is not seen in words that stand far from each other, nor in others', () => {
    const apart = 'switch the motor of the roof off'
    expect(said(apart)).toEqual(apart.split(' '))
    expect(said('the roof is open')).toEqual(['the', 'roof', 'is', 'open'])
  })
})
