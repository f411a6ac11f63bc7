import fc from 'fast-check'
import { fromMarkdown } from 'mdast-util-from-markdown'
import { describe, expect, it } from 'vitest'
import {
  fenceAround,
  fragmentToJson,
  pickFragment,
  pickSource,
  readFragment,
  settleFragment,
} from '../../../../shared/distil/fragment.ts'
import { toStorableText } from '../../../../shared/lab/text.ts'
import { from, hostile, picked } from '../../support/fragments.ts'
import { repeatableSurroundings } from '../../support/lab.ts'

const numbers = fc.array(fc.nat({ max: 997 }), { minLength: 2, maxLength: 6 })
/** Lines of a document without containers: fences open, shut, too short, indented, with and without an info string. */
const document = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '',
        'dump the disk',
        '    indented',
        '# Disks',
        '\t```',
        '``` a`b',
        '~~~ a`b',
        '```\u00a0',
        '    ```',
      ),
      fc
        .tuple(
          fc.nat(3),
          fc.constantFrom('`', '~'),
          fc.integer({ min: 2, max: 5 }),
          fc.constantFrom('', '', 'sh', ' sh -x ', '\t'),
        )
        .map(([indent, mark, count, info]) => ' '.repeat(indent) + mark.repeat(count) + info),
    ),
    { maxLength: 12 },
  )
  .map((lines) => lines.join('\n'))

describe('the fence around a range', () => {
  it('is the one that a CommonMark parser sees, for every line of a document without containers', () => {
    fc.assert(
      fc.property(document, (text) => {
        const codes = fromMarkdown(text).children.flatMap((node) => {
          if (node.type !== 'code' || !/^ {0,3}[`~]/.test(text.slice(node.position!.start.offset))) return []
          const first = node.position!.start.line
          return [{ first, last: node.position!.end.line, info: infoOf(node) }]
        })
        let start = 0
        text.split('\n').forEach((line, i) => {
          const around = codes.find(({ first, last }) => first < i + 1 && i + 1 <= last)
          // The closing fence is part of the node and not of its content.
          const isClosing =
            around?.last === i + 1 && /^ {0,3}[`~]{3,}[ \t]*$/.test(line) && !isContent(text, around, i)
          const wanted = around && !isClosing ? around.info : null
          if (line !== '')
            expect([line, fenceAround(text, { start, end: start + line.length })]).toEqual([line, wanted])
          start += line.length + 1
        })
      }),
      { numRuns: 500 },
    )
  })

  it('is none for a range that only partly lies within', () => {
    const text = 'a\n```sh\nls\n```\nb'
    expect(fenceAround(text, { start: 8, end: 10 })).toBe('sh')
    expect(fenceAround(text, { start: 0, end: 10 })).toBe(null)
    expect(fenceAround(text, { start: 8, end: 16 })).toBe(null)
    expect(pickFragment(from(text), [{ start: 7, end: 11 }])).toMatchObject({ fence: 'sh' })
    expect(
      pickFragment(from(text), [
        { start: 8, end: 10 },
        { start: 15, end: 16 },
      ]),
    ).toMatchObject({ fence: null })
  })
})

/** The info string; CommonMark 0.31.2 §4.5 strips it, the tree keeps blanks behind it. */
function infoOf({
  lang,
  meta,
}: {
  lang?: string | null | undefined
  meta?: string | null | undefined
}): string {
  return [lang, meta]
    .filter(Boolean)
    .join(' ')
    .replace(/[ \t]+$/, '')
}

/** Whether the last line of a code node is content: the fence was never shut. */
function isContent(text: string, { first }: { first: number }, line: number): boolean {
  const lines = text.split('\n')
  const opening = /^ {0,3}(`{3,}|~{3,})/.exec(lines[first - 1]!)![1]!
  const closing = /^ {0,3}(`{3,}|~{3,})/.exec(lines[line]!)?.[1] ?? ''
  return closing[0] !== opening[0] || closing.length < opening.length
}

describe('a fragment', () => {
  it('comes back from its JSON form as it was', () => {
    fc.assert(
      fc.property(hostile, numbers, fc.nat(2), (raw, at, n) => {
        const fragment = picked(toStorableText(raw), at, n)
        if (fragment) expect(readFragment(fragmentToJson(fragment))).toEqual(fragment)
      }),
      { numRuns: 300 },
    )
    const { text: _text, ...page } = from('')
    const whole = pickSource({ ...page, node: { kind: 'source', id: repeatableSurroundings(3).ids.make() } })
    expect(readFragment(fragmentToJson(whole))).toEqual(whole)
  })

  it('is refused once any of its fields has another type, is missing, or no longer fits the others', () => {
    const text = 'Stop the logger, then read its card.'
    const good = JSON.parse(
      fragmentToJson(
        pickFragment(from(text), [
          { start: 0, end: 4 },
          { start: 9, end: 15 },
        ])!,
      ),
    ) as object
    expect(readFragment(JSON.stringify(good))).not.toBe(null)
    const paths = pathsOf(good)
    const bad: unknown[] = [undefined, 7, true, {}, [], ['entry'], 'no such', -1, 1.5, { kind: 'entry' }]
    // These may be any text.
    const fits = (path: string, value: unknown): boolean =>
      /(title|address|fence|prefix|suffix)$/.test(path) && typeof value === 'string'
    for (const path of paths)
      for (const value of bad) {
        if (fits(path, value)) continue
        expect([path, value, readFragment(JSON.stringify(withValue(good, path.split('.'), value)))]).toEqual([
          path,
          value,
          null,
        ])
      }
    for (const json of ['', '{', 'null', '[]', '7', '"x"']) expect(readFragment(json)).toBe(null)
  })

  it('is refused where its ranges overlap, its words could not be stored, or its fence is more than a line', () => {
    const good = pickFragment(from('Stop the logger.'), [
      { start: 0, end: 4 },
      { start: 9, end: 15 },
    ])!
    const [first, second] = good.selectors as [(typeof good.selectors)[0], (typeof good.selectors)[0]]
    const exact = (words: string) => [{ ...first, quote: { ...first.quote, exact: words } }]
    for (const change of [
      { selectors: [second, first] },
      { selectors: [first, first] },
      { selectors: exact('a\r\nb') },
      { selectors: exact('a\0bc') },
      { selectors: exact('abc\ud83d') },
      { fence: 'sh\n```' },
      { origin: { kind: 'part', partKind: 'do' } },
      { node: { kind: 'source', id: good.node.id } },
    ])
      expect(readFragment(JSON.stringify({ ...good, ...change }))).toBe(null)
  })

  it('takes over no field that is not its own', () => {
    const good = pickFragment(from('Stop the logger.'), [{ start: 0, end: 4 }])!
    const more = JSON.stringify({
      ...good,
      extra: 1,
      node: { ...good.node, extra: 1 },
      origin: { ...good.origin, x: 1 },
    })
    expect(readFragment(more)).toEqual(good)
  })

  it('never holds half of a character, and none of the white space around it', () => {
    fc.assert(
      fc.property(hostile, numbers, (raw, at) => {
        const fragment = picked(toStorableText(raw), at)
        for (const { quote } of fragment?.selectors ?? []) {
          expect(toStorableText(quote.exact)).toBe(quote.exact)
          expect(quote.exact.replace(fragment!.fence === null ? /^\s|\s$/gu : /^\n|\n$/g, '')).toBe(
            quote.exact,
          )
        }
      }),
      { numRuns: 300 },
    )
  })

  it('is settled on the text as it is now, at its place or by its words, and not where there is doubt', () => {
    const fragment = pickFragment(from('Stop the logger.'), [{ start: 5, end: 15 }])!
    const { ids } = repeatableSurroundings(4)
    const now = (text: string) => settleFragment(fragment, { text, revision: ids.make() })
    expect(now('Stop the logger!')?.selectors[0]?.position).toMatchObject({ start: 5, end: 15 })
    expect(now('First stop the logger')?.selectors[0]?.position).toMatchObject({ start: 11, end: 21 })
    expect(now('the logger, the logger')).toBe(null)
    expect(now('the card')).toBe(null)
  })
})

function pathsOf(value: unknown, path = ''): string[] {
  if (typeof value !== 'object' || value === null) return path ? [path] : []
  const inner = Object.entries(value).flatMap(([key, item]) => pathsOf(item, path ? `${path}.${key}` : key))
  return path && !Array.isArray(value) ? [path, ...inner] : inner
}

function withValue(value: unknown, [key, ...rest]: string[], wanted: unknown): unknown {
  if (key === undefined) return wanted
  const copy = (Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) }) as Record<
    string,
    unknown
  >
  copy[key] = withValue(copy[key], rest, wanted)
  return copy
}
