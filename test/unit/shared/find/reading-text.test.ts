import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toReadingText } from '../../../../shared/find/reading-text.ts'
import type { Range } from '../../../../shared/lab/model.ts'

const whole = (text: string): Range => ({ start: 0, end: text.length })
const read = (text: string): string => toReadingText(text, whole(text), []).text
/** With each of some words marked where it stands first. */
const readMarked = (text: string, ...words: string[]) => {
  const marks = words.map((word) => ({ start: text.indexOf(word), end: text.indexOf(word) + word.length }))
  const shown = toReadingText(text, whole(text), marks)
  return { ...shown, marks: shown.marks.map(({ start, end }) => shown.text.slice(start, end)) }
}

describe('a stretch of Markdown as it reads', () => {
  it.each([
    ['# Clock\n\nIt is **not** *right*.', 'Clock\nIt is not right.'],
    ['- [x] stop it\n- `dd if=/dev/sda` then\n1. go', 'stop it\n• dd if=/dev/sda then\n1. go'],
    ['> > said by the *vendor*\n> again', 'said by the vendor\nagain'],
    [
      '| Port | Use |\n| --- | :-: |\n| 22 | shell \\| login |\n|  80  |      pages      |\n\nEnd.',
      'Port · Use;\n22 · shell | login;\n80 · pages\nEnd.',
    ],
    [
      'See [the manual](https://example.org/a_b "Manual") and <https://example.org/c>.',
      'See the manual and https://example.org/c.',
    ],
    ['![the dome](sha256:00) stands', 'the dome stands'],
    [
      'Ran:\n\n```sh\n# as root\necho *`date`* | tee a_b_c\n```\n\nDone.',
      'Ran:\n# as root\necho *`date`* | tee a_b_c\nDone.',
    ],
    ['a\n\n---\n\nb', 'a\nb'],
    ['~~old~~ __new__ _newest_ \\*kept\\*', 'old new newest *kept*'],
    ['``a ` b`` and `*` and 2 * 3 * 4', 'a ` b and * and 2 * 3 * 4'],
    [
      'foo_bar_baz.service and my__init__x stay, as does a lone * and _',
      'foo_bar_baz.service and my__init__x stay, as does a lone * and _',
    ],
    ['**over\ntwo lines**', 'over\ntwo lines'],
  ])('%j reads %j', (written, shown) => {
    expect(read(written)).toBe(shown)
  })

  it('that begins in the middle of a fence is code until the fence ends', () => {
    const text = '```sh\nfirst\n# second *x* \\|\n```\nand *then*'
    const from = text.indexOf('# second')
    expect(toReadingText(text, { start: from, end: text.length }, []).text).toBe('# second *x* \\|\nand then')
  })

  it('that begins in the middle of a row of a table has its cells side by side', () => {
    const text = '| Port | Use |\n| --- | --- |\n| 22 | shell |'
    const from = text.indexOf('| Use')
    expect(toReadingText(text, { start: from, end: text.length }, []).text).toBe('Use;\n22 · shell')
  })

  it('keeps what is marked as it is written, also in what is left out otherwise', () => {
    expect(readMarked('| **Port** | no |\n| - | - |\n| 22 | b |', 'Port', '22')).toEqual({
      text: 'Port · no;\n22 · b',
      marks: ['Port', '22'],
    })
    expect(readMarked('see [the manual](https://example.org/fstab) there', 'fstab')).toEqual({
      text: 'see the manual (https://example.org/fstab) there',
      marks: ['fstab'],
    })
    expect(readMarked('```python\nprint(1)\n```', 'python')).toEqual({
      text: '```python\nprint(1)\n',
      marks: ['python'],
    })
  })

  it('loses no marked word and no letter or digit outside of addresses, and keeps their order', () => {
    const piece = fc.constantFrom(
      ...[
        'disk',
        'full',
        ' ',
        '\n',
        '\n\n',
        '| ',
        ' |',
        '|---|---|',
        '**',
        '*',
        '_',
        '`',
        '```',
        '~~~',
        '# ',
        '> ',
        '- ',
        '\\',
      ],
      ...['[', ']', '(', ')', '<', '>', 'a_b', '10.0.2.0/24', '🔭'],
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 40 }), fc.nat(), fc.nat(), (pieces, a, b) => {
        const text = pieces.join('')
        const [one, other] = [a % (text.length + 1), b % (text.length + 1)]
        const stretch = { start: Math.min(one, other), end: Math.max(one, other) }
        const marks = [...text.matchAll(/disk|10\.0\.2\.0/g)]
          .map(({ index, 0: word }) => ({ start: index, end: index + word.length }))
          .filter(({ start, end }) => start >= stretch.start && end <= stretch.end)
        const shown = toReadingText(text, stretch, marks)
        expect(shown.marks.map(({ start, end }) => shown.text.slice(start, end))).toEqual(
          marks.map(({ start, end }) => text.slice(start, end)),
        )
        for (const [at, mark] of shown.marks.entries())
          expect(mark.start).toBeGreaterThanOrEqual(shown.marks[at - 1]?.end ?? 0)
        if (/\]\(/.test(text) || /(```|~~~)[^\n]*[a-z0-9]/.test(text)) return
        const letters = (all: string): string => all.replace(/[^\p{L}\p{N}]/gu, '')
        expect(letters(shown.text)).toBe(letters(text.slice(stretch.start, stretch.end)))
      }),
      { numRuns: 2000 },
    )
  })
})
