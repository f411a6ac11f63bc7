// @vitest-environment happy-dom
import { EditorState, Text } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Looks } from '../../../../../../renderer/panes/sources/reading/drawing.ts'
import { looksOf } from '../../../../../../renderer/panes/sources/reading/looks.ts'
import { parseInSlices, parseNow } from '../../../../../../renderer/panes/sources/reading/parsing.ts'

const docOf = (text: string) => Text.of(text.split('\n'))
const looks = (text: string, pages: { start: number; label: string }[] = []): Looks =>
  looksOf(text, docOf(text), parseNow(text), pages)

/** What is left to be seen of a text: hidden pieces gone, pieces that others stand for as those. */
function seen(text: string): string {
  let out = ''
  let at = 0
  looks(text).hidden.between(0, text.length, (from, to, { spec }) => {
    const { widget } = spec as { widget?: { letters?: string; words?: string } }
    out +=
      text.slice(at, from) + (widget?.letters ?? (widget?.words === undefined ? '' : `[${widget.words}]`))
    at = to
  })
  return out + text.slice(at)
}

const dot = 'data:image/png;base64,iVBORw0KGgo='

describe('the looks of a text', () => {
  it.each([
    ['# A heading #\n', 'A heading\n'],
    ['Under it\n===\n\nmore', 'Under it\n\nmore'],
    ['one *two* **three** ~~four~~ `five`', 'one two three four five'],
    ['5 \\* 4 &amp; 3 &#x20; &unknown;', '5 * 4 & 3   &unknown;'],
    ['typed in\nthree\nlines', 'typed in three lines'],
    ['kept  \napart\\\nhere', 'kept\napart\nhere'],
    ['see [the table](https://mast.example.org/t "T")', 'see the table'],
    ['<https://mast.example.org/>', 'https://mast.example.org/'],
    ['as [named][t]\n\n[t]: https://mast.example.org/t', 'as named\n\n[t]: https://mast.example.org/t'],
    ['not a link: [sic] or [x](javascript:run)', 'not a link: [sic] or [x](javascript:run)'],
    [`![three sensors](${dot})`, '[three sensors]'],
    ['![the mast](https://mast.example.org/m.png)', 'Picture: the mast'],
    ['```sh\nls  -l\n```', 'ls  -l'],
    ['- one\n- two\n  goes on', '•one\n•two goes on'],
    ['1. one\n2. two', '1.one\n2.two'],
    ['- [x] done\n- [ ] open', '•☑ done\n•☐ open'],
    ['> quoted\n> on', 'quoted on'],
    ['| a | b |\n|---|--:|\n| 1 |  |\n', 'ab\n1\n'],
    ['<div>raw</div>', '<div>raw</div>'],
  ])('shows %j as %j', (text, expected) => {
    expect(seen(text)).toBe(expected)
  })

  it('knows every link with its place and its address, also those of pictures', () => {
    const text =
      'a [b **c**](https://one.example.org/) https://two.example.org/x ![d](https://three.example.org/e.png)'
    expect(looks(text).links.map(({ from, to, address }) => [text.slice(from, to), address])).toEqual([
      ['b **c**', 'https://one.example.org/'],
      ['https://two.example.org/x', 'https://two.example.org/x'],
      ['![d](https://three.example.org/e.png)', 'https://three.example.org/e.png'],
    ])
  })

  it('can be drawn for any text, in any editor, without a word of it getting lost', () => {
    const piece = fc.constantFrom(
      '# h',
      '\n',
      '\n\n',
      '- a',
      '  ',
      '    ',
      '> ',
      '```',
      '`x`',
      '**b**',
      '*',
      '[l](https://e.example.org)',
      '|a|b|',
      '|-|-|',
      `![p](${dot})`,
      '![q](x)',
      '1. n',
      '\\',
      '&amp;',
      '---',
      '===',
      'words',
      '<b>',
      '- [x] t',
      '\t',
      '[d]: /u',
      '|',
      'ünï 🛰️',
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 14 }), fc.nat(60), (all, start) => {
        const text = all.join('')
        const pages = start < text.length ? [{ start, label: '1' }] : []
        const { decorations, outer, wrappers, hidden } = looks(text, pages)
        const view = new EditorView({
          state: EditorState.create({
            doc: text,
            extensions: [
              EditorView.decorations.of(decorations),
              EditorView.outerDecorations.of(outer),
              EditorView.blockWrappers.of(wrappers),
            ],
          }),
        })
        expect(view.state.doc.toString()).toBe(text)
        view.destroy()
        // No two pieces overlap, or the cursor would stand still between them.
        let last = 0
        hidden.between(0, text.length, (from, to) => {
          expect(from).toBeGreaterThanOrEqual(last)
          last = to
        })
      }),
      { numRuns: 400 },
    )
  })

  it('never joins lines across the begin of a page', () => {
    const text = 'last words\nfirst words'
    expect(seenWithPage(text, 11)).toBe('last words\nfirst words')
  })
})

function seenWithPage(text: string, start: number): string {
  let count = 0
  looks(text, [{ start, label: '2' }]).hidden.between(0, text.length, () => {
    count += 1
  })
  return count === 0 ? text : ''
}

describe('parsing in slices', () => {
  it('ends with the same tree as parsing at once', async () => {
    const text = '# h\n\nwords *more*\n\n- a\n\n'.repeat(2000)
    const tree = await new Promise<ReturnType<typeof parseNow>>((resolve) => parseInSlices(text, resolve))
    expect(tree.length).toBe(text.length)
    expect(looksOf(text, docOf(text), tree, []).links.length).toBe(looks(text).links.length)
    expect(tree.topNode.getChildren('ATXHeading1')).toHaveLength(2000)
  })

  it('tells nothing any more once it is stopped', async () => {
    let isTold = false
    const stop = parseInSlices('words', () => {
      isTold = true
    })
    stop()
    await new Promise((resolve) => setTimeout(resolve, 30))
    expect(isTold).toBe(false)
  })
})
