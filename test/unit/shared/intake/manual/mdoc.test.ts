import { describe, expect, test } from 'vitest'
import { callNames } from '../../../../../shared/intake/manual/mdoc/call-names.ts'
import { enclosures } from '../../../../../shared/intake/manual/mdoc/enclosures.ts'
import { callable } from '../../../../../shared/intake/manual/mdoc/inline.ts'
import { taken, text } from './support.ts'

const head = '.Dd November 3, 2026\n.Dt WEATHER-LOGGER 8\n.Os\n'
const page = (body: string): string => text(`${head}${body}`).trimEnd()

describe('a page in mdoc(7)', () => {
  test('is titled, dated, and names the authors that it states', () => {
    const body =
      '.Sh NAME\n.Nm weather-logger\n.Nd write down what the mast says\n.Sh AUTHORS\n.An A. Example ,\n.An -nosplit\n.An B. Example Aq Mt b@example.org .'
    expect(taken(`${head}${body}`)).toMatchObject({
      title: 'weather-logger(8) – write down what the mast says',
      dated: '2026-11-03',
      author: 'A. Example, B. Example',
      kind: 'manual',
      mediaType: 'text/troff',
    })
  })
  test('has a synopsis with options, arguments and the name by itself', () => {
    expect(
      page(
        '.Sh NAME\n.Nm wl\n.Nd log\n.Sh SYNOPSIS\n.Nm\n.Op Fl v\n.Op Fl e Ar seconds\n.Ar device ...\n.Nm wl\n.Fl -help',
      ),
    ).toBe(
      '## NAME\n\n**wl** — log\n\n## SYNOPSIS\n\n**wl** \\[**-v**] \\[**-e** *seconds*] *device ...*\\\n**wl --help**',
    )
  })
  test.each([
    ['.Ar', '*file ...*'],
    ['.Fl', '**-**'],
    ['.Fl a b ,', '**-a -b**,'],
    ['.Fl o Ns Ar x', '`-o`*x*'],
    ['.Cm a Li b Ic c Em d Sy e', '**a** `b` **c** *d* **e**'],
    ['.Pa /dev/x Ns : Ev HOME Va v Dv D Er E', '*/dev/x*: `HOME` *v* `D` `E`'],
    ['.Dq a Sq b', '“a ‘b’”'],
    ['.Pq Xr mast 7 ,', '(mast(7)),'],
    ['.Bq a Brq b Qq c .', '\\[a {b "c"}].'],
    ['.Oo Fl a\n.Oc b', '\\[**-a**] b'],
    ['.Po a\n.Pc Ns b', '(a)b'],
    ['.Do a Dc Bo b Bc So c Sc', '“a” \\[b] ‘c’'],
    ['.Pf ( Ar x )', '(*x*)'],
    ['.Li a Ap s', "`a`'s"],
    ['.Ql "a b"', '‘a b’'],
    ['.Fn f "int a" b .', '**f**(*int a*, *b*).'],
    ['.Fo f\n.Fa a\n.Fa b\n.Fc', '**f**(*a*, *b*)'],
    ['.In stdio.h', '**\\<stdio.h>**'],
    ['.St -p1003.1-2008', 'IEEE Std 1003.1-2008 (“POSIX.1”)'],
    ['.At v7 ; .', 'Version 7 AT\\&T UNIX;.'],
    ['.Bx 4.3 Reno , Fx 4.0 Nx Ox 3 Ux', '4.3BSD-Reno, FreeBSD 4.0 NetBSD OpenBSD 3 UNIX'],
    ['.Lb libm', 'Math Library (libm, -lm)'],
    ['.Lk https://example.org mast', '*mast:* <https://example.org>'],
    ['.Ex -std wl', 'The **wl** utility exits 0 on success, and >0 if an error occurs.'],
    [
      '.Rv -std',
      'Upon successful completion, the value 0 is returned; otherwise the value -1 is returned and the global variable *errno* is set to indicate the error.',
    ],
    ['.Sm off\n.Ar a : b\n.Sm on\n.Ar c', '*a*:*b c*'],
    ['.Ar a | b', '*a* | *b*'],
    ['.Em \\&Ar x', '*Ar x*'],
    ['.No a "Fl" b', 'a Fl b'],
  ])('%j reads %j', (source, shown) => {
    expect(page(source)).toBe(shown)
  })
  test('breaks before functions and their types in the synopsis', () => {
    expect(page('.Sh SYNOPSIS\n.In mast.h\n.Ft int\n.Fn read "int fd"\n.Sh B\n.Fn read')).toBe(
      '## SYNOPSIS\n\n**#include \\<mast.h>**\\\n*int*\\\n**read**(*int fd*);\n\n## B\n\n**read**()',
    )
  })
  test('has all kinds of lists, nested too', () => {
    expect(
      page(
        '.Bl -tag -width x\n.It Fl v Ar n\nmore\n.Pp\nstill\n.Bl -bullet\n.It\none\n.It\ntwo\n.El\nafter\n.It Xo\n.Fl a |\n.Fl b\n.Xc\nor\n.El\nend',
      ),
    ).toBe(
      '- **-v** *n*\n\n  more\n\n  still\n\n  - one\n  - two\n\n  after\n\n- **-a** | **-b**\n\n  or\n\nend',
    )
    expect(
      page('.Bl -enum\n.It\na\n.It\nb\n.El\n.Bl -item\n.It\nc\n.It\nd\n.El\n.Bl -diag\n.It no mast\ne\n.El'),
    ).toBe('1. a\n2. b\n\nc\n\nd\n\n- **no mast**\n\n  e')
  })
  test('has columns as a table', () => {
    expect(page('.Bl -column a b\n.It Sy Sign Ta Sy Means\n.It 3.4 Ta degrees\n.It x\ty\n.El')).toBe(
      '| Sign | Means |\n| - | - |\n| 3.4 | degrees |\n| x | y |',
    )
  })
  test('has displays: literal ones line for line, others as paragraphs', () => {
    expect(
      page('so\n.Bd -literal -offset indent\n$ wl\n\n  1\n.Ed\n.Dl $ wl \\-v\n.D1 Fl v\n.Bd -ragged\nx\n.Ed'),
    ).toBe('so\n\n```\n$ wl\n\n  1\n```\n\n```\n$ wl -v\n```\n\n**-v**\n\nx')
  })
  test('has references with their fields in order', () => {
    expect(page('.Rs\n.%T On masts\n.%A A. One\n.%A B. Two\n.%J Weather\n.%D 2026\n.Re')).toBe(
      'A. One and B. Two, “On masts”, *Weather*, 2026.',
    )
  })
  test('calls every macro that counts as callable, and no other', () => {
    expect([...callNames].sort()).toEqual([...new Set([...callable.keys(), ...enclosures.keys()])].sort())
  })
})
