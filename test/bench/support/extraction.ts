/**
 * How much of a page's main content comes through, and how much from around it. What the main content is was fixed by a
 * selector for each page, looked up in the page's own source, before anything was measured.
 */
import { diffArrays } from 'diff'
import type { Element, Nodes as HtmlNodes } from 'hast'
import { fromHtml } from 'hast-util-from-html'
import { matches, selectAll } from 'hast-util-select'
import type { Nodes as MarkdownNodes } from 'mdast'
import { visit } from 'unist-util-visit'
import { intakeHtml } from '../../../shared/intake/html.ts'
import { parseMarkdown } from '../../../shared/markdown/parse.ts'

export interface PageOfTable {
  /** Program that made the page. */
  readonly generator: string
  /** Debian package that carries it. */
  readonly from: string
  /** Below the folder of documentation, /usr/share. */
  readonly path: string
  /** Selector of the main content. */
  readonly main: string
  /** Selector of what stands within it and is a way to other pages. */
  readonly without?: string
}

export const pages: readonly PageOfTable[] = [
  {
    generator: 'Publican',
    from: 'debian-handbook',
    path: 'doc/debian-handbook/html/en-US/sect.backup.html',
    main: 'body > div.section',
  },
  {
    generator: 'Publican',
    from: 'debian-handbook',
    path: 'doc/debian-handbook/html/en-US/sect.hostname-name-service.html',
    main: 'body > div.section',
  },
  {
    generator: 'DocBook XSL',
    from: 'debian-reference-en',
    path: 'debian-reference/ch05.en.html',
    main: 'div.chapter',
  },
  {
    generator: 'DocBook XSL',
    from: 'postgresql-doc-15',
    path: 'doc/postgresql-doc-15/html/continuous-archiving.html',
    main: 'body > div.sect1',
  },
  {
    generator: 'DocBook XSL',
    from: 'postgresql-doc-15',
    path: 'doc/postgresql-doc-15/html/sql-createtable.html',
    main: 'body > div.refentry',
  },
  { generator: 'AsciiDoc', from: 'git-doc', path: 'doc/git-doc/git-rebase.html', main: '#header, #content' },
  { generator: 'AsciiDoc', from: 'git-doc', path: 'doc/git-doc/gittutorial.html', main: '#header, #content' },
  {
    generator: 'Sphinx',
    from: 'python3.11-doc',
    path: 'doc/python3.11/html/library/json.html',
    main: 'div.body[role=main]',
  },
  {
    generator: 'Sphinx',
    from: 'python3.11-doc',
    path: 'doc/python3.11/html/tutorial/controlflow.html',
    main: 'div.body[role=main]',
  },
  {
    generator: 'Sphinx',
    from: 'developers-reference',
    path: 'developers-reference/tools.html',
    main: 'div.body[role=main]',
  },
  {
    generator: 'Doxygen',
    from: 'doxygen-doc',
    path: 'doc/doxygen/html/starting.html',
    main: '#doc-content .headertitle, #doc-content .contents',
  },
  {
    generator: 'Doxygen',
    from: 'doxygen-doc',
    path: 'doc/doxygen/html/faq.html',
    main: '#doc-content .headertitle, #doc-content .contents',
  },
  {
    generator: 'MkDocs',
    from: 'mkdocs-doc',
    path: 'doc/mkdocs/html/user-guide/configuration.html',
    main: 'div[role=main]',
  },
  {
    generator: 'MkDocs',
    from: 'mkdocs-doc',
    path: 'doc/mkdocs/html/user-guide/writing-your-docs.html',
    main: 'div[role=main]',
  },
  {
    generator: 'javadoc',
    from: 'libcommons-lang3-java-doc',
    path: 'doc/libcommons-lang3-java/api/org/apache/commons/lang3/BooleanUtils.html',
    main: 'main',
  },
  {
    generator: 'GTK-Doc',
    from: 'libglib2.0-doc',
    path: 'gtk-doc/html/glib/glib-Hash-Tables.html',
    main: 'div.refentry',
  },
  { generator: "Node.js's own", from: 'nodejs-doc', path: 'doc/nodejs/api/path.html', main: '#apicontent' },
  {
    generator: "Postfix's own",
    from: 'postfix-doc',
    path: 'doc/postfix/html/SASL_README.html',
    main: 'body',
  },
  {
    generator: "httpd's own",
    from: 'apache2-doc',
    path: 'doc/apache2-doc/manual/en/ssl/ssl_howto.html',
    main: '#page-content',
    without: '#preamble .toplang, .top',
  },
  {
    generator: 'Texinfo',
    from: 'bash-doc',
    path: 'doc/bash/bashref.html',
    main: 'body',
    without: 'div.header',
  },
  {
    generator: 'rustdoc',
    from: 'rust-doc',
    path: 'doc/rust-doc/html/std/option/enum.Option.html',
    main: 'main #main-content',
    without: '.src, .srclink',
  },
  {
    generator: 'mdBook',
    from: 'rust-doc',
    path: 'doc/rust-doc/html/book/ch03-02-data-types.html',
    main: 'main',
  },
]

export interface Extraction {
  readonly codes: Kept
  readonly tables: Kept
  readonly headings: Kept
  /** Share of the words of the text taken in that are from outside the main content. */
  readonly outside: number
  /** Share of the main content's words that are there, in order. */
  readonly kept: number
}

/** How many there are in the main content, and those that did not come through word for word. */
export interface Kept {
  readonly all: number
  readonly lost: readonly string[]
}

/** Measures one page. @throws when the page is refused or the selector finds nothing */
export function measureExtraction(page: PageOfTable, bytes: Uint8Array): Extraction {
  const intake = intakeHtml(page.path, bytes)
  if (!intake.ok) throw new Error(intake.sentence)
  const tree = fromHtml(new TextDecoder(charsetOf(bytes)).decode(bytes))
  const main = outermost(selectAll(page.main, tree))
  if (main.length === 0) throw new Error(`${page.path} has no ${page.main}`)
  const ways = new Set(page.without === undefined ? [] : selectAll(page.without, tree))
  const isLeft = (element: Element): boolean => isUnseen(element) || ways.has(element)
  const written = parseMarkdown(intake.text)
  const text = wordsOfMarkdown(written)
  const expected = main.map((node) => textOf(node, isLeft)).join('\n')
  const [wanted, got] = [wordsOf(expected), wordsOf(text)]
  const parts = diffArrays(wanted, got)
  const count = (which: 'added' | 'removed'): number =>
    parts.reduce((sum, part) => (part[which] ? sum + part.value.length : sum), 0)
  return {
    codes: keptInOrder(
      elementsIn(main, ['pre'], isLeft).map((node) => codeOf(node, isLeft)),
      codesOf(written),
    ),
    headings: keptInOrder(
      elementsIn(main, ['h1', 'h2', 'h3', 'h4', 'h5', 'h6'], isLeft).map((node) =>
        squeeze(textOf(node, isLeft)),
      ),
      headingsOf(written),
    ),
    tables: keptWithin(
      elementsIn(main, ['table'], isLeft).map((node) => squeeze(textOf(node, isLeft))),
      squeeze(text),
    ),
    outside: got.length === 0 ? 0 : count('added') / got.length,
    kept: wanted.length === 0 ? 1 : 1 - count('removed') / wanted.length,
  }
}

function charsetOf(bytes: Uint8Array): string {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 4096))
  return /charset=["']?([\w-]+)/i.exec(head)?.[1] ?? 'utf-8'
}

function outermost(elements: readonly Element[]): Element[] {
  const inner = new Set<Element>()
  for (const element of elements)
    visit(element, 'element', (node) => {
      if (node !== element) inner.add(node)
    })
  return elements.filter((element) => !inner.has(element))
}

const unseen =
  'script, style, template, button, input, select, textarea, iframe, svg, math, [hidden], noscript, nav'

/** What a browser shows no words of, or only as a control, and the signs behind headings that link to themselves. */
function isUnseen(element: Element): boolean {
  if (matches(unseen, element)) return true
  if (/display\s*:\s*none/.test(String(element.properties['style'] ?? ''))) return true
  return element.tagName === 'a' && /^[\s¶#§🔗\p{Co}]*$/u.test(allText(element)) && allText(element) !== ''
}

const allText = (node: HtmlNodes): string =>
  node.type === 'text' ? node.value : 'children' in node ? node.children.map(allText).join('') : ''

const inline =
  /^(?:a|abbr|b|bdi|bdo|big|cite|code|del|dfn|em|font|i|ins|kbd|mark|q|s|samp|small|span|strong|sub|sup|time|tt|u|var|wbr|img)$/

/** The text of an element; blocks stand apart. */
function textOf(node: HtmlNodes, isLeft: (element: Element) => boolean): string {
  if (node.type === 'text') return node.value
  if (!('children' in node) || (node.type === 'element' && isLeft(node))) return ''
  const text = node.children.map((child) => textOf(child, isLeft)).join('')
  return node.type === 'element' && !inline.test(node.tagName) ? `\n${text}\n` : text
}

/** The text of code: the lines that `br` makes are lines. */
function codeOf(node: Element, isLeft: (element: Element) => boolean): string {
  const text = (one: HtmlNodes): string => {
    if (one.type === 'text') return one.value
    if (one.type === 'element' && one.tagName === 'br') return '\n'
    return 'children' in one && !(one.type === 'element' && isLeft(one))
      ? one.children.map(text).join('')
      : ''
  }
  return text(node).replace(/\n$/, '')
}

/** All of these names that hold words, none within another. */
function elementsIn(
  main: readonly Element[],
  names: readonly string[],
  isLeft: (element: Element) => boolean,
): Element[] {
  const walk = (node: HtmlNodes): Element[] => {
    if (node.type !== 'element' || isLeft(node)) return []
    if (names.includes(node.tagName)) return textOf(node, isLeft).trim() === '' ? [] : [node]
    return node.children.flatMap(walk)
  }
  return main.flatMap(walk)
}

export const squeeze = (text: string): string => text.replace(/\s+/gu, '')
const wordsOf = (text: string): string[] => text.split(/\s+/u).filter((word) => word !== '')

/** The words of a Markdown tree as they are read, without its signs. */
export function wordsOfMarkdown(node: MarkdownNodes): string {
  if (node.type === 'image') return ''
  if (node.type === 'break') return '\n'
  if (node.type === 'code') return `\n${node.value}\n`
  if ('value' in node) return node.value
  const text = 'children' in node ? node.children.map(wordsOfMarkdown).join('') : ''
  return ['paragraph', 'heading', 'tableCell', 'listItem', 'blockquote'].includes(node.type)
    ? `\n${text}\n`
    : text
}

export function codesOf(tree: MarkdownNodes): string[] {
  const codes: string[] = []
  visit(tree, 'code', (node) => void codes.push(node.value))
  return codes
}

export function headingsOf(tree: MarkdownNodes): string[] {
  const headings: string[] = []
  visit(tree, 'heading', (node) => void headings.push(squeeze(wordsOfMarkdown(node))))
  return headings
}

export function keptInOrder(wanted: readonly string[], got: readonly string[]): Kept {
  let at = 0
  const lost = wanted.filter((one) => {
    const found = got.indexOf(one, at)
    if (found >= 0) at = found + 1
    return found < 0
  })
  return { all: wanted.length, lost }
}

export function keptWithin(wanted: readonly string[], text: string): Kept {
  let at = 0
  const lost = wanted.filter((one) => {
    const found = text.indexOf(one, at)
    if (found >= 0) at = found + one.length
    return found < 0
  })
  return { all: wanted.length, lost }
}
