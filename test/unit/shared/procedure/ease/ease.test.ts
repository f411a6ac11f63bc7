import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { countProse } from '../../../../../shared/procedure/ease/counts.ts'
import { readingEase } from '../../../../../shared/procedure/ease/ease.ts'
import { proseOf } from '../../../../../shared/procedure/ease/prose.ts'
import { longSentences, sentencesIn, wordsIn } from '../../../../../shared/procedure/ease/sentences.ts'

const split = (text: string): string[] => sentencesIn(text).map(({ start, end }) => text.slice(start, end))

describe('sentences', () => {
  it.each([
    ['Stop the service. Wait.', ['Stop the service.', 'Wait.']],
    [
      'Install 1.22.1. Then open /etc/nginx.conf. Restart it.',
      ['Install 1.22.1.', 'Then open /etc/nginx.conf.', 'Restart it.'],
    ],
    ['Use a tool, e.g. Rsync. Go on.', ['Use a tool, e.g. Rsync.', 'Go on.']],
    ['Call it sda, sdb, etc. Then stop.', ['Call it sda, sdb, etc.', 'Then stop.']],
    ['See fig. 3 and no. 4. Done.', ['See fig. 3 and no. 4.', 'Done.']],
    ['Is it up? then go on! Good.', ['Is it up?', 'then go on!', 'Good.']],
    ['It says “done.” Then leave.', ['It says “done.”', 'Then leave.']],
    ['Ask logger.example.org. It answers.', ['Ask logger.example.org.', 'It answers.']],
    ['Open the J. Doe file', ['Open the J. Doe file']],
    ['… — !', []],
    ['Press y. 3 disks appear.', ['Press y. 3 disks appear.']],
  ])('of %j', (text, wanted) => {
    expect(split(text)).toEqual(wanted)
  })

  it('hold every word of the text once', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(
            fc.constantFrom('a', 'B', '.', '!', ' ', ' ', '1.2', 'e.g.', '\n', '“', '”', '\ufffc'),
            fc.string({ maxLength: 3 }),
          ),
        ),
        (parts) => {
          const text = parts.join('')
          const inSentences = sentencesIn(text).flatMap(({ start, end }) =>
            wordsIn(text.slice(start, end)).map((word) => start + word.start),
          )
          expect(inSentences).toEqual(wordsIn(text).map((word) => word.start))
        },
      ),
    )
  })
})

describe('prose', () => {
  it('leaves out code, tables, addresses and HTML, and keeps link words and list items', () => {
    const text = [
      '# A title',
      '',
      'Run `apt install chrony` and see [the page](https://example.org/long/path) or https://example.org/x.',
      '',
      '```sh',
      'rm -rf /tmp/x',
      '```',
      '',
      '| a | b |',
      '| - | - |',
      '| c | d |',
      '',
      '- First item',
      '- Second *item*',
      '',
      '<div>markup</div>',
    ].join('\n')
    expect(proseOf(text).map((block) => [block.kind, block.text])).toEqual([
      ['heading', 'A title'],
      ['paragraph', 'Run \ufffc and see the page or \ufffc.'],
      ['item', 'First item'],
      ['item', 'Second item'],
    ])
  })

  it('has places that lead to the same characters in the source, escapes and references aside', () => {
    const text = 'One \\* two &amp; three.\n\n> Four\n> five.'
    for (const { text: prose, places } of proseOf(text))
      Array.from(prose).forEach((character, i) => {
        const source = text[places[i]!]!
        if (character !== '*' && character !== '&') expect(source).toBe(character)
      })
  })

  it('counts nothing where there is none, and no placeholder', () => {
    expect(countProse('`code`\n\n```\nx y z\n```').words).toBe(0)
    expect(countProse('Log in to ⁅host⁆ now.').words).toBe(4)
    expect(readingEase('').scores).toBeNull()
  })

  it('never fails, and gives no score that is not a number', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 200 }), (text) => {
        const { scores } = readingEase(text)
        for (const score of Object.values(scores ?? {})) expect(Number.isFinite(score)).toBe(true)
      }),
    )
  })
})

describe('long sentences', () => {
  it('are found with their places in the Markdown text', () => {
    const long = `Take the **${'one '.repeat(25).trim()}** end.`
    const text = `Short one. ${long} Short two.\n\n- ${long}\n`
    expect(
      longSentences(text).map(({ range, words }) => [text.slice(range.start, range.end), words]),
    ).toEqual([
      [long, 28],
      [long, 28],
    ])
    expect(longSentences(text, 28)).toEqual([])
  })
})

describe('the verdict', () => {
  const plain =
    'Stop the service. Wait for the lamp to go out. Pull the plug. Take the lid off. Put the new disk in. '.repeat(
      6,
    )
  const hard =
    'Subsequent to the successful establishment of administrative connectivity, the operator initiates the corresponding reconfiguration procedure in accordance with applicable organisational documentation requirements. '.repeat(
      3,
    )
  it('tells plain from hard prose, and says when there is too little', () => {
    expect(readingEase(plain).verdict).toBe('plain')
    expect(readingEase(hard).verdict).toBe('hard')
    expect(readingEase('Stop the service.').verdict).toBe('too short to say')
    expect(readingEase(plain)).toMatchObject({ isRough: false })
    expect(readingEase(hard).sentence).toMatch(
      /^Hard to read\. Shorten sentences and long words: about \d+ words/,
    )
  })

  it('does not change with code', () => {
    expect(readingEase(`${plain}\n\n\`\`\`\n${hard}\n\`\`\``).scores).toEqual(readingEase(plain).scores)
  })
})
