import { gzipSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { maxTextBytes } from '../../../../../shared/intake/limits.ts'
import { maybeManual } from '../../../../../shared/intake/manual.ts'
import { parseMarkdown } from '../../../../../shared/markdown/parse.ts'
import { bytesOf } from './support.ts'

const head = '.TH X 8\n.SH NAME\nx \\- y\n'
const mdoc = '.Dd x\n.Dt X 1\n.Sh NAME\n'

/** Milliseconds that reading anything may take on a slow machine with others at work. */
const patience = 20_000

const refused: readonly [string, string][] = [
  ['a macro that calls itself', `${head}.de A\n.A\n..\n.A\n`],
  ['macros that call each other', `${head}.de A\n.Bx\n..\n.de Bx\n.A\n..\n.A\n`],
  ['a string that holds itself', `${head}.ds a \\\\*a\\\\*a\n\\*a\n`],
  ['a string that doubles itself', `${head}.ds a ${'x'.repeat(20)}\n${'.as a \\*a\n'.repeat(60)}`],
  ['loops within loops', `${head}${'.while 1 \\{\\\n'.repeat(3)}x\n${'.\\}\n'.repeat(3)}`],
  ['a loop on one line', `${head}.while 1 .while 1 .nr i +1\n`],
  ['conditions without end', `${head}${'.if n '.repeat(100_000)}x\n`],
  ['blocks that never close', `${head}${'.if n \\{\\\n'.repeat(50_000)}`],
  ['options within options', `${mdoc}.${'Op '.repeat(20_000)}\n`],
  ['a million arguments', `${head}.B ${'a '.repeat(1_000_000)}\n`],
  ['a million fonts in a paragraph', `${head}${'\\fBa\\fRb'.repeat(400_000)}\n`],
  [
    'a table of a million places',
    `${head}.TS\n${'l '.repeat(1000)}.\n${`${'a\t'.repeat(1000)}\n`.repeat(1000)}.TE\n`,
  ],
  ['a line of ten million signs', `${head}${'x'.repeat(10_000_000)}\n`],
]

const read: readonly [string, string][] = [
  ['a loop that only counts', `${head}.nr i 0 1\n.while \\n+i<5000 .ds a b\n`],
  ['levels without end', `${head}${'.RS\n'.repeat(50_000)}deep\n`],
  ['lists within lists', `${mdoc}${'.Bl -tag\n.It a\n'.repeat(2000)}`],
  ['brackets without end', `${head}.nr a ${'('.repeat(100_000)}\n`],
  ['backslashes', `${head}${'\\'.repeat(50_001)}\n`],
  ['many addresses', `${head}${'https://example.org/x '.repeat(5000)}\n`],
  ['lines without a blank', `X(1)  a  X(1)\n\nNAME\n${'       a  b\n           c d\n'.repeat(5000)}`],
  [
    'a staircase',
    `X(1)  a  X(1)\n\nNAME\n${Array.from({ length: 400 }, (_, i) => `${' '.repeat(7 + i * 2)}a\n`).join('')}`,
  ],
]

describe('hostile pages', () => {
  test.each(refused)('%s are refused in a sentence, and soon', (_, source) => {
    const start = Date.now()
    const intake = maybeManual('x.8', bytesOf(source))
    expect(intake).toMatchObject({ ok: false })
    expect(intake && !intake.ok && intake.sentence).toMatch(/^“x\.8” .+\. The file is unchanged.*\.$/u)
    expect(Date.now() - start).toBeLessThan(patience)
  })
  test.each(read)('%s are read, and soon', (_, source) => {
    const start = Date.now()
    const intake = maybeManual('x.8', bytesOf(source))
    expect(intake).toMatchObject({ ok: true })
    if (intake?.ok) parseMarkdown(intake.text)
    expect(Date.now() - start).toBeLessThan(patience)
  })
  test('what unpacks to more than can be taken in is not unpacked to its end', () => {
    const bomb = gzipSync(new Uint8Array(maxTextBytes * 4))
    expect(maybeManual('x.8.gz', bomb)).toMatchObject({ ok: false, code: 'too-large' })
    expect(maybeManual('x.bin.gz', bomb)).toBeUndefined()
  })
  test('no bytes and no mix of roff make it throw', () => {
    const bits = [
      '.TP',
      '.RS',
      '.RE',
      '.IP',
      '.B',
      '.nf',
      '.fi',
      '.SH A',
      '.TS',
      '.TE',
      'l l.',
      'T{',
      'T}',
      '\\f',
      '\\*',
      '\\n',
      '\\{',
      '\\}',
      '.ie',
      '.el',
      '.while',
      '.de A',
      '..',
      '.A',
      '.Bl -tag',
      '.It',
      '.El',
      '.Op',
      '.Oo',
      '.Xo',
      '.Bd -literal',
      '.Ed',
      '.Fo',
      '.Rs',
      '.Re',
      'words',
      '"',
      "'",
      '\n',
      ' ',
      '\t',
      '\\(',
      '\\[',
      '\\h',
      '\\c',
      '.so x',
      '.tr',
      '.ds a',
      '.rm SH',
      '.rn B I',
    ]
    const source = fc.array(fc.constantFrom(...bits), { maxLength: 60 })
    fc.assert(
      fc.property(source, fc.boolean(), fc.uint8Array({ maxLength: 30 }), (parts, isMdoc, bytes) => {
        const start = isMdoc ? mdoc : head
        const all = [...bytesOf(start + parts.join('\n').replaceAll('\n\n\n', ' ')), ...bytes]
        const intake = maybeManual('x', Uint8Array.from(all))
        return intake === undefined || !intake.ok || intake.text.endsWith('\n')
      }),
      { numRuns: 400 },
    )
  })
})
