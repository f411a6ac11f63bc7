/**
 * Manual pages of Debian's packages, read from their sources, beside what man-db and groff print of them: the same words
 * in the same order. The pages are in man(7) and mdoc(7); their writers are people and programs (pod2man, DocBook,
 * help2man, Asciidoctor). The packages are fetched with `apt-get download` and unpacked with `dpkg-deb -x`, since
 * containers often leave manual pages out when a package is installed; without network the installed pages serve.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { diffArrays } from 'diff'
import type { Nodes } from 'mdast'
import { describe, expect, test } from 'vitest'
import { maybeManual } from '../../shared/intake/manual.ts'
import { parseMarkdown } from '../../shared/markdown/parse.ts'

const packages = [
  'coreutils', // help2man
  'dpkg-dev', // pod2man
  'freebsd-manpages', // mdoc(7)
  'manpages', // by hand, with tables
  'mdadm', // by hand
  'mount', // Asciidoctor
  'openssh-client', // mdoc(7)
  'openssh-server',
  'systemd', // DocBook
]
const cache = join(import.meta.dirname, '../../.cache/manual-pages')
const shareOfWords = 0.98
const shareOfPages = 0.97

const runs = (command: string, args: readonly string[], cwd?: string): boolean =>
  spawnSync(command, args, { cwd, timeout: 120_000, stdio: 'ignore' }).status === 0

/** Where pages are: those of the packages, or else those that are installed. */
function findFolder(): string | undefined {
  const unpacked = join(cache, 'unpacked')
  const isDone = join(cache, 'done')
  if (!existsSync(isDone)) {
    mkdirSync(unpacked, { recursive: true })
    const isFetched = runs('apt-get', ['download', '-q', ...packages], cache)
    const files = readdirSync(cache).filter((name) => name.endsWith('.deb'))
    if (isFetched && files.every((file) => runs('dpkg-deb', ['-x', join(cache, file), unpacked])))
      writeFileSync(isDone, packages.join('\n'))
  }
  return [existsSync(isDone) ? join(unpacked, 'usr/share/man') : '', '/usr/share/man'].find(
    (folder) => folder !== '' && pagesOf(folder).length > 200,
  )
}

function pagesOf(folder: string): string[] {
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => /^man[1-9]$/u.test(name))
    .flatMap((section) => readdirSync(join(folder, section)).map((name) => join(folder, section, name)))
    .filter((path) => path.endsWith('.gz') && !lstatSync(path).isSymbolicLink())
    .sort()
}

const writers = ['mdoc', 'pod2man', 'DocBook', 'help2man', 'Asciidoctor', 'by hand'] as const
type Writer = (typeof writers)[number]

/** Who wrote a page, by what its beginning says; undefined for one that only points to another. */
function maybeWriter(source: string): Writer | undefined {
  const start = source.slice(0, 20_000)
  if (/^\.so /mu.test(source)) return undefined
  if (/^\.Dd /mu.test(start)) return 'mdoc'
  if (/Pod::Man|podlators/u.test(start)) return 'pod2man'
  if (/help2man/u.test(start)) return 'help2man'
  if (/Asciidoctor/u.test(start)) return 'Asciidoctor'
  return /DocBook/u.test(start) ? 'DocBook' : 'by hand'
}

/** Draws a number of pages, the same ones in every run (a linear congruential generator, Knuth volume 2 §3.3.4). */
function draw<T>(from: readonly T[], count: number): T[] {
  const left = [...from]
  const drawn: T[] = []
  for (let seed = 20_261_125; drawn.length < count && left.length > 0;) {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0
    drawn.push(...left.splice(seed % left.length, 1))
  }
  return drawn
}

/** Marks of lists: Markdown has its own. */
const bullets = new Set([...'•·∙◦○■▪*+-–—o'])

/** Words without what is no word: drawn lines, marks of lists; hyphens and apostrophes are one, however they look. */
function wordsIn(text: string): string[] {
  const plain = text.replace(/[\u2500-\u257f]/gu, ' ').replace(/[\u2010\u2212]/gu, '-')
  return plain
    .replace(/[‘’]/gu, "'")
    .split(/\s+/u)
    .filter((word) => word !== '' && !bullets.has(word))
}

/** What is read of a page's Markdown, with the numbers of lists. */
function shown(node: Nodes): string {
  if (node.type === 'break') return ' '
  if ('value' in node) return node.type === 'code' ? ` ${node.value} ` : node.value
  if (node.type === 'list')
    return node.children
      .map((one, i) => ` ${node.ordered ? `${(node.start ?? 1) + i}. ` : ''}${shown(one)}`)
      .join(' ')
  const inner = 'children' in node ? node.children.map(shown) : []
  const isLine = node.type === 'paragraph' || node.type === 'heading' || node.type === 'tableCell'
  const isBlock = isLine || ['root', 'listItem', 'table', 'tableRow', 'blockquote'].includes(node.type)
  return isBlock ? ` ${inner.join(isLine ? '' : ' ')} ` : inner.join('')
}

/** What man prints of a page as it does for a terminal of 80 columns. */
function asShown(path: string): Buffer {
  const env = { ...process.env, MANWIDTH: '80', LC_ALL: 'C.UTF-8', MAN_KEEP_FORMATTING: '1' }
  return execFileSync('man', ['-l', '-E', 'UTF-8', path], {
    env,
    maxBuffer: 1e8,
    stdio: ['ignore', 'pipe', 'ignore'],
  })
}

/** What man prints of a page on very wide paper, without its running head and foot. */
function printed(path: string): string {
  const args = ['--no-hyphenation', '--no-justification', '-l', '-E', 'UTF-8', path]
  const env = { ...process.env, MANWIDTH: '1000', LC_ALL: 'C.UTF-8', MAN_KEEP_FORMATTING: '' }
  const text = execFileSync('man', args, {
    env,
    encoding: 'utf8',
    maxBuffer: 1e8,
    stdio: ['ignore', 'pipe', 'ignore'],
  })
  return text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .slice(1, -1)
    .join('\n')
}

interface Result {
  readonly path: string
  readonly share: number
  readonly surplus: number
}

/** The share of the printed words that are in our text, in order (the longest common subsequence). */
function shareOf(path: string, bytes: Uint8Array = readFileSync(path)): Omit<Result, 'path'> {
  const intake = maybeManual('page', bytes)
  if (!intake?.ok) return { share: 0, surplus: 0 }
  const ours = wordsIn(shown(parseMarkdown(intake.text)))
  const theirs = wordsIn(printed(path))
  const common = diffArrays(theirs, ours)
    .filter(({ added, removed }) => !added && !removed)
    .reduce((sum, { value }) => sum + value.length, 0)
  return { share: common / theirs.length, surplus: 1 - common / ours.length }
}

const hasMan = runs('man', ['--version']) && runs('groff', ['--version'])
const folder = hasMan ? findFolder() : undefined
const sources = (folder === undefined ? [] : pagesOf(folder)).map((path) => ({
  path,
  writer: maybeWriter(gunzipSync(readFileSync(path)).toString('latin1')),
}))

describe('manual pages of Debian (skipped where neither network nor pages, man-db and groff are at hand)', () => {
  const results = new Map<Writer, Result[]>()
  test.skipIf(folder === undefined).each(writers)(
    'pages whose writer is %s have the words that man prints, in order',
    (writer) => {
      const drawn = draw(
        sources.filter((source) => source.writer === writer),
        20,
      )
      expect(drawn.length, `pages by ${writer}`).toBeGreaterThan(0)
      const found = drawn.map(({ path }) => ({ path, ...shareOf(path) }))
      results.set(writer, found)
      for (const { path, share, surplus } of found) {
        expect(share, path).toBeGreaterThan(0.9)
        expect(surplus, path).toBeLessThan(0.1)
      }
    },
  )
  test.skipIf(folder === undefined)('at least 97 of 100 of these pages have 98 of 100 words', () => {
    const all = [...results.values()].flat()
    // What is missing in order is mostly this: man prints the lines of wide cells of a table in turns.
    const poor = all.filter(({ share }) => share < shareOfWords)
    expect(all.length).toBeGreaterThan(writers.length)
    expect(1 - poor.length / all.length, JSON.stringify(poor)).toBeGreaterThanOrEqual(shareOfPages)
  })
  test.skipIf(folder === undefined)(
    'what man shows in 80 columns, hyphenated, justified and with overstrikes, reads the same',
    () => {
      const known = sources.filter(({ writer }) => writer !== undefined)
      for (const { path } of draw(known, 40))
        expect(shareOf(path, asShown(path)).share, path).toBeGreaterThanOrEqual(shareOfWords)
    },
  )
  test.skipIf(folder === undefined)('every page is read, has a section and a title that names it', () => {
    const drawn = draw(
      sources.filter(({ writer }) => writer !== undefined),
      300,
    )
    for (const { path } of drawn) {
      const intake = maybeManual(path, readFileSync(path))
      if (!intake?.ok) throw new Error(`${path}: ${intake?.sentence ?? 'not taken for a manual page'}`)
      expect(intake.title, path).toMatch(/\([0-9]\w*\)/u)
      expect(intake.text, path).toMatch(/^## \S/mu)
    }
  })
})
