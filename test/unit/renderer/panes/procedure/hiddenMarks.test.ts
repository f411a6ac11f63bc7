/** The text that is typed, its marks hidden, is the same document as the raw one. */
import { markdown, markdownLanguage } from '@codemirror/lang-markdown'
import { ensureSyntaxTree } from '@codemirror/language'
import { EditorState } from '@codemirror/state'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { hiddenMarksIn } from '../../../../../renderer/panes/procedure/hiddenMarks.ts'
import { plainWords } from '../../../../../shared/markdown/words.ts'
import { hostileMarkdown } from '../../../shared/markdown/hostile.ts'

const step = '0190a2b4-7c3e-7000-8000-0123456789ab'

/** The text in an editor whose cursor stands behind all of it, on a line of its own. */
function stateOf(text: string, cursor = text.length + 2): EditorState {
  return EditorState.create({
    doc: `${text}\n\n`,
    selection: { anchor: cursor },
    extensions: [markdown({ base: markdownLanguage })],
  })
}

const wordsOfStep = (): string => 'step 7'
/** What is hidden once all of the text has been parsed. */
const hiddenIn = (state: EditorState) =>
  hiddenMarksIn(state, wordsOfStep, undefined, ensureSyntaxTree(state, state.doc.length, 20_000)!)

function shownOf(state: EditorState): string {
  const { hidden } = hiddenIn(state)
  const inOrder = [...hidden].sort((a, b) => b.from - a.from)
  return inOrder.reduce(
    (text, { from, to, shown }) => text.slice(0, from) + shown + text.slice(to),
    state.doc.toString(),
  )
}

const asOneLine = (text: string): string =>
  text
    .replace(/•|^[ \t]*\d+\.|^[ \t]*>/gmu, ' ')
    .replace(/\s+/gu, ' ')
    .trim()

const blocks = [
  'Stop the *logger* first.',
  '## The **new** disk',
  'Run `systemctl stop logger`, and ~~wait~~ look.',
  '```sh\nsudo systemctl stop logger\necho *done*\n```',
  '- one disk\n- a *Torx* screwdriver',
  '1. first\n2. second',
  '> Nobody stands **below** it.',
  'As [the manual](https://docs.example.org/ups) says.',
  'A \\*star\\* and `code`.',
  '***both*** and __strong__ and _weak_',
]

test('with the cursor elsewhere it reads like the page, whatever blocks stand in it', () => {
  fc.assert(
    fc.property(fc.subarray(blocks, { minLength: 1 }), (chosen) => {
      const text = chosen.join('\n\n')
      expect(asOneLine(shownOf(stateOf(text)))).toBe(asOneLine(plainWords(text)))
    }),
  )
})

test('a reference to a step reads as its present number', () => {
  expect(shownOf(stateOf(`Then go to [step 4](step:${step}).`)).trim()).toBe('Then go to step 7.')
})

test('marks stand where the cursor is, and only there', () => {
  const text = 'a **b** c **d** e'
  expect(shownOf(stateOf(text, 4)).trim()).toBe('a **b** c d e')
  expect(shownOf(stateOf(text, 0)).trim()).toBe('a b c d e')
})

test('of no text is anything hidden beyond its own lines, and every range is hidden once', () => {
  fc.assert(
    fc.property(hostileMarkdown, fc.nat(), (text, at) => {
      const doc = text.replace(/\r\n?/g, '\n')
      const state = stateOf(doc, at % (doc.length + 1))
      const { hidden, lines } = hiddenIn(state)
      const inOrder = [...hidden].sort((a, b) => a.from - b.from || a.to - b.to)
      inOrder.forEach(({ from, to }, i) => {
        expect(from).toBeLessThan(to)
        expect(to).toBeLessThanOrEqual(state.doc.lineAt(from).to)
        if (i > 0) expect(from).toBeGreaterThanOrEqual(inOrder[i - 1]!.to)
      })
      for (const { at } of lines) expect(state.doc.lineAt(at).from).toBe(at)
      // Looking changes nothing: both ways of typing have one text.
      expect(state.doc.toString()).toBe(`${doc}\n\n`)
    }),
  )
})
