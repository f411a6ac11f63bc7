/**
 * A collection on which constants of finding may be chosen, since no claim is measured on it: descriptions of Debian packages,
 * asked for by the words of the debtags vocabulary that explain a tag; those packages are relevant that bear the tag. It is
 * read from three files of Debian: Packages and Translation-en of a release, and the vocabulary of the package debtags.
 */
import { createHash } from 'node:crypto'
import type { FindDocument } from '../../../shared/find/document.ts'
import { textDocument } from '../find.ts'
import type { JudgedQuery, KnownItem } from './collections.ts'

export interface DescribedPackage {
  readonly name: string
  /** One line. */
  readonly summary: string
  readonly text: string
  readonly tags: ReadonlySet<string>
}

/** Shorter descriptions say too little to be looked for. Characters. */
const SHORTEST = 150
/** A quarter of the packages is enough. */
const SHARE = 64

/** Those with tags and a description that no other has; a quarter of them, drawn by the MD5 sum of their names. */
export function toPackages(packages: string, translation: string): DescribedPackage[] {
  const tagged = new Map(
    stanzasOf(packages).flatMap((fields) => {
      const tags = fields.get('Tag')?.match(/[^,\s]+/g)
      return tags ? [[fields.get('Package')!, { tags, sum: fields.get('Description-md5') }] as const] : []
    }),
  )
  const seen = new Set<string>()
  return stanzasOf(translation).flatMap((fields) => {
    const name = fields.get('Package')!
    const known = tagged.get(name)
    if (!known || known.sum !== fields.get('Description-md5')) return []
    const [summary = '', ...rest] = fields.get('Description-en')!.split('\n')
    const text = rest.map((line) => (line.trim() === '.' ? '' : line.slice(1))).join('\n')
    if (text.trim().length < SHORTEST || seen.has(text.trim())) return []
    seen.add(text.trim())
    return isDrawn(name) ? [{ name, summary, text, tags: new Set(known.tags) }] : []
  })
}

function isDrawn(name: string): boolean {
  return createHash('md5').update(name).digest()[0]! < SHARE
}

export function titledBySummary(packages: readonly DescribedPackage[]): FindDocument[] {
  return packages.map(({ name, summary, text }) => textDocument({ id: name, title: summary, text }))
}

export function titledByName(packages: readonly DescribedPackage[]): FindDocument[] {
  return packages.map(({ name, text }) => textDocument({ id: name, title: name, text }))
}

/** Summaries of every fifth package; to be found where packages are titled by their names. */
export function summaries(packages: readonly DescribedPackage[]): KnownItem[] {
  return packages.flatMap(({ name, summary }, at) => (at % 5 === 0 ? [{ typed: summary, wanted: name }] : []))
}

/** Facets that tell how a package is made, not what it is about. */
const made = /^(?:role|implemented-in|special|suite|uitoolkit|interface|devel|culture|scope|made-of|langdev)/
const FEWEST_RELEVANT = 3
const MOST_RELEVANT = 0.05

/** Tags of three packages or more, but of no more than a twentieth. @param isLong with all of the tag's explanation */
export function topicsOf(
  vocabulary: string,
  packages: readonly DescribedPackage[],
  isLong: boolean,
): JudgedQuery[] {
  return stanzasOf(vocabulary).flatMap((fields) => {
    const tag = fields.get('Tag')
    if (tag === undefined || made.test(tag)) return []
    const relevant = new Set(packages.flatMap(({ name, tags }) => (tags.has(tag) ? [name] : [])))
    if (relevant.size < FEWEST_RELEVANT || relevant.size > packages.length * MOST_RELEVANT) return []
    const [short = '', ...more] = (fields.get('Description') ?? '').split('\n').map((line) => line.trim())
    const explanation = more.filter((line) => line !== '.' && line !== '').join(' ')
    return [{ typed: isLong ? `${short}. ${explanation}`.trim() : short, relevant }]
  })
}

/** Stanzas of deb822(5): fields, each with its further lines. */
function stanzasOf(text: string): Map<string, string>[] {
  return text
    .split(/\n{2,}/)
    .filter((stanza) => stanza.trim() !== '')
    .map((stanza) => new Map(stanza.split(/\n(?=\S)/).map(toField)))
}

function toField(field: string): [string, string] {
  const colon = field.indexOf(':')
  return [field.slice(0, colon).trim(), field.slice(colon + 1).trim()]
}
