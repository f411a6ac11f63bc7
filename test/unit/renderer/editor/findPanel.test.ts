// @vitest-environment happy-dom
import { getSearchQuery, search, setSearchQuery } from '@codemirror/search'
import { EditorState } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { countWords, findBefore, queryFor, wordsOf } from '../../../../renderer/editor/findPanel.ts'

function viewOf(doc: string, words: string, at = 0): EditorView {
  const view = new EditorView({
    state: EditorState.create({ doc, selection: { anchor: at }, extensions: search({ regexp: true }) }),
  })
  view.dispatch({ effects: setSearchQuery.of(queryFor(words)) })
  return view
}

test('words are looked for as they were typed, whatever signs are among them', () => {
  fc.assert(
    fc.property(
      fc.string({ minLength: 1, maxLength: 8 }),
      fc.string(),
      fc.string(),
      (words, before, after) => {
        fc.pre(!/[\n\r\ud800-\udfff]/.test(words + before + after))
        const doc = EditorState.create({ doc: before + words + after })
        const cursor = queryFor(words).getCursor(doc)
        const found = cursor.next() as { done: boolean; value: { from: number; to: number } }
        expect(found.done).toBe(false)
        expect(doc.sliceDoc(found.value.from, found.value.to).toLowerCase()).toBe(words.toLowerCase())
        expect(wordsOf(queryFor(words))).toBe(words)
      },
    ),
  )
})

test('the places are counted, in any case', () => {
  const view = viewOf('Dial. dial? A dia.l', 'dial')
  expect(countWords(view, getSearchQuery(view.state))).toBe('2 found')
  expect(countWords(view, queryFor('gauge'))).toBe('Not found')
  expect(countWords(view, queryFor(''))).toBe('')
})

test('counting ends at a number and after a time, and says so', () => {
  const view = viewOf('a '.repeat(2000), 'a')
  expect(countWords(view, queryFor('a'))).toBe('999 or more found')
  let now = 0
  expect(countWords(view, queryFor('a'), () => (now += 50))).toBe('32 or more found')
})

test('going back finds the place before the selection, and the last of all from the first one', () => {
  const view = viewOf('one x two x three x', 'x', 12)
  const places: number[] = []
  for (let i = 0; i < 4; i++) {
    findBefore(view)
    places.push(view.state.selection.main.from)
  }
  expect(places).toEqual([10, 4, 18, 10])
})

test('going back without a place leaves the selection alone', () => {
  const view = viewOf('one two', 'x', 3)
  expect(findBefore(view)).toBe(false)
  expect(view.state.selection.main.from).toBe(3)
})
