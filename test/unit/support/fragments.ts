/** Fragments for tests, and texts that are likely to break Markdown. */
import fc from 'fast-check'
import { pickFragment, type Fragment, type PickedText } from '../../../shared/distil/fragment.ts'
import type { Range } from '../../../shared/lab/model.ts'
import { repeatableSurroundings } from './lab.ts'

const { ids } = repeatableSurroundings(9)

export const origins: Pick<PickedText, 'node' | 'origin'>[] = [
  { node: { kind: 'capture', id: ids.make() }, origin: { kind: 'source' } },
  { node: { kind: 'entry', id: ids.make() }, origin: { kind: 'entry', entryKind: 'action' } },
  { node: { kind: 'part', id: ids.make() }, origin: { kind: 'part', partKind: 'expect' } },
]

export const from = (text: string, origin = origins[0]!): PickedText => ({
  ...{
    lab: ids.make(),
    revision: ids.make(),
    title: 'Disks [old]\\',
    address: 'https://example.org/<a>\\?q=1',
  },
  ...origin,
  text,
})

/** Backticks and tildes of any length, CRLF, tabs, NUL, marks of quotations and lists, characters of every plane. */
export const hostile = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '`',
        '```',
        '`````',
        '~~~',
        '\n',
        '\n',
        '\r\n',
        '\t',
        ' ',
        '> ',
        '- ',
        '# ',
        '[^1]',
        '|',
        '\\',
      ),
      fc.constantFrom('<b>', '&amp;', '🔭', '\u202e', '\u0301', '\0', '\u00a0', '█', 'dump', 'sh', 'a'),
      fc.string({ unit: 'grapheme', maxLength: 3 }),
    ),
    { minLength: 1, maxLength: 20 },
  )
  .map((parts) => parts.join(''))

/** One to three ranges of a text, in order and apart. */
export function rangesIn(text: string, numbers: readonly number[]): Range[] {
  const at = [...new Set(numbers.map((n) => n % (text.length + 1)))].sort((a, b) => a - b)
  const ranges: Range[] = []
  for (let i = 0; i + 1 < at.length; i += 2) ranges.push({ start: at[i]!, end: at[i + 1]! })
  return ranges
}

export const picked = (text: string, numbers: readonly number[], origin = 0): Fragment | null =>
  pickFragment(from(text, origins[origin % 3]), rangesIn(text, numbers))
