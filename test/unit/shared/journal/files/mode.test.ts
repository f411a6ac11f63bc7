import { describe, expect, it } from 'vitest'
import { maybeMode, shownModeOf } from '../../../../../shared/journal/files/mode.ts'

describe('a mode', () => {
  it('goes from octal to letters and back, for all 4096', () => {
    for (let mode = 0; mode < 0o10000; mode++) {
      const octal = mode.toString(8).padStart(4, '0')
      const shown = shownModeOf(octal)
      expect(shown).toMatch(/^[-rwxsStT]{9}$/)
      expect(maybeMode(shown)).toBe(octal)
      expect(maybeMode(`-${shown}+`)).toBe(octal)
    }
  })

  it('is read as chmod and ls write it', () => {
    expect(
      ['644', '0644', '00644', '7', '-rw-r--r--', 'drwxrwxrwt', 'rwsr-xr-x', '-rwSr-----.'].map(maybeMode),
    ).toEqual(['0644', '0644', '0644', '0007', '0644', '1777', '4755', '4640'])
    expect(
      ['', '8', '10644', 'u+x', 'rw-r--r-', 'rwxrwxrws', 'rwtr--r--', '-rw-r--r--  '].map(maybeMode),
    ).toEqual(Array.from({ length: 8 }, () => undefined))
    expect(() => shownModeOf('u+x')).toThrow(RangeError)
    expect(shownModeOf('7')).toBe('------rwx')
  })
})
