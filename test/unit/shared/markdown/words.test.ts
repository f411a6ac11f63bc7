import { describe, expect, test } from 'vitest'
import { isPictureData, maybeLinkAddress, maybeWebAddress } from '../../../../shared/markdown/addresses.ts'
import { balancedRange } from '../../../../shared/markdown/balance.ts'
import { plainWords } from '../../../../shared/markdown/words.ts'

describe('plain words', () => {
  test.each([
    ['# Mount *the* disk\n\nthen `df -h`', 'Mount the disk then df -h'],
    ['- a\n- b\n\n| c | d |\n|---|---|\n| e | f |', 'a b c d e f'],
    ['```sh\nls\n  -l\n```', 'ls -l'],
    ['a\\*b &amp; c  \nd', 'a*b & c d'],
    ['![the dome](x.png) [page](https://docs.example.org)', 'the dome page'],
    ['<b>raw</b>', '<b>raw</b>'],
    ['', ''],
  ])('%j reads %j', (source, words) => expect(plainWords(source)).toBe(words))

  test('a label is cut at whole code points and says so', () => {
    expect(plainWords('\u{1f52d}'.repeat(10), 4)).toBe(`${'\u{1f52d}'.repeat(3)}…`)
    expect(plainWords('short', 5)).toBe('short')
  })
})

describe('balanced ranges', () => {
  const balanced = (text: string, words: string): string => {
    const start = text.indexOf(words)
    const range = balancedRange(text, { start, end: start + words.length })
    return text.slice(range.start, range.end)
  }
  test('words inside one formatted piece are left as they are', () => {
    expect(balanced('run `df -h` now', 'df -h')).toBe('df -h')
    expect(balanced('a **bold word** b', 'word')).toBe('word')
  })
  test('a range that cuts a formatted piece takes it whole', () => {
    expect(balanced('a **bold word** b', 'word** b')).toBe('**bold word** b')
    expect(balanced('x\n\n```\none\ntwo\n```\n\nafter', 'two\n```\n\nafter')).toBe(
      '```\none\ntwo\n```\n\nafter',
    )
    expect(balanced('a *b **c** d* e', 'c** d* e')).toBe('*b **c** d* e')
  })
})

describe('addresses', () => {
  test.each([
    ['https://docs.example.org/a b', 'https://docs.example.org/a%20b'],
    ['HTTP://192.0.2.1', 'http://192.0.2.1/'],
    ['javascript:alert(1)', undefined],
    [' java\nscript:alert(1)', undefined],
    ['data:text/html,x', undefined],
    ['../up', undefined],
  ])('%j as a web address is %j', (text, address) => expect(maybeWebAddress(text)).toBe(address))

  test('a relative address needs a base', () => {
    expect(maybeWebAddress('../up?q=1#part', 'https://docs.example.org/a/b/c')).toBe(
      'https://docs.example.org/a/up?q=1#part',
    )
    expect(maybeWebAddress('x', 'file:///home/user/page.html')).toBeUndefined()
  })
  test('mail addresses are link addresses', () => {
    expect(maybeLinkAddress('mailto:rack@example.org')).toBe('mailto:rack@example.org')
    expect(maybeWebAddress('mailto:rack@example.org')).toBeUndefined()
  })
  test('only pixel formats count as picture data', () => {
    expect(isPictureData('data:image/png;base64,AAAA')).toBe(true)
    expect(isPictureData('data:image/svg+xml;base64,AAAA')).toBe(false)
    expect(isPictureData('data:image/png,<svg>')).toBe(false)
  })
})
