// @vitest-environment happy-dom
import { EditorState } from '@codemirror/state'
import { EditorView, keymap } from '@codemirror/view'
import fc from 'fast-check'
import { afterEach, expect, test, vi } from 'vitest'
import { changesBetween, EarlyKeys, type EarlyText } from '../../../../renderer/editor/earlyKeys.ts'

afterEach(() => {
  document.body.replaceChildren()
  givenBack.length = 0
})

const text = fc
  .array(fc.constantFrom('a', 'b', '\n', '😀', '😁'), { maxLength: 12 })
  .map((all) => all.join(''))
const field = (): HTMLTextAreaElement => document.querySelector('textarea')!
const viewOf = (doc: string): EditorView => new EditorView({ parent: document.body, doc })

const givenBack: string[] = []
const begin = (text: EarlyText): EarlyKeys =>
  new EarlyKeys(document.body, text, (words) => givenBack.push(words))

function typeInto(value: string, at = value.length): void {
  field().value = value
  field().setSelectionRange(at, at)
}

function press(init: KeyboardEventInit): KeyboardEvent {
  const event = new KeyboardEvent('keydown', { ...init, bubbles: true, cancelable: true })
  field().dispatchEvent(event)
  return event
}

test('the changes between two texts make the one of the other, and split no character', () => {
  fc.assert(
    fc.property(text, text, (before, after) => {
      const changes = changesBetween(before, after)
      expect(changes.apply(EditorState.create({ doc: before }).doc).toString()).toBe(after)
      changes.iterChanges((fromA, toA, _fromB, _toB, inserted) => {
        for (const piece of [before.slice(0, fromA), before.slice(fromA, toA), inserted.toString()])
          // It throws at half a character.
          expect(() => encodeURIComponent(piece)).not.toThrow()
      })
      expect(changesBetween(before, before).empty).toBe(true)
    }),
  )
})

test('the editor has the text and the cursor as the early keys left them', () => {
  fc.assert(
    fc.property(text, text, fc.nat(), (before, after, place) => {
      const keys = begin({ label: 'Do of step 1', text: before })
      const view = viewOf(before)
      const at = place % (after.length + 1)
      typeInto(after, at)
      keys.handOver(view)
      keys.end()
      expect(view.state.doc.toString()).toBe(after)
      expect(view.state.selection.main.head).toBe(at)
      expect(field()).toBeNull()
      view.destroy()
    }),
  )
})

test('what was typed early joins a text that another window has changed meanwhile', () => {
  const keys = begin({ label: 'Purpose', text: 'Stop the logger' })
  typeInto('Stop the logger first')
  const view = viewOf('Now: Stop the logger')
  keys.handOver(view)
  expect(view.state.doc.toString()).toBe('Now: Stop the logger first')
  expect(view.state.selection.main.head).toBe(view.state.doc.length)
})

test('untouched, the cursor stands at the end of the text as it is by now', () => {
  const keys = begin({ label: 'Purpose', text: 'Stop' })
  const view = viewOf('Stop the logger')
  keys.handOver(view)
  expect(view.state.selection.main.head).toBe('Stop the logger'.length)
})

test('keys that only the editor has an answer for are pressed in it, once each and in order', () => {
  const keys = begin({ label: 'Title', text: 'Move', isOneLine: true })
  const held = [
    press({ key: 'Enter', code: 'Enter' }),
    press({ key: 't', code: 'KeyT', altKey: true }),
    press({ key: 'Escape', code: 'Escape' }),
    press({ key: 'Escape', code: 'Escape', repeat: true }),
  ]
  expect(held.every(({ defaultPrevented }) => defaultPrevented)).toBe(true)
  expect(press({ key: 'Backspace', code: 'Backspace' }).defaultPrevented).toBe(false)
  const pressed: string[] = []
  const note = (key: string) => ({ key, run: () => pressed.push(key) > 0 })
  const view = new EditorView({
    parent: document.body,
    doc: 'Move',
    extensions: keymap.of([note('Enter'), note('Alt-t'), note('Escape')]),
  })
  keys.handOver(view)
  keys.pressHeld(view)
  keys.pressHeld(view)
  expect(pressed).toEqual(['Enter', 'Alt-t', 'Escape'])
})

test('Enter is a line end of a text of many lines', () => {
  begin({ label: 'Do of step 1', text: '' })
  expect(press({ key: 'Enter', code: 'Enter' }).defaultPrevented).toBe(false)
  expect(press({ key: 'Enter', code: 'Enter', ctrlKey: true }).defaultPrevented).toBe(true)
})

test('keys that wait for the editor of a text are given to it once', () => {
  const keys = begin({ label: 'New', text: '' })
  keys.leaveTo('part 1')
  expect(EarlyKeys.maybeFor('part 2')).toBeNull()
  expect(EarlyKeys.maybeFor('part 1')).toBe(keys)
  expect(EarlyKeys.maybeFor('part 1')).toBeNull()
})

test('where no editor comes, the focus goes back to where it was', () => {
  vi.useFakeTimers()
  const button = document.body.appendChild(document.createElement('button'))
  button.focus()
  const keys = begin({ label: 'New', text: '' })
  expect(document.activeElement).toBe(field())
  expect(keys.isLeft).toBe(false)
  keys.leaveTo('part 3')
  vi.advanceTimersByTime(10_000)
  expect(field()).toBeNull()
  expect(document.activeElement).toBe(button)
  expect(EarlyKeys.maybeFor('part 3')).toBeNull()
  vi.useRealTimers()
})

test('what was typed for a text whose editor never comes is given back, once', () => {
  const keys = begin({ label: 'New', text: 'Stop' })
  typeInto('Stop the logger')
  keys.end()
  keys.end()
  expect(givenBack).toEqual([' the logger'])
})

test('what an editor has taken over is not given back', () => {
  const keys = begin({ label: 'New', text: '' })
  typeInto('Stop')
  const view = viewOf('')
  keys.handOver(view)
  keys.end()
  begin({ label: 'New', text: 'Untouched' }).end()
  expect(givenBack).toEqual([])
})

test('who has gone to something else meanwhile is known to have left', () => {
  const button = document.body.appendChild(document.createElement('button'))
  const keys = begin({ label: 'New', text: '' })
  button.focus()
  expect(keys.isLeft).toBe(true)
  keys.end()
  expect(document.activeElement).toBe(button)
})

test('what is typed early at the start of a text that is still to come stands before it, and so does the cursor', () => {
  fc.assert(
    fc.property(text, text, (typed, rest) => {
      const keys = begin({ label: 'Do of step 2', text: '', isAtStart: true })
      const view = viewOf(rest)
      if (typed !== '') typeInto(typed)
      keys.handOver(view)
      keys.end()
      expect(view.state.doc.toString()).toBe(typed + rest)
      expect(view.state.selection.main.head).toBe(typed.length)
      view.destroy()
    }),
  )
})
