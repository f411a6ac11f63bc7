/**
 * Texts that exist in several published versions, in pairs of an older and a newer one: the specifications of CommonMark
 * (npm `commonmark-spec`) and of GitHub Flavored Markdown 0.29 (STANDARDS_DIR), and READMEs and changelogs of npm
 * packages. The packages are development dependencies under names that say their versions.
 *
 * One half of the texts is for developing, the other is looked at when all is settled: packages in turns; of the
 * specifications the chapters, by the digest of their titles, so that a chapter is on one side in every version.
 */
import { createHash } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'

export type Half = 'development' | 'frozen'

export interface TextPair {
  readonly name: string
  readonly older: string
  readonly newer: string
  /** Which half a fragment of the older text belongs to that begins at `start` (UTF-16 code units). */
  readonly halfAt: (start: number) => Half
}

const root = process.cwd()
const gfmFile = join(
  process.env.STANDARDS_DIR ?? join(root, '../shared/standards'),
  'commonmark/gfm-0.29-spec.txt',
)
/** Whether the pairs with GFM's specification can be had. */
export const isGfmThere = existsSync(gfmFile)

/** Whether a pair is one of those. */
export const needsGfm = ({ name }: TextPair): boolean => name.includes('GFM')

const readText = (path: string): string => readFileSync(path, 'utf8').replaceAll('\r\n', '\n')
const ofPackage = (path: string): string => readText(join(root, 'node_modules', path))

const specPairs: readonly (readonly [string, string])[] = [
  ['0.28', '0.29'],
  ['0.29', '0.30'],
  ['0.30', '0.31'],
  ['0.28', '0.31'],
  ['0.29', 'GFM'],
  ['GFM', '0.31'],
]

/** Package, the file in the older version and in the newer one. Halves take turns from package to package. */
const packagePairs: readonly (readonly [string, readonly (readonly [string, string])[]])[] = [
  ['acorn', [['acorn-6/README.md', 'acorn-8/README.md'], ['acorn-6/CHANGELOG.md', 'acorn-8/CHANGELOG.md']]], // prettier-ignore
  ['commander', [['commander-5/Readme.md', 'commander-8/Readme.md'], ['commander-8/Readme.md', 'commander-14/Readme.md']]], // prettier-ignore
  ['cookie', [['cookie-0.4/README.md', 'cookie-1/README.md']]],
  ['dotenv', [['dotenv-8/README.md', 'dotenv-16/README.md'], ['dotenv-8/CHANGELOG.md', 'dotenv-16/CHANGELOG.md']]], // prettier-ignore
  ['iconv-lite', [['iconv-lite-0.4/README.md', 'iconv-lite-0.6/README.md'], ['iconv-lite-0.4/Changelog.md', 'iconv-lite-0.6/Changelog.md']]], // prettier-ignore
  ['lru-cache', [['lru-cache-7/README.md', 'lru-cache-10/README.md']]],
  ['path-to-regexp', [['path-to-regexp-3/Readme.md', 'path-to-regexp-6/Readme.md'], ['path-to-regexp-6/Readme.md', 'path-to-regexp-8/Readme.md']]], // prettier-ignore
  ['picomatch', [['picomatch-2/README.md', 'picomatch-4/README.md']]],
  [
    'qs',
    [
      ['qs-6.5/README.md', 'qs-6.9/README.md'],
      ['qs-6.5/CHANGELOG.md', 'qs-6.9/CHANGELOG.md'],
    ],
  ],
  ['semver', [['semver-5/README.md', 'semver-7/README.md']]],
  ['uuid', [['uuid-8/README.md', 'uuid-11/README.md']]],
  ['ws', [['ws-7/README.md', 'ws-8/README.md']]],
  ['yargs-parser', [['yargs-parser-20/CHANGELOG.md', 'yargs-parser-21/CHANGELOG.md']]],
  ['commonmark-spec', [['commonmark-spec-0.28/changelog.txt', 'commonmark-spec-0.29/changelog.txt'], ['commonmark-spec-0.28/README.md', 'commonmark-spec-0.31/README.md']]], // prettier-ignore
]

/** All pairs that can be had here. */
export function readPairs(): TextPair[] {
  const spec = (version: string): string =>
    version === 'GFM' ? readText(gfmFile) : ofPackage(`commonmark-spec-${version}/spec.txt`)
  const specs = specPairs
    .filter((versions) => isGfmThere || !versions.includes('GFM'))
    .map(([from, to]): TextPair => {
      const older = spec(from)
      const name = `CommonMark ${from} → ${to}`
      return { name, older, newer: spec(to), halfAt: byChapter(older) }
    })
  const packages = packagePairs.flatMap(([, files], at) =>
    files.map(([from, to]): TextPair => {
      const half: Half = at % 2 === 0 ? 'development' : 'frozen'
      return {
        name: `${from} → ${to}`,
        older: ofPackage(from),
        newer: ofPackage(to),
        halfAt: () => half,
      }
    }),
  )
  return [...specs, ...packages]
}

function byChapter(text: string): TextPair['halfAt'] {
  const chapters = [...text.matchAll(/^##? (.+)$/gmu)].map(({ index, 1: title }) => ({
    start: index,
    half: halfOfTitle(title!),
  }))
  return (start) => chapters.findLast((chapter) => chapter.start <= start)?.half ?? 'development'
}

function halfOfTitle(title: string): Half {
  const digest = createHash('sha256').update(title.toLowerCase()).digest()
  return digest[0]! % 2 === 0 ? 'development' : 'frozen'
}
