import { describe, expect, test } from 'vitest'
import {
  matterOf,
  soleAddress,
  titleOfAddress,
  typedAddress,
  type Brought,
} from '../../../../../renderer/panes/sources/matter.ts'

const bring = (data: Record<string, string>, files: File[] = []): Brought => ({
  getData: (type) => data[type] ?? '',
  files,
})
const words = (html: string): string => html.replace(/<[^>]*>/g, '')
const sort = (data: Record<string, string>, files: File[] = []) => matterOf(bring(data, files), words)

describe('what a drop or a paste brings', () => {
  test('a link that is dragged out of a page becomes an address with the words of the link', () => {
    expect(
      sort({
        'text/uri-list': 'https://docs.example.org/ntp\r\n',
        'text/html': '<a href="https://docs.example.org/ntp">Time in\n ten lines</a>',
        'text/plain': 'https://docs.example.org/ntp',
      }),
    ).toEqual([{ kind: 'link', address: 'https://docs.example.org/ntp', title: 'Time in ten lines' }])
  })
  test('a link whose words are its address has no title of its own', () => {
    expect(
      sort({ 'text/uri-list': 'https://a.example.org/', 'text/html': '<a>https://a.example.org/</a>' }),
    ).toEqual([{ kind: 'link', address: 'https://a.example.org/', title: null }])
  })
  test('a list of addresses becomes a link each; comments and other schemes are left out (RFC 2483 §5)', () => {
    expect(
      sort({
        'text/uri-list': '# two\r\nhttps://a.example.org/\r\nfile:///etc/fstab\r\nhttp://192.0.2.1/b\r\n',
      }),
    ).toEqual([
      { kind: 'link', address: 'https://a.example.org/', title: null },
      { kind: 'link', address: 'http://192.0.2.1/b', title: null },
    ])
  })
  test('files count before the text that comes with them', () => {
    const file = new File(['x'], 'notes.md')
    expect(
      sort({ 'text/uri-list': 'file:///home/me/notes.md', 'text/plain': '/home/me/notes.md' }, [file]),
    ).toEqual([{ kind: 'file', file, name: 'notes.md', address: null }])
  })
  test('a link that Firefox drags has its title beside it', () => {
    const address = 'https://docs.example.org/ntp'
    const moz = `${address}\nTime in ten lines`
    expect(sort({ 'text/x-moz-url': moz, 'text/uri-list': address })).toEqual([
      { kind: 'link', address, title: 'Time in ten lines' },
    ])
    expect(sort({ 'text/x-moz-url': `${moz}\nhttps://a.example.org/\nhttps://a.example.org/` })).toEqual([
      { kind: 'link', address, title: 'Time in ten lines' },
      { kind: 'link', address: 'https://a.example.org/', title: null },
    ])
  })
  test('a picture that is dragged out of a page is the picture, with its address', () => {
    const file = new File(['x'], 'mast.png', { type: 'image/png' })
    const address = 'https://mast.example.org/mast.png'
    expect(sort({ 'text/uri-list': address, 'text/html': `<img src="${address}">` }, [file])).toEqual([
      { kind: 'file', file, name: 'mast.png', address },
    ])
  })
  test('a picture from the clipboard, which has no name of its own, gets one', () => {
    const file = new File(['x'], 'image.png', { type: 'image/png' })
    expect(matterOf(bring({}, [file]), words, () => 'Picture pasted 2026-05-02')).toEqual([
      { kind: 'file', file, name: 'Picture pasted 2026-05-02.png', address: null },
    ])
  })
  test('plain text that is one web address becomes a link', () => {
    expect(sort({ 'text/plain': ' https://docs.example.org/a?b#c\n' })).toEqual([
      { kind: 'link', address: 'https://docs.example.org/a?b#c', title: null },
    ])
  })
  test('a selection of a page is taken with its markup and its plain words', () => {
    expect(sort({ 'text/html': '<b>Read</b> twice', 'text/plain': 'Read twice' })).toEqual([
      { kind: 'html', html: '<b>Read</b> twice', plain: 'Read twice', address: null },
    ])
  })
  test('other plain text is taken as it is, with its first words as title', () => {
    expect(sort({ 'text/plain': 'Door sticks.\nSince 2024.' })).toEqual([
      { kind: 'text', text: 'Door sticks.\nSince 2024.', title: 'Door sticks. Since 2024.' },
    ])
  })
  test('nothing but white space brings nothing', () => {
    expect(sort({ 'text/plain': ' \n', 'text/html': ' ' })).toEqual([])
  })
})

test('only a text that is one http or https address and nothing else is taken for a link', () => {
  expect(soleAddress('https://docs.example.org/a b')).toBeNull()
  expect(soleAddress('see https://docs.example.org')).toBeNull()
  expect(soleAddress('javascript:alert(1)')).toBeNull()
  expect(soleAddress('https://')).toBeNull()
  expect(soleAddress('HTTPS://Docs.Example.org')).toBe('https://docs.example.org/')
})

test('a typed address needs its scheme', () => {
  expect(typedAddress('docs.example.org')).toBeNull()
  expect(typedAddress('ftp://docs.example.org')).toBeNull()
  expect(typedAddress('data:text/html,x')).toBeNull()
  expect(typedAddress(' http://192.0.2.1:8080/x ')).toBe('http://192.0.2.1:8080/x')
})

test('a link is titled by its address as a person would say it, also where the escapes are broken', () => {
  expect(titleOfAddress('https://docs.example.org/k%C3%A4lte/')).toBe('docs.example.org/kälte')
  expect(titleOfAddress('https://docs.example.org/%E4')).toBe('docs.example.org/%E4')
})
