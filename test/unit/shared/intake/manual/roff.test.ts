import { describe, expect, test } from 'vitest'
import { maybeManual } from '../../../../../shared/intake/manual.ts'
import { bytesOf, taken, text } from './support.ts'

const head = '.TH MAST 7\n'
const page = (body: string): string => text(`${head}${body}`).trimEnd()

describe('roff', () => {
  test.each([
    ['\\(em \\[en] \\(bu \\[Eu] \\[u00E9] \\[e aa] \\(:a', '— – • € é é ä'],
    ['\\(aqa\\(aq \\(dqb\\(dq \\(lqc\\(rq', '\'a\' "b" “c”'],
    ['a\\-b \\e \\&.x a\\ b a\\~b', 'a-b \\ .x a b a b'],
    ['a\\|b\\^c\\%d\\:e\\,f\\/g', 'abcdefg'],
    ['\\s-1small\\s0 \\s+2big\\s0 \\s12x\\s0', 'small big x'],
    ["a\\h'2n'b \\v'1'c \\u2\\d", 'a b c 2'],
    ["\\o'e\\(aa'x \\zab", '´x b'],
    ['a \\" a comment', 'a'],
    ['one\\\n two', 'one two'],
    ["\\w'abc'", '72'],
    ["\\N'65'\\m[red]b\\m[]", 'Ab'],
  ])('the escapes in %j read %j', (source, shown) => {
    expect(page(source).replace(/\\([\\*_<[`~])/gu, '$1')).toBe(shown)
  })
  test('a line that \\c ends is joined with the next', () => {
    expect(page('one\\c\ntwo')).toBe('onetwo')
  })
  test('strings are put in, with arguments, and appended to', () => {
    expect(page('.ds lo "  logger\n.as lo s\n.ds hi <\\\\$1>\n\\*(lo \\*[hi mast] \\*[none]x')).toBe(
      'loggers \\<mast> x',
    )
  })
  test('registers count, and are compared', () => {
    expect(page('.nr n 2 3\n\\n+n \\nn\n.if \\nn=5 five\n.if !\\nn>5 no more\n.if (\\nn-1)/2=2 two')).toBe(
      '5 5 five no more two',
    )
  })
  test('macros take arguments, also quoted ones, and may define others', () => {
    expect(page('.de Op\n\\\\$2 of \\\\n(.$: \\\\$1.\n..\n.Op "a ""b"" c" d')).toBe('d of 2: a "b" c.')
    expect(page('.de A\n.de B\nfrom \\\\\\\\$1\n...\n..\n.de B\nx \\\\$1\n..\n.B y')).toBe('x y')
    expect(page('.de A\n.shift\n\\\\$*\n.return\nnever\n..\n.A a b c')).toBe('b c')
  })
  test('conditions choose for a terminal, in lines and blocks', () => {
    expect(
      page(
        '.ie t paper\n.el screen\n.if n \\{\\\n.ie 0 \\{\\\nno\n.\\}\n.el \\{ yes\nand more\\}\n.\\}\nend',
      ),
    ).toBe('screen yes and more end')
    expect(page(".if 'a'a' same\n.if !'a'b' other\n.if d SH macro\n.if r none no\n.if c\\(em dash")).toBe(
      'same other macro dash',
    )
  })
  test('loops go on as long as their condition holds', () => {
    expect(page('.nr i 0 1\n.while \\n+i<4 \\{\\\nw\\ni\n.\\}\nend')).toBe('w1 w2 w3 end')
    expect(page('.nr i 0 1\n.while 1 \\{\\\nw\\n+i\n.if \\ni=2 .break\n.\\}\nend')).toBe('w1 w2 end')
  })
  test('what is ignored, removed or renamed does nothing more', () => {
    expect(
      page(
        '.ig\nnever\n..\n.ig xx\nnever\n.xx\n.de A\na\n..\n.rn A B\n.A\n.B\n.rm B\n.B\n.als I B\n.unknown words\nend',
      ),
    ).toBe('a end')
  })
  test('signs are translated as the page says', () => {
    expect(page('.tr @-\na@b')).toBe('a-b')
  })
  test('preambles of pod2man are carried out', () => {
    const preamble =
      ".\\\" Automatically generated\n.de Sp\n.if t .sp .5v\n.if n .sp\n..\n.de Vb\n.ft CW\n.nf\n.ne \\\\$1\n..\n.de Ve\n.ft R\n.fi\n..\n.ie n \\{\\\n.    ds -- \\(*W-\n.    ds C`\n.    ds C'\n'br\\}\n.el\\{\\\n.    ds C` `\n'br\\}\n"
    const body = ".TH MAST 3pm 2026-11-25\n.SH A\n.Vb 1\n\\&    x = 1\n.Ve\n.Sp\n\\*(C`y\\*(C'"
    expect(text(preamble + body)).toBe('## A\n\n```\nx = 1\n```\n\ny\n')
  })
  test('a page is known behind a long preamble, and other files are none', () => {
    expect(taken(`${'.\\" x\n'.repeat(2000)}.TH A 1\n.SH N\nx`).text).toBe('## N\n\nx\n')
    for (const none of ['.TH', 'text\n.TH A 1\n', '.profile\n', '# .TH\n', '%PDF-1.7 .TH'])
      expect(maybeManual('a', bytesOf(none.replace('.TH', none === '.TH' ? '.x' : '.TH')))).toBeUndefined()
  })
})
