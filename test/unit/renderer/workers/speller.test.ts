import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { beforeAll, describe, expect, test } from 'vitest'
import type { Speller } from 'nspell'
import {
  labWordsOf,
  makeSpellers,
  misspeltAmong,
  type WordQueries,
} from '../../../../renderer/workers/speller.ts'

const require = createRequire(import.meta.url)
const read = (name: string, file: string): string =>
  readFileSync(join(dirname(require.resolve(name)), file), 'utf8')

let spellers: readonly Speller[]
beforeAll(() => {
  spellers = makeSpellers(read('dictionary-en', 'index.aff'), [
    read('dictionary-en', 'index.dic'),
    read('dictionary-en-gb', 'index.dic'),
  ])
})
const wrong = (words: string[], own: string[] = []): string[] =>
  misspeltAmong(spellers, new Set(own), words).map(({ word }) => word)

describe('spelling', () => {
  test('both dictionaries have the same rules of affixes, so that one set serves both', () => {
    expect(read('dictionary-en', 'index.aff')).toBe(read('dictionary-en-gb', 'index.aff'))
  })

  test('takes American and British English, and the words of the trade', () => {
    expect(wrong(['colour', 'color', 'systemd', 'inode', 'rebooted', 'VLANs', 'doesn’t', 'Subnets'])).toEqual(
      [],
    )
  })

  test('names what is misspelt once, with what was meant among the suggestions', () => {
    const [first, ...more] = misspeltAmong(spellers, new Set(), ['recieve', 'recieve', 'cable'])
    expect(first?.word).toBe('recieve')
    expect(first?.suggestions).toContain('receive')
    expect(more).toEqual([])
  })

  test('takes the lab’s own words, also with a capital or as an owner', () => {
    expect(wrong(['anemo', 'Anemo', 'anemo’s', 'anemos'], ['anemo'])).toEqual(['anemos'])
  })
})

test('the lab’s words are those of machines and tags, those added, and those that sources say three times', async () => {
  const queries = {
    machines: () =>
      Promise.resolve([{ name: 'anemo-gate', addresses: ['anemo.example.org'], aliases: ['windbox'] }]),
    sources: () => Promise.resolve([{ id: 'a', tags: ['pluvio'] }]),
    projects: () => Promise.resolve([]),
    allEntryTags: () => Promise.resolve([{ tags: ['baro'] }]),
    findNewestCapture: () => Promise.resolve({ text: 'hygrod hygrod hygrod onced' }),
  } as unknown as WordQueries
  const words = await labWordsOf(queries, ['thermod', 7])
  for (const word of ['anemo', 'windbox', 'pluvio', 'baro', 'hygrod', 'thermod'])
    expect(words).toContain(word)
  expect(words).not.toContain('onced')
})
