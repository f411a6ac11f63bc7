import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { WordCount, wordsOfName } from '../../../../../shared/journal/spelling/labWords.ts'
import { tradeWords } from '../../../../../shared/journal/spelling/tradeWords.ts'
import { wordsToCheck } from '../../../../../shared/journal/spelling/words.ts'

const words = (text: string): string[] => wordsToCheck(text).map(({ word }) => word)

describe('the words that are asked for', () => {
  test('are those of sentences, headings, items and cells', () => {
    expect(words('# Teh plan\n\n- one *thingg*\n\n| Nmae |\n| --- |\n| valeu |\n\n> quotd')).toEqual([
      'Teh',
      'plan',
      'one',
      'thingg',
      'Nmae',
      'valeu',
      'quotd',
    ])
  })

  test.each([
    ['code', 'Ran `sytemctl` there.\n\n```sh\nsytemctl\n```\n\n    indnted\n'],
    ['a path', 'See /etc/netwrk/interfces and ~/fooo/barr and ./scrpt there.'],
    ['an option', 'With --verbsoe and -xvff there.'],
    ['an address', 'At https://exmaple.org/abcc and logger.exmaple.org and mail ada@exmaple.org there.'],
    ['a link’s address', '[See there](https://example.org/qwertz)'],
    ['an identifier', 'The var MY_VARR and myVarr and foo_barr and eth0xx and $HOMEE and fn() there.'],
    ['an abbreviation', 'The ABCD and XYZs there.'],
    ['HTML', '<spann>there</spann>'],
  ])('are none of %s', (_, text) => {
    const odd = words(text).filter((word) => !/^(?:Ran|there|See|and|With|mail|The|var)$/u.test(word))
    expect(odd).toEqual([])
  })

  test('stand where they say', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.constantFrom(
            'teh',
            ' ',
            '\n',
            '`x`',
            '**',
            '&amp;',
            '# ',
            "don't",
            '- ',
            '“a”',
            '\\*',
            'ab-cde/fgh',
          ),
        ),
        (parts) => {
          const text = parts.join('')
          for (const { word, from, to } of wordsToCheck(text)) expect(text.slice(from, to)).toBe(word)
        },
      ),
    )
  })
})

test('a word of sources is known once it was seen three times, as it was written', () => {
  const count = new WordCount()
  count.add('Chronyd wrote chronyd. Then chronyd')
  expect(count.often()).toEqual([])
  count.add('chronyd')
  expect(count.often()).toEqual(['chronyd'])
})

test('a name has its words', () => {
  expect(wordsOfName('weather-logger.example.org')).toEqual(['weather', 'logger', 'example', 'org'])
})

test('the words of the trade are a few hundred, each once', () => {
  expect(tradeWords.length).toBeGreaterThan(400)
  expect(new Set(tradeWords).size).toBe(tradeWords.length)
})
