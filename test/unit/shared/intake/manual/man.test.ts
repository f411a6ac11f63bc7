import { gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { maybeManual } from '../../../../../shared/intake/manual.ts'
import { bytesOf, taken, text } from './support.ts'

const head = '.TH WEATHER-LOGGER 8 2026-11-03 "Observatory 1.2" "The mast"\n'
const page = (body: string): string => text(`${head}${body}`).trimEnd()

describe('a page in man(7)', () => {
  test('is titled by its name, section and purpose, and dated by its head', () => {
    const name = '.SH NAME\nweather-logger, wl \\- write down what the mast says\n'
    expect(taken(`${head}${name}`)).toMatchObject({
      title: 'weather-logger(8) – write down what the mast says',
      dated: '2026-11-03',
      author: null,
      address: null,
      kind: 'manual',
      mediaType: 'text/troff',
      notes: [],
    })
  })
  test.each([
    ['3 November 2026', '2026-11-03'],
    ['November 3rd, 2026', '2026-11-03'],
    ['Nov 2026', '2026-11'],
    ['2026', '2026'],
    ['2026-11-03T10:00', '2026-11-03'],
    ['03/11/2026', null],
    ['31 February 2026', null],
    ['1.2', null],
  ])('that says “%s” is dated %s', (words, dated) => {
    expect(taken(`.TH X 8 "${words}"\n.SH NAME\nx`).dated).toBe(dated)
  })
  test('reads the same when it is compressed, and is said to be broken when that is cut off', () => {
    const packed = gzipSync(bytesOf(`${head}.SH NAME\nx \\- y\n`))
    expect(text(packed)).toBe('## NAME\n\nx - y\n')
    expect(maybeManual('x.8.gz', packed.subarray(0, 40))).toMatchObject({ ok: false, code: 'broken' })
    expect(maybeManual('x.tar.gz', packed.subarray(0, 40))).toBeUndefined()
    expect(maybeManual('x.txt.gz', gzipSync('only a note'))).toBeUndefined()
  })
  test('that only points to another page is refused in a sentence that names it', () => {
    const intake = maybeManual('wl.8', bytesOf('.\\" the same\n.so man8/weather-logger.8\n'))
    expect(intake).toMatchObject({ ok: false, code: 'empty' })
    expect(intake && !intake.ok && intake.sentence).toContain('only points to “man8/weather-logger.8”')
  })
  test('that takes words from another page says so in a note', () => {
    expect(taken(`${head}.SH A\nx\n.so man1/other.1\n`).notes).toEqual([
      'It points to another page for more: man1/other.1.',
    ])
  })
  test('has sections and subsections, their words on the same line or the next', () => {
    expect(page('.SH "SEE ALSO"\n.SS\nOther \\fBpages\\fP\nx')).toBe('## SEE ALSO\n\n### Other pages\n\nx')
  })
  test('fills lines to paragraphs, breaks at .br and at leading space, and parts at .PP, .P, .LP and .sp', () => {
    expect(page('one\ntwo\n.br\nthree\n four\n.PP\nfive\n.sp\nsix\n\nseven')).toBe(
      'one two\\\nthree\\\nfour\n\nfive\n\nsix\n\nseven',
    )
  })
  test('sets fonts by macros and by escapes', () => {
    expect(page('.B bold words\n.I italic\n.BR mast (7),\n\\fBin \\fIboth\\fP\\fR and \\f(CWwl -v\\fR')).toBe(
      '**bold words** *italic* **mast**(7), **in** *both* and `wl -v`',
    )
    expect(page('.B\nnext line\nnot this')).toBe('**next line** not this')
    expect(page('.RB [ \\-v ]\n.RI < file >')).toBe('\\[**-v**] <*file*>')
  })
  test('keeps what is typed readable where bold and italic meet', () => {
    expect(page('.BI \\-\\-every= SECONDS')).toBe('`--every=`*SECONDS*')
  })
  test('has terms with bodies, also several for one body and several paragraphs', () => {
    expect(
      page(
        '.TP\n.B \\-v\n.TQ\n.B \\-\\-verbose\nsay more\n.IP\nand why\n.TP 4\n\\-n\nread nothing\n.PP\nend',
      ),
    ).toBe('- **-v**\\\n  **--verbose**\n\n  say more\n\n  and why\n\n- -n\n\n  read nothing\n\nend')
  })
  test('has lists with bullets and with numbers', () => {
    expect(page('.IP \\(bu 2\none\n.IP \\(bu\ntwo\n.PP\nthen\n.IP 1. 3\nfirst\n.IP 2.\nsecond')).toBe(
      '- one\n- two\n\nthen\n\n1. first\n2. second',
    )
  })
  test('nests by .RS and .RE', () => {
    expect(page('.TP\na\nb\n.RS\n.TP\nc\nd\n.RE\n.IP\ne')).toBe('- a\n\n  b\n\n  - c\n\n    d\n\n  e')
  })
  test('of DocBook has its terms above an indent and its bullets moved out of the text', () => {
    const bullet =
      ".sp\n.RS 4\n.ie n \\{\\\n\\h'-04'\\(bu\\h'+03'\\c\n.\\}\n.el \\{\\\n.sp -1\n.IP \\(bu 2.3\n.\\}\n"
    expect(page(`.PP\n\\fB\\-v\\fR\n.RS 4\nsay more\n.RE\n${bullet}one\n.RE\n${bullet}two\n.RE`)).toBe(
      '- **-v**\n\n  say more\n\n- one\n\n- two',
    )
  })
  test('keeps examples line for line', () => {
    expect(page('so:\n.nf\n$ wl \\-v \\e\n\n  \\fB/dev/ttyUSB0\\fP\n.fi\nor\n.EX\na\tb\n.EE')).toBe(
      'so:\n\n```\n$ wl -v \\\n\n  /dev/ttyUSB0\n```\n\nor\n\n```\na       b\n```',
    )
  })
  test('shows addresses in angle brackets behind their words', () => {
    expect(page('.UR https://example.org/mast\nThe mast\n.UE .\n.MT wl@example.org\n.ME')).toBe(
      'The mast ⟨<https://example.org/mast>⟩. ⟨wl\\@example.org⟩',
    )
  })
  test('has synopses', () => {
    expect(page('.SY wl\n.OP \\-v\n.OP \\-\\-every seconds\n.I device\n.YS')).toBe(
      '**wl** \\[**-v**] \\[**--every** *seconds*] *device*',
    )
  })
  test('has simple tables as tables', () => {
    const table =
      '.TS\ntab(;) box;\nlb l\nl l.\nSign;Means\n_\n3.4;T{\ndegrees\n.B Celsius\nT}\n\\-;none\n.TE\nend'
    expect(page(table)).toBe(
      '| Sign | Means |\n| - | - |\n| 3.4 | degrees **Celsius** |\n| - | none |\n\nend',
    )
  })
  test('leaves equations as they are written', () => {
    expect(page('.EQ\nx sup 2\n.EN')).toBe('x sup 2')
  })
})
