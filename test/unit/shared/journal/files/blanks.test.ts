import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bytesOf, maybeOfLength, mayHideTabs } from '../../../../../shared/journal/files/blanks.ts'

/** What a terminal shows of a line with tabs (ECMA-48 HT, tab stops at every eighth column). */
function shown(line: string, offset = 0): string {
  let text = ''
  for (const sign of line) text += sign === '\t' ? ' '.repeat(8 - ((text.length + offset) % 8)) : sign
  return text.trimEnd()
}
const lengthOf = (lines: readonly string[]): number => bytesOf(lines.map((line) => `${line}\n`).join(''))
const part = fc.constantFrom('a', 'mast', 'vane:', ' ', '  ', '    ', '\t', '\t\t', 'height 12', 'ä')
const lines = fc.array(
  fc.array(part, { maxLength: 6 }).map((parts) => parts.join('').trimEnd()),
  { maxLength: 6 },
)

describe('blanks on a screen', () => {
  it('of lines with tabs of more than one column are never taken for blanks by the number of bytes', () => {
    fc.assert(
      fc.property(lines, (file) => {
        const screen = file.map((line) => shown(line))
        const found = maybeOfLength(screen, lengthOf(file), lengthOf)
        // Only tabs of one column may be taken for blanks, and only where there are no others.
        if (found && found.some((line) => line.includes('\t'))) expect(found).toEqual(file)
        else if (found) expect(file.every((line) => shown(line).length === line.length)).toBe(true)
      }),
      { numRuns: 3000 },
    )
  })

  it('are tabs where the number of bytes leaves no other way', () => {
    for (const file of [
      ['all:', '\tcc -o vane vane.c'],
      ['a', '\t\tb'],
      ['', '\tif x', '\t\ty 2'],
    ])
      expect(
        maybeOfLength(
          file.map((line) => shown(line)),
          lengthOf(file),
          lengthOf,
        ),
      ).toEqual(file)
    const columns = ['192.0.2.7\tvane', 'address\t192.0.2.7', '192.0.2.8\tmast']
    expect(
      maybeOfLength(
        columns.map((line) => shown(line)),
        lengthOf(columns),
        lengthOf,
      ),
    ).toBeUndefined()
  })

  it('are sure where they cannot be tabs', () => {
    expect(mayHideTabs(['a:', '  b: c', '    d', '      e', '        f'], [0, 2])).toBe(false)
    expect(mayHideTabs(['if x', '        y'], [0])).toBe(true)
    expect(mayHideTabs(['if x', '      y'], [0, 2])).toBe(true)
    expect(mayHideTabs(['192.0.2.7       vane'], [0])).toBe(true)
    expect(mayHideTabs(['192.0.2.7   vane'], [0])).toBe(false)
    expect(mayHideTabs(['if x', '        y', '\tz'], [0])).toBe(false)
  })
})

describe('bytes of a text', () => {
  it('are those of UTF-8', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(bytesOf(text)).toBe(new TextEncoder().encode(text).length)
      }),
    )
  })
})
