// @vitest-environment happy-dom
import { act } from 'react'
import { createRoot, type Root } from 'react-dom/client'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Markdown, selectionToSourceRange } from '../../../../renderer/ui/Markdown.tsx'

let host: HTMLElement
let root: Root

beforeEach(() => {
  ;(globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true
  host = document.body.appendChild(document.createElement('div'))
  root = createRoot(host)
})
afterEach(() => {
  act(() => root.unmount())
  host.remove()
})

const show = (text: string, marks?: { start: number; end: number }[]): void =>
  act(() => root.render(<Markdown text={text} {...(marks ? { marks } : {})} />))

/** Selects from the beginning of one piece of rendered text to the end of another. */
function select(first: string, last = first): Selection {
  const texts = Array.from(host.querySelectorAll('[data-from]'), (run) => run.firstChild as Text)
  const start = texts.find((text) => text.data.includes(first))!
  const end = texts.find((text) => text.data.includes(last))!
  const range = document.createRange()
  range.setStart(start, start.data.indexOf(first))
  range.setEnd(end, end.data.indexOf(last) + last.length)
  const selection = document.getSelection()!
  selection.removeAllRanges()
  selection.addRange(range)
  return selection
}
const slice = (text: string, selection: Selection): string | null => {
  const range = selectionToSourceRange(host, selection)
  return range && text.slice(range.start, range.end)
}

test.each([
  ['Stop *the logger* now', 'logger', 'logger', 'logger'],
  ['Stop *the logger* now', 'Stop', 'logger', 'Stop *the logger'],
  ['> ```sh\n> df -h\n> ls\n> ```', 'df', 'ls', 'df -h\n> ls'],
  ['a \\* b', '*', 'b', '\\* b'],
  ['# Head\n\n- one\n- two', 'ead', 'two', 'ead\n\n- one\n- two'],
])('%j: selecting from %j to %j gives %j', (text, first, last, expected) => {
  show(text)
  expect(slice(text, select(first, last))).toBe(expected)
})

test('a selection of whole elements covers the text within them', () => {
  const text = 'first\n\nsecond\n\nthird'
  show(text)
  const paragraphs = host.querySelectorAll('p')
  const range = document.createRange()
  range.setStart(paragraphs[1]!.querySelector('[data-from]')!.firstChild!, 0)
  range.setEnd(paragraphs[2]!, 0)
  const selection = document.getSelection()!
  selection.removeAllRanges()
  selection.addRange(range)
  expect(slice(text, selection)).toBe('second')
})

test('an empty selection, and one outside of the text, give nothing', () => {
  show('words')
  const outside = document.body.appendChild(document.createElement('p'))
  outside.textContent = 'outside'
  const selection = document.getSelection()!
  selection.removeAllRanges()
  expect(selectionToSourceRange(host, selection)).toBeNull()
  const range = document.createRange()
  range.selectNodeContents(outside)
  selection.addRange(range)
  expect(selectionToSourceRange(host, selection)).toBeNull()
  outside.remove()
})

test('marked ranges stand in mark elements, and words within them can still be selected', () => {
  const text = 'read *the log* now'
  show(text, [{ start: 6, end: 9 }])
  expect(Array.from(host.querySelectorAll('mark'), (mark) => mark.textContent)).toEqual(['the'])
  expect(slice(text, select('the', ' now'))).toBe('the log* now')
})

test('a link is shown without a place to navigate to, raw HTML as words', () => {
  show('[manual](https://docs.example.org/rack) <img src=x onerror=alert(1)>')
  const link = host.querySelector('a')!
  expect([link.hasAttribute('href'), link.dataset['address']]).toEqual([
    false,
    'https://docs.example.org/rack',
  ])
  expect(host.querySelector('img')).toBeNull()
  expect(host.textContent).toContain('<img src=x onerror=alert(1)>')
})
