import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { summaries, toPackages, topicsOf } from '../../support/retrieval/packages.ts'

/** Names that are drawn: a quarter of all. */
const names = Array.from({ length: 800 }, (_, at) => `gauge-${at}`).filter(
  (name) => createHash('md5').update(name).digest()[0]! < 64,
)
const long =
  'reads wind and rain from a mast and writes them down, once a minute, in a file for each day. '.repeat(2)

const packages = names
  .map(
    (name, at) =>
      `Package: ${name}\nDescription-md5: ${at}\nTag: role::program,${at < 4 ? ' field::weather,' : ''}\n admin::logging`,
  )
  .join('\n\n')
const translation = names
  .map(
    (name, at) =>
      `Package: ${name}\nDescription-md5: ${at}\nDescription-en: gauge number ${at}\n ${name} ${long}\n .\n It is small.`,
  )
  .join('\n\n')
const vocabulary = [
  'Facet: field\nDescription: Field',
  'Tag: field::weather\nDescription: Weather\n Wind, rain\n .\n and sun.',
  'Tag: role::program\nDescription: Program',
  'Tag: admin::logging\nDescription: Logging',
].join('\n\n')

describe('the collection of packages', () => {
  const read = toPackages(packages, translation)

  it('has a package with its summary, its text without the marks of stanzas, and its tags', () => {
    expect(read.map(({ name }) => name)).toEqual(names)
    expect(read[0]!.summary).toBe('gauge number 0')
    expect(read[0]!.text.split('\n').slice(1)).toEqual(['', 'It is small.'])
    expect([...read[0]!.tags]).toEqual(['role::program', 'field::weather', 'admin::logging'])
  })

  it('leaves out one of another state, one without tags, a repeated description and a short one', () => {
    const changed = translation.replace('Description-md5: 0', 'Description-md5: 900')
    expect(toPackages(packages, changed).map(({ name }) => name)).toEqual(names.slice(1))
    const untagged = packages.replace(/Tag: .*\n.*/, 'Priority: optional')
    expect(toPackages(untagged, translation).map(({ name }) => name)).toEqual(names.slice(1))
    const repeated = translation.replace(`${names[1]!} ${long}`, `${names[0]!} ${long}`)
    expect(toPackages(packages, repeated).map(({ name }) => name)).toEqual([names[0], ...names.slice(2)])
    const short = translation.replace(`${names[0]!} ${long}`, 'a gauge')
    expect(toPackages(packages, short).map(({ name }) => name)).toEqual(names.slice(1))
  })

  it('asks for tags of what packages are about that some but not most bear', () => {
    const relevant = new Set(names.slice(0, 4))
    expect(topicsOf(vocabulary, read, false)).toEqual([{ typed: 'Weather', relevant }])
    expect(topicsOf(vocabulary, read, true)).toEqual([{ typed: 'Weather. Wind, rain and sun.', relevant }])
  })

  it('asks for every fifth package by its summary', () => {
    expect(summaries(read)[1]).toEqual({ typed: 'gauge number 5', wanted: names[5] })
  })
})
