import { describe, expect, test } from 'vitest'
import { toReadText, withoutOverstrikes, withoutSequences } from '../../../../../shared/intake/overstrike.ts'

describe('text for printers and terminals', () => {
  test.each([
    ['bold', 'L\bLS\bS', 'LS'],
    ['underlined', '_\bf_\bi', 'fi'],
    ['underlined afterwards', 'f\b_i\b_', 'fi'],
    ['bold and underlined', '_\bx\bx', 'x'],
    ['an underscore in bold', '_\b_', '_'],
    ['a bullet made of two signs', '+\bo', 'o'],
    ['a wide sign, over two places', '氷\b\b氷', '氷'],
    ['a wide sign, underlined', '__\b\b氷', '氷'],
    ['a letter with an accent', 'e\u0301\be\u0301', 'e\u0301'],
    ['backspaces before all', '\b\bx', 'x'],
    ['lines apart', 'a\ba\n\bb', 'a\nb'],
    ['no backspace', 'a_b', 'a_b'],
  ])('%s is read as its letters', (_, struck, read) => {
    expect(withoutOverstrikes(struck)).toBe(read)
  })
  test.each([
    ['colours', '\u001b[1;31mred\u001b[0m', 'red'],
    ['links ended by ST', '\u001b]8;;https://example.org\u001b\\mast\u001b]8;;\u001b\\', 'mast'],
    ['titles ended by BEL', '\u001b]0;title\u0007x', 'x'],
    ['sets of signs', '\u001b(Bx', 'x'],
  ])('%s by control sequences (ECMA-48) leave their words', (_, coloured, read) => {
    expect(withoutSequences(coloured)).toBe(read)
  })
  test('both are taken off together', () => {
    expect(toReadText('\u001b[4mN\bNA\u001b[24m')).toBe('NA')
  })
})
