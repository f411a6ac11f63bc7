/**
 * A folder of real files as people have them: pages, PDFs and manual pages of Debian's documentation packages, pages that a
 * browser saved whole (MHTML) and its exported bookmarks. Which ones is drawn by a fixed seed.
 */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { basename, join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { draw, seededNumbers } from './drawing.ts'

export type CorpusKind = 'page' | 'pdf' | 'manual' | 'web archive' | 'bookmarks'

export interface CorpusFile {
  readonly kind: CorpusKind
  /** Where it lies in the folder, with slashes. */
  readonly name: string
  /** The whole path there. */
  readonly path: string
  /** Below DOCS_DIR or STANDARDS_DIR. */
  readonly from: string
  /** For a page: selector of its main content, looked up in the generator's templates, and of what in it is none. */
  readonly main?: string
  readonly without?: string
}

/** Where each generator keeps a page's main content. The first pattern that fits counts. */
const mainOf: readonly (readonly [RegExp, string, string?])[] = [
  [/^doc\/git-doc\//, '#header, #content'],
  [/^doc\/apache2-doc\//, '#page-content', '#preamble .toplang, .top, #quickview, .section h2 > .permalink'],
  [/^doc\/postgresql-doc-15\//, 'body > div:not(.navheader):not(.navfooter)'],
  [/^doc\/installation-guide-amd64\//, 'body > div:not(.navheader):not(.navfooter)'],
  [/^debian-reference\//, 'body > div:not(.navheader):not(.navfooter)'],
  [
    /^doc\/debian-handbook\//,
    'body > div.section, body > div.chapter, body > div.preface, body > div.appendix',
  ],
  [/^(?:developers-reference|doc\/python3\.11)\//, 'div.body[role=main]', '.headerlink'],
  [/^doc\/postfix\//, 'body'],
  [/^doc\/mkdocs\//, 'div[role=main]', '.headerlink'],
  [/^doc\/nodejs\//, '#apicontent'],
  [/^doc\/rust-doc\/html\/book\//, '#content main'],
]

const isEnglish = (path: string): boolean =>
  !/\.(?!en\.)[a-z]{2}(?:_[A-Z]{2})?\.html$|\/(?:[a-z]{2}(?:_[A-Z]{2})?)\/(?!.*\.pdf)/.test(path) ||
  /\/(?:en|en-US)\//.test(path)

function walk(folder: string, below = ''): string[] {
  if (!existsSync(join(folder, below))) return []
  return readdirSync(join(folder, below), { withFileTypes: true })
    .sort((one, other) => (one.name < other.name ? -1 : 1))
    .flatMap((entry) => {
      const path = below === '' ? entry.name : `${below}/${entry.name}`
      return entry.isDirectory() ? walk(folder, path) : entry.isFile() ? [path] : []
    })
}

/** How many of each kind are drawn. */
export interface CorpusSize {
  readonly pages: number
  readonly pdfs: number
  readonly manuals: number
}

/**
 * Fills an empty folder.
 * @param docs where documentation packages are unpacked, as below /usr/share
 * @param standards the standards' test files; null where they are absent
 */
export function makeCorpus(
  docs: string,
  standards: string | null,
  folder: string,
  size: CorpusSize,
  seed = 4,
): CorpusFile[] {
  const next = seededNumbers(seed)
  const all = ['doc', 'debian-reference', 'developers-reference', 'man'].flatMap((below) => walk(docs, below))
  const between = (path: string, from: number, to: number): boolean => {
    const { size: bytes } = statSync(join(docs, path))
    return bytes >= from && bytes <= to
  }
  const pages = all.filter(
    (path) =>
      path.endsWith('.html') &&
      isEnglish(path) &&
      maybeMain(path) !== undefined &&
      between(path, 3000, 300_000),
  )
  // Leaflets of debian-refcard, folded to three columns of small tables, are not among them: pdftotext itself mixes their
  // boxes, so it is no yardstick for their order. We keep 77 to 92 % of their words in its order.
  const pdfs = all.filter(
    (path) => /\.pdf(?:\.gz)?$/.test(path) && between(path, 1, 1_500_000) && !path.includes('debian-refcard'),
  )
  const manuals = all.filter((path) => /^man\/man\d\/.*\.gz$/.test(path) && between(path, 600, 200_000))
  const files: CorpusFile[] = []
  const add = (kind: CorpusKind, root: string, path: string): void => {
    const into = join(folder, kind)
    mkdirSync(into, { recursive: true })
    const plain = basename(path).replace(/\.pdf\.gz$/, '.pdf')
    const taken = existsSync(join(into, plain)) ? `${files.length}-${plain}` : plain
    const target = join(into, taken)
    if (path.endsWith('.pdf.gz')) writeFileSync(target, gunzipSync(readFileSync(join(root, path))))
    else copyFileSync(join(root, path), target)
    const [main, without] = maybeMain(path) ?? []
    files.push({
      kind,
      name: `${kind}/${taken}`,
      path: target,
      from: path,
      ...(main === undefined ? {} : { main }),
      ...(without === undefined ? {} : { without }),
    })
  }
  for (const path of draw(pages, size.pages, next)) add('page', docs, path)
  for (const path of draw(pdfs, size.pdfs, next)) add('pdf', docs, path)
  for (const path of draw(manuals, size.manuals, next)) add('manual', docs, path)
  if (standards !== null) {
    for (const path of walk(standards, 'html-mhtml').filter((one) => /^[^/]*\/[^/]*\.mhtml$/.test(one)))
      add('web archive', standards, path)
    for (const name of ['chromium156-export.html', 'firefox153esr-export.html'])
      if (existsSync(join(standards, 'bookmarks', name))) add('bookmarks', standards, `bookmarks/${name}`)
  }
  return files
}

function maybeMain(path: string): readonly [string, string | undefined] | undefined {
  const found = mainOf.find(([pattern]) => pattern.test(path))
  return found && [found[1], found[2]]
}
