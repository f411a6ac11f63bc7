/** Commands as Debian's documentation packages print them: lines behind a prompt in blocks of preformatted text. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseFragment, type DefaultTreeAdapterTypes } from 'parse5'
import { seededNumbers } from './drawing.ts'

/** Folders below /usr/share, and whether a `#` in them is the prompt of root (elsewhere it begins a remark). */
const folders: readonly (readonly [string, boolean])[] = [
  ['debian-reference', true],
  ['doc/debian-handbook/html/en-US', true],
  ['developers-reference', true],
  ['doc/git-doc', false],
  ['doc/postfix', false],
  ['doc/apache2-doc/manual/en', false],
  ['doc/postgresql-doc-15/html', false],
  ['doc/db5.3-doc', false],
  ['doc/mkdocs', false],
  ['doc/rust-doc/html/book', false],
]

/** What is behind prompts, each text once, with the lines that a backslash joins to it. Not all of it is a command. */
export function textsOfDocs(docs: string): string[] {
  const found = new Set<string>()
  for (const [folder, isRootMarked] of folders) {
    for (const path of pagesBelow(join(docs, folder))) {
      for (const block of blocksOf(readFileSync(path, 'utf8'))) promptedIn(block, isRootMarked, found)
    }
  }
  return [...found]
}

function pagesBelow(folder: string): string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.html') && !/\.(?!en\.)[a-z]{2}(?:_[A-Z]{2})?\.html$/u.test(path))
    .sort()
    .map((path) => join(folder, path))
}

function* blocksOf(page: string): Generator<string> {
  for (const [, inner = ''] of page.matchAll(/<pre[^>]*>([\s\S]*?)<\/pre>/gu))
    yield textOf(parseFragment(inner))
}

function textOf(node: DefaultTreeAdapterTypes.Node): string {
  if ('value' in node) return node.value
  return 'childNodes' in node ? node.childNodes.map(textOf).join('') : ''
}

function promptedIn(block: string, isRootMarked: boolean, found: Set<string>): void {
  const lines = block.split('\n')
  for (let n = 0; n < lines.length; n += 1) {
    const [, sign, first] = /^\s*[\w@:~/-]*([$#]) +(\S.*)$/u.exec(lines[n]!) ?? []
    if (first === undefined || (sign === '#' && !isRootMarked)) continue
    let text = first
    while (/(?:^|[^\\])(?:\\\\)*\\$/u.test(text) && n + 1 < lines.length) text += `\n${lines[++n]!}`
    found.add(text.trimEnd())
  }
}

const signs = /["'`(){}|&;<>]|\b(?:do|done|then|fi|esac|in)\b/gu
const planted = [')', '(', "'", '"', '|', ';;', '<', '}', '&&', 'fi', '`', '${', '$(']

/** The same texts, each with one sign or word of the grammar taken away, and each with one planted. Most are refused. */
export function brokenTexts(texts: readonly string[], seed: number): string[] {
  const next = seededNumbers(seed)
  const found = new Set<string>()
  const below = (limit: number): number => Math.floor(next() * limit)
  for (const text of texts) {
    const cuts = [...text.matchAll(signs)]
    const cut = cuts[below(cuts.length)]
    if (cut) found.add(text.slice(0, cut.index) + text.slice(cut.index + cut[0].length))
    const at = below(text.length + 1)
    found.add(text.slice(0, at) + planted[below(planted.length)]! + text.slice(at))
  }
  return [...found]
}
