/**
 * The exported Markdown, read by parsers that are not ours.
 * CommonMark 0.31.2: https://spec.commonmark.org/0.31.2/ (reference parser: the npm package `commonmark`).
 * Tables and footnotes: cmark-gfm (Debian package `cmark-gfm`).
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Node } from 'commonmark'
import fc from 'fast-check'
import type { Element, Nodes as HastNodes, Root } from 'hast'
import { fromHtml } from 'hast-util-from-html'
import type { Nodes } from 'mdast'
import { visit } from 'unist-util-visit'
import { describe, expect, test } from 'vitest'
import { procedureToMarkdown } from '../../shared/export/procedure-markdown.ts'
import { usedDefinitions } from '../../shared/markdown/definitions.ts'
import { parseMarkdown } from '../../shared/markdown/parse.ts'
import { entryOrigin, part, procedureOf, sourceOrigin } from '../unit/shared/export/examples.ts'
import { hostileMarkdown } from '../unit/shared/markdown/hostile.ts'
import {
  blankLinesEmpty,
  childrenOf,
  meaningOfBlocks,
  readReference,
  trimEnds,
  wordsOf,
} from './markdown-reference.ts'

const standards = process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../shared/standards')
const examplesFile = join(standards, 'commonmark/spec-0.31.2.tests.json')
/** Two parsers of one specification differ in rare corners, so chance is held still; SEED=<number> looks elsewhere. */
const seed = Number(process.env['SEED'] ?? 20261125)
const hasCmark = spawnSync('cmark-gfm', ['--version']).status === 0

/** The steps of an exported document, as the reference parser finds them. */
const stepsOf = (markdown: string): Node[] =>
  childrenOf(childrenOf(readReference(markdown)).find((node) => node.type === 'list')!)

/** What a step says, without its label. */
function readStep(item: Node): readonly unknown[] {
  const blocks = meaningOfBlocks(childrenOf(item))
  const [type, words] = blocks[0] as [string, unknown[]]
  expect([type, words[0]]).toEqual(['paragraph', ['strong', ['Do:']]])
  if (words.length === 1) return blocks.slice(1)
  const first =
    typeof words[1] === 'string'
      ? [words[1].replace(/^ /, ''), ...words.slice(2)].filter((w) => w !== '')
      : words.slice(1)
  const rest = trimEnds(first as string[])
  return rest.length === 0 ? blocks.slice(1) : [['paragraph', rest], ...blocks.slice(1)]
}

/** What the reference parser reads in a text by itself. */
const readAlone = (text: string): readonly unknown[] => meaningOfBlocks(childrenOf(readReference(text)))

/** Where micromark and the reference parser read CommonMark differently, whatever is exported. */
const readDifferently = [
  // Right below another line, micromark takes some empty list items for words.
  /[^\n]\n[ \t>]*(?:(?:[-+*]|\d{1,9}[.)])[ \t]*)+$/m,
  // Below indented code it takes empty and numbered items for words, as if there were a paragraph to interrupt.
  /(?:\t| {4}).*\n(?:[ \t>]*\n)*[ \t>]*(?:\d{1,9}[.)]|[-+*][ \t]*$)/m,
  // For an ECMAScript pattern, U+2028 ends a line, so the reference parser overlooks the mark behind it.
  /`{3}[^\n]*[\u2028\u2029]/,
  // Spaces behind a tab at a line's end: a hard break for the reference parser alone.
  /\t +\n/,
]

const isReadDifferently = (text: string): boolean =>
  readDifferently.some((difference) => difference.test(clean(text)))

/**
 * The reference parsers trim by ECMAScript's or C's idea of white space, where CommonMark names only spaces, tabs and
 * line ends; so such signs are set between letters, where all agree.
 */
const withInnerSpaces = hostileMarkdown.map((text) =>
  text.replace(/[\v\f\ufeff]/g, '').replace(/[\u0085\u00a0\u2028\u2029]/g, (sign) => `w${sign}w`),
)

/** An address that GFM makes a link although nothing marks it as one. */
const isBareAddress = (text: string, node: Nodes): boolean =>
  node.type === 'link' && !['[', '<'].includes(text[node.position!.start.offset!]!)

/** CommonMark knows no tables, footnotes, boxes and bare addresses, and hides unused definitions, which are exported as words. */
function isPlainCommonMark(text: string): boolean {
  if (isReadDifferently(text)) return false
  const tree = parseMarkdown(text)
  const used = usedDefinitions(tree)
  let isPlain = true
  visit(tree, (node: Nodes) => {
    const extension = ['table', 'delete', 'footnoteDefinition', 'footnoteReference'].includes(node.type)
    const isBox = node.type === 'listItem' && typeof node.checked === 'boolean'
    if (extension || isBareAddress(text, node) || isBox || (node.type === 'definition' && !used.has(node)))
      isPlain = false
  })
  return isPlain
}

const clean = (text: string): string =>
  text
    .replace(/^\ufeff/, '')
    .replace(/\r\n?/g, '\n')
    .replaceAll('\0', '\ufffd')
const asFence = (text: string): readonly unknown[] => [['code_block', '', blankLinesEmpty(clean(text))]]

describe('CommonMark', { timeout: 60_000 }, () => {
  test('whatever a part says is read the same within the document as by itself', () => {
    let read = 0
    let fenced = 0
    fc.assert(
      fc.property(
        fc.array(
          withInnerSpaces.filter((text) => text.trim() !== '' && isPlainCommonMark(text)),
          { minLength: 1, maxLength: 4 },
        ),
        (texts) => {
          const markdown = procedureToMarkdown(procedureOf(...texts.map((text) => part('do', text))), {
            journal: false,
          })
          const steps = stepsOf(markdown)
          texts.forEach((text, i) => {
            const alone = readAlone(clean(text))
            if (alone.length === 0) return
            const within = readStep(steps[i]!)
            read += 1
            const isFenced =
              JSON.stringify(within) === JSON.stringify(asFence(text)) &&
              JSON.stringify(alone) !== JSON.stringify(within)
            if (isFenced) fenced += 1
            else expect(within).toEqual(alone)
          })
        },
      ),
      { numRuns: 400, seed },
    )
    expect(read).toBeGreaterThan(400)
    expect(fenced / read).toBeLessThan(0.05)
  })

  test('code in a fence is the same to the last character', () => {
    fc.assert(
      fc.property(hostileMarkdown, (raw) => {
        const code = clean(raw).replace(/\n+$/, '')
        const longest = Math.max(2, ...(code.match(/`+/g) ?? []).map((run) => run.length))
        const fence = '`'.repeat(longest + 1)
        const markdown = procedureToMarkdown(procedureOf(part('do', `${fence}sh\n${code}\n${fence}`)), {
          journal: false,
        })
        expect(readStep(stepsOf(markdown)[0]!)).toEqual([['code_block', 'sh', blankLinesEmpty(code)]])
      }),
      { numRuns: 300 },
    )
  })

  test('a text in the appendix never opens a heading of the document', () => {
    fc.assert(
      fc.property(hostileMarkdown, hostileMarkdown, (title, text) => {
        const markdown = procedureToMarkdown(
          {
            title,
            purpose: text,
            steps: [
              {
                parts: [part('do', text, entryOrigin('e', 3, 'output', text), sourceOrigin('s', text, null))],
              },
            ],
          },
          { journal: true },
        )
        const headings = childrenOf(readReference(markdown)).filter((node) => node.type === 'heading')
        const expected = ['Purpose', 'Steps', 'Journal', 'Entry 1: 2026-11-25 02:03:00 +01:00, output']
        expect(headings.slice(1).map(wordsOf)).toEqual(
          text.trim() === '' ? expected.slice(1) : headings.length === 5 ? expected : expected.slice(1),
        )
      }),
      { numRuns: 200 },
    )
  })

  test.skipIf(!existsSync(examplesFile))(
    'every example of the specification keeps its meaning as a part',
    () => {
      const examples = JSON.parse(readFileSync(examplesFile, 'utf8')) as {
        markdown: string
        example: number
      }[]
      const texts = examples.filter(
        ({ markdown }) =>
          markdown.trim() !== '' && isPlainCommonMark(markdown) && readAlone(clean(markdown)).length > 0,
      )
      expect(texts.length).toBeGreaterThan(550)
      const whole = procedureToMarkdown(procedureOf(...texts.map(({ markdown }) => part('do', markdown))), {
        journal: false,
      })
      const steps = stepsOf(whole)
      const different = texts.filter(
        ({ markdown }, i) =>
          JSON.stringify(readStep(steps[i]!)) !== JSON.stringify(readAlone(clean(markdown))),
      )
      expect(different).toEqual([])
    },
  )
})

describe.skipIf(!hasCmark)(
  'GFM, read by cmark-gfm (skipped where it is not installed)',
  { timeout: 60_000 },
  () => {
    const readGfm = (markdown: string): Root => {
      const extensions = ['table', 'footnotes', 'strikethrough', 'tasklist'].flatMap((name) => ['-e', name])
      const html = execFileSync('cmark-gfm', [...extensions, '--to', 'html'], {
        input: markdown,
        encoding: 'utf8',
      })
      return fromHtml(html, { fragment: true })
    }
    const all = (tree: Root | Element, wanted: (node: Element) => boolean): Element[] => {
      const found: Element[] = []
      visit(tree, 'element', (node) => {
        if (wanted(node)) found.push(node)
      })
      return found
    }
    const named = (tree: Root | Element, ...names: string[]): Element[] =>
      all(tree, (node) => names.includes(node.tagName))
    const wordsIn = (node: HastNodes): string =>
      node.type === 'text' ? node.value : 'children' in node ? node.children.map(wordsIn).join('') : ''
    const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim()
    const marksIn = (tree: Root): Element[] =>
      all(tree, (node) => node.tagName === 'a' && String(node.properties['href']).startsWith('#fn-'))
    const notesIn = (tree: Root): string[] =>
      all(tree, (node) => node.tagName === 'li' && String(node.properties['id']).startsWith('fn-')).map(
        (note) => oneLine(wordsIn(note)),
      )

    test('sources are footnotes that their parts name', () => {
      const origins = [
        sourceOrigin('s1', 'The "rack"', 'https://docs.example.org/rack'),
        sourceOrigin('s2', 'Words', null),
      ]
      const procedure = procedureOf(
        part('do', 'Stop it!', ...origins),
        part('do', '```\nls\n```', origins[1]!),
      )
      const tree = readGfm(procedureToMarkdown(procedure, { journal: false }))
      expect(marksIn(tree)).toHaveLength(3)
      const [first, second, ...more] = notesIn(tree)
      expect(more).toEqual([])
      expect(first).toMatch(
        /^Source: The "rack", https:\/\/docs\.example\.org\/rack, taken 2026-11-25 02:00:00 \+01:00\./,
      )
      expect(second).toMatch(/^Source: Words, taken 2026-11-25 02:00:00 \+01:00\./)
    })

    test('a part with hostile words still carries its footnote, and a hostile title stays in its note', () => {
      fc.assert(
        fc.property(
          hostileMarkdown.filter((text) => text.trim() !== '' && !text.includes('[^')),
          (text) => {
            const markdown = procedureToMarkdown(
              procedureOf(part('do', text, sourceOrigin('s', text, null))),
              {
                journal: false,
              },
            )
            if (!markdown.includes('**Do:**')) return
            const tree = readGfm(markdown)
            expect(marksIn(tree)).toHaveLength(1)
            expect(notesIn(tree)).toHaveLength(1)
            expect(oneLine(notesIn(tree)[0]!).length).toBeGreaterThanOrEqual(
              oneLine(text.replaceAll('\0', '\ufffd')).length,
            )
          },
        ),
        { numRuns: 100 },
      )
    })

    test('the words of a hostile part, its tables and boxes are the same within the document as by themselves', () => {
      /** A box without words behind it is a box for cmark-gfm alone. */
      const emptyBox = /\[[ x]\]\s*$/m
      const isComparable = (text: string): boolean => {
        let comparable = text.trim() !== '' && !emptyBox.test(text) && !isReadDifferently(text)
        visit(parseMarkdown(text), (node: Nodes) => {
          if (['html', 'definition', 'footnoteDefinition', 'footnoteReference', 'image'].includes(node.type))
            comparable = false
          if (isBareAddress(text, node)) comparable = false
          if (node.type === 'link' && !/^(https?|mailto):/.test(node.url)) comparable = false
        })
        return comparable
      }
      fc.assert(
        fc.property(withInnerSpaces.filter(isComparable), (text) => {
          const alone = readGfm(clean(text))
          const within = named(
            readGfm(procedureToMarkdown(procedureOf(part('do', text)), { journal: false })),
            'ol',
          )[0]!
          const words = oneLine(wordsIn(alone))
          if (words === '') return
          expect(oneLine(wordsIn(within))).toBe(`Do: ${words}`)
          for (const name of ['table', 'td', 'th', 'input', 'del', 'pre', 'blockquote', 'hr'])
            expect(named(within, name)).toHaveLength(named(alone, name).length)
        }),
        { numRuns: 150, seed },
      )
    })

    test('tables keep every row, column and pipe', () => {
      const box = fc.constantFrom(
        'a',
        '`x \\| y`',
        'c\\|d',
        '*e*',
        '',
        '\u05e9\u05dc',
        '\u{1f52d}',
        '`\\\\`',
        '[l](https://docs.example.org)',
      )
      const rows = fc.array(fc.array(box, { minLength: 3, maxLength: 3 }), { minLength: 1, maxLength: 5 })
      fc.assert(
        fc.property(rows, (content) => {
          const table = [
            '| h | i | j |',
            '|---|:-:|--:|',
            ...content.map((row) => `| ${row.join(' | ')} |`),
          ].join('\n')
          const within = readGfm(procedureToMarkdown(procedureOf(part('expect', table)), { journal: false }))
          const boxes = (tree: Root): unknown[] =>
            named(tree, 'td', 'th').map((one) => [
              one.tagName,
              one.properties['align'],
              wordsIn(one),
              named(one, 'code', 'em', 'a').length,
            ])
          expect(boxes(within)).toEqual(boxes(readGfm(table)))
          expect(boxes(within)).toHaveLength((content.length + 1) * 3)
        }),
        { numRuns: 60 },
      )
    })

    test("a text's own footnotes are found under their new numbers", () => {
      const texts = [
        'one[^a] two[^b]\n\n[^a]: first note\n\n    with a block\n\n[^b]: second note',
        'three[^a]\n\n[^a]: third note',
      ]
      const tree = readGfm(
        procedureToMarkdown(procedureOf(...texts.map((text) => part('do', text))), { journal: false }),
      )
      expect(marksIn(tree)).toHaveLength(3)
      expect(notesIn(tree).map((note) => note.replace(/ ?↩.*$/, ''))).toEqual([
        'first note with a block',
        'second note',
        'third note',
      ])
    })

    test('white space in blank lines of code is kept', () => {
      const code = 'a\n   \n\tb\n'
      const tree = readGfm(
        procedureToMarkdown(procedureOf(part('do', `\`\`\`\n${code}\`\`\``)), { journal: false }),
      )
      expect(wordsIn(named(tree, 'code')[0]!)).toBe(code)
    })
  },
)
