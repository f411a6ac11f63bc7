import fc from 'fast-check'
import type { Element, Nodes, Root } from 'hast'
import { visit } from 'unist-util-visit'
import { describe, expect, test } from 'vitest'
import { maybeRunOf } from '../../../../shared/markdown/elements.ts'
import { markRanges } from '../../../../shared/markdown/marks.ts'
import { maxFormattedLength } from '../../../../shared/markdown/parse.ts'
import { renderMarkdown } from '../../../../shared/markdown/render.ts'
import { sourceRangeOf, type Run } from '../../../../shared/markdown/runs.ts'
import { hostileMarkdown } from './hostile.ts'

const runsIn = (root: Root): Run[] => {
  const runs: Run[] = []
  visit(root, 'element', (node) => {
    const run = maybeRunOf(node)
    if (run) runs.push(run)
  })
  return runs
}
const textOf = (node: Nodes): string =>
  node.type === 'text' ? node.value : 'children' in node ? node.children.map(textOf).join('') : ''
const elementsIn = (root: Root, tagName: string): Element[] => {
  const found: Element[] = []
  visit(root, 'element', (node) => {
    if (node.tagName === tagName) found.push(node)
  })
  return found
}
/** The first run that shows the words, and the slice of the source that selecting them gives. */
const selectionOf = (source: string, words: string): { run: Run; slice: string | undefined } | undefined => {
  for (const run of runsIn(renderMarkdown(source))) {
    const at = run.text.indexOf(words)
    if (at < 0) continue
    const point = { from: run.from, to: run.to, length: run.text.length }
    const range = sourceRangeOf({ ...point, offset: at }, { ...point, offset: at + words.length })
    return { run, slice: range ? source.slice(range.start, range.end) : undefined }
  }
  return undefined
}
const sliceFor = (source: string, words: string): string | undefined => selectionOf(source, words)?.slice

describe('the place of rendered words in the source', () => {
  test.each([
    ['a paragraph over two lines\n   of text here', 'of text'],
    ['> quoted\n> twice', 'twice'],
    ['- one\n- two *three* four', 'three'],
    ['| a | b |\n|---|---|\n| `x` | `df -h` |', 'df -h'],
    ['```sh\nsudo systemctl stop logger\n\n  indented\n```', '  indented'],
    ['1. item\n\n   ```\n   first\n   second line\n   ```', 'second line'],
    ['> ```\n> deep `code`\n> ```', 'deep `code`'],
    ['    indented code\n\n    after a gap', 'after a gap'],
    ['see <https://docs.example.org/a> now', 'https://docs.example.org/a'],
    ['see https://docs.example.org/a now', 'https://docs.example.org/a'],
    ['- [x] sealed the box\n  twice', 'sealed the box'],
    ['head\nline two\n===', 'line two'],
    ['[label][ref] and rest\n\n[ref]: https://docs.example.org', 'label'],
    ['text[^n]\n\n[^n]: the note itself', 'the note itself'],
    ['[unused]: https://docs.example.org', '[unused]: https://docs.example.org'],
    ['press <kbd>Ctrl</kbd> now', '<kbd>'],
    ['caf\u00e9 \u{1f52d} \u05e9\u05dc\u05d5\u05dd end', '\u{1f52d} \u05e9\u05dc\u05d5\u05dd'],
  ])('%j: %j is found word for word', (source, words) => {
    expect(sliceFor(source, words)).toBe(words)
  })

  test.each([
    ['a \\* b', '*', '\\*'],
    ['fish &amp; chips', '&', '&amp;'],
    ['AT&#38;T', '&', '&#38;'],
  ])('%j: an escaped %j stands for the whole escape', (source, words, slice) => {
    expect(sliceFor(source, words)).toBe(slice)
  })

  test('a pipe escaped within code in a table is mapped without its backslash', () => {
    expect(sliceFor('| a |\n|---|\n| `x \\| y` |', 'y')).toBe('y')
  })

  test('runs of any text are in order, in bounds, and linear ones show exactly their source', () => {
    fc.assert(
      fc.property(hostileMarkdown, (source) => {
        let last = 0
        for (const run of runsIn(renderMarkdown(source))) {
          expect(run.from).toBeGreaterThanOrEqual(last > run.from && run.to === last ? run.from : last)
          expect(run.to).toBeLessThanOrEqual(source.length)
          expect(run.to).toBeGreaterThan(run.from)
          last = run.to
          if (run.to - run.from !== run.text.length) continue
          const slice = source.slice(run.from, run.to).replaceAll('\0', '\ufffd')
          expect(run.text.replace(/[\n\r]/g, ' ')).toBe(slice.replace(/[\n\r]/g, ' '))
        }
      }),
      { numRuns: 500 },
    )
  })

  test('a word typed among hostile text is found again: exactly in running text, within its whole in the name of a picture', () => {
    fc.assert(
      fc.property(hostileMarkdown, hostileMarkdown, (before, after) => {
        const source = `${before} telescope ${after}`
        const found = selectionOf(source, 'telescope')
        if (!found) return
        if (found.run.to - found.run.from === found.run.text.length) expect(found.slice).toBe('telescope')
        else expect(found.slice).toMatch(/^!\[[^]*telescope[^]*\]/)
      }),
      { numRuns: 500 },
    )
  })

  test('a link definition that nothing names is shown as it was typed, one that is named is not', () => {
    expect(textOf(renderMarkdown('[todo]: check-the-fan'))).toBe('[todo]: check-the-fan')
    expect(textOf(renderMarkdown('see [page]\n\n[page]: https://docs.example.org')).trim()).toBe('see page')
  })

  test('a selection between two runs gives all that lies between them', () => {
    const source = 'stop *now* or later'
    const runs = runsIn(renderMarkdown(source))
    const [first, last] = [runs[0]!, runs[runs.length - 1]!]
    const range = sourceRangeOf(
      { from: first.from, to: first.to, length: first.text.length, offset: 2 },
      { from: last.from, to: last.to, length: last.text.length, offset: 3 },
    )!
    expect(source.slice(range.start, range.end)).toBe('op *now* or')
  })

  test('an empty selection gives no range', () => {
    const point = { from: 3, to: 9, length: 6, offset: 2 }
    expect(sourceRangeOf(point, point)).toBeNull()
  })
})

describe('what rendered Markdown may hold', () => {
  const allowed =
    /^(a|blockquote|br|code|del|div|em|h[1-6]|hr|img|input|li|mark|ol|p|pre|span|strong|sup|table|tbody|td|th|thead|tr|ul)$/

  test('no text makes an element or an attribute that runs, loads or navigates', () => {
    fc.assert(
      fc.property(hostileMarkdown, (source) => {
        visit(renderMarkdown(source), 'element', (node) => {
          expect(node.tagName).toMatch(allowed)
          for (const [name, value] of Object.entries(node.properties)) {
            expect(name).not.toMatch(/^(href|on.*|style|srcSet|action|id|name)$/i)
            if (name === 'src') expect(value).toMatch(/^data:image\/(png|jpeg|gif|webp);base64,/)
            if (name === 'dataAddress') expect(value).toMatch(/^(https?|mailto):/)
          }
        })
      }),
      { numRuns: 500 },
    )
  })

  test('raw HTML is shown as it was typed', () => {
    const source = '<script>alert(1)</script>\n\ninline <img src=x onerror=alert(1)> here'
    const root = renderMarkdown(source)
    expect(textOf(root)).toContain('<script>alert(1)</script>')
    expect(textOf(root)).toContain('<img src=x onerror=alert(1)>')
    expect(elementsIn(root, 'img')).toEqual([])
  })

  test('a link keeps its address as plain information', () => {
    const [link] = elementsIn(renderMarkdown('[manual](https://docs.example.org/rack "The rack")'), 'a')
    expect(link!.properties).toEqual({
      className: ['address'],
      dataAddress: 'https://docs.example.org/rack',
      title: 'The rack',
    })
  })

  test.each(['javascript:alert(1)', 'data:text/html,x', 'file:///etc/passwd', 'vbscript:x', '/relative'])(
    'a link to %s keeps its words and loses its address',
    (address) => {
      const root = renderMarkdown(`[words](${address})`)
      expect(elementsIn(root, 'a')).toEqual([])
      expect(textOf(root)).toBe('words')
    },
  )

  test('a remote picture is named and never loaded', () => {
    const root = renderMarkdown('![the dome](http://192.0.2.7/dome.png)')
    expect(elementsIn(root, 'img')).toEqual([])
    expect(textOf(root)).toBe('Picture: the dome http://192.0.2.7/dome.png')
  })

  test('a picture whose bytes stand in the text is shown, a drawing that could hold scripts is not', () => {
    expect(elementsIn(renderMarkdown('![dot](data:image/png;base64,iVBORw0KGgo=)'), 'img')).toHaveLength(1)
    expect(elementsIn(renderMarkdown('![dot](data:image/svg+xml;base64,PHN2Zz4=)'), 'img')).toHaveLength(0)
  })

  test('a kept picture names its bytes, its description and its file, and loads nothing', () => {
    const sha256 = 'a0'.repeat(32)
    const source = `See ![the dome](sha256:${sha256} "dome.jpg")`
    const root = renderMarkdown(source)
    expect(elementsIn(root, 'img').map(({ properties }) => properties)).toEqual([
      {
        dataBlob: sha256,
        alt: 'the dome',
        title: 'dome.jpg',
        dataPictureFrom: 4,
        dataPictureTo: source.length,
      },
    ])
    for (const other of [`sha256:${'A0'.repeat(32)}`, `sha256:${sha256}0`, 'sha256:', `sha1:${sha256}`])
      expect(elementsIn(renderMarkdown(`![x](${other})`), 'img')).toEqual([])
  })

  test('a kept picture is marked when a range touches it, and only then', () => {
    const source = `before ![x](sha256:${'a0'.repeat(32)}) behind`
    const isMarked = (start: number, end: number): unknown =>
      elementsIn(markRanges(renderMarkdown(source), [{ start, end }]), 'img')[0]!.properties['dataMarked']
    expect(isMarked(3, 8)).toBe(true)
    expect(isMarked(0, 7)).toBeUndefined()
  })

  test('a text that is too long or nested too deeply is shown as it stands', () => {
    for (const source of [
      '>'.repeat(5000),
      '*a **b '.repeat(2000),
      'x'.repeat(maxFormattedLength + 1),
      `${'- '.repeat(3000)}x`,
    ])
      expect(textOf(renderMarkdown(source)).length).toBeGreaterThan(0)
    expect(textOf(renderMarkdown('>'.repeat(5000)))).toBe('>'.repeat(5000))
  })
})

describe('marks', () => {
  const markedText = (source: string, words: string): string => {
    const start = source.indexOf(words)
    return elementsIn(markRanges(renderMarkdown(source), [{ start, end: start + words.length }]), 'mark')
      .map(textOf)
      .join('|')
  }
  test('marked words are exactly those of the range', () => {
    expect(markedText('read the log, then stop', 'log, then')).toBe('log, then')
    expect(markedText('read *the log* now', 'the log* now')).toBe('the log| now')
    expect(markedText('```\nfirst\nsecond\n```', 'second')).toBe('second')
  })
  test('marking changes no word of the text', () => {
    fc.assert(
      fc.property(hostileMarkdown, fc.nat(200), fc.nat(200), (source, start, length) => {
        const root = renderMarkdown(source)
        expect(textOf(markRanges(root, [{ start, end: start + length }]))).toBe(textOf(root))
      }),
    )
  })
})
