import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  compareNames,
  isCompanionFolder,
  isUnfinishedName,
  maybeSegments,
} from '../../../../shared/intake/folder-rules.ts'

describe('by its name', () => {
  it.each([
    'Rack.html.crdownload',
    'x.PART',
    'x.download',
    'x.tmp',
    '.x.html',
    '.x.html.k3d.part',
    'notes.md~',
  ])('%s is still being written', (name) => expect(isUnfinishedName(name)).toBe(true))
  it.each(['Rack.html', 'part', 'download.pdf', 'tmp.txt', 'a.part.pdf'])('%s is complete', (name) =>
    expect(isUnfinishedName(name)).toBe(false),
  )

  it('a folder beside its page holds that page’s pictures', () => {
    const files = ['Rack.html', 'notes.md']
    expect(isCompanionFolder('Rack_files', files)).toBe(true)
    expect(isCompanionFolder('Rack-Dateien', files)).toBe(true)
    expect(isCompanionFolder('Other_files', [])).toBe(true)
    expect(isCompanionFolder('Rack-photos', files)).toBe(false)
    expect(isCompanionFolder('notes-Dateien', files)).toBe(false)
    expect(isCompanionFolder('Rack', files)).toBe(false)
  })
})

describe('a relative name', () => {
  it('leads down and nowhere else', () => {
    expect(maybeSegments('rack/fans.html')).toEqual(['rack', 'fans.html'])
    expect(maybeSegments('..rack')).toEqual(['..rack'])
  })
  it.each([
    '',
    '/etc/passwd',
    '..',
    '../x',
    'a/../../x',
    'a//b',
    './x',
    'a/',
    'C:\\x',
    'a\\..\\x',
    'x:stream',
    'a\0b',
  ])('is none that reads %j', (name) => expect(maybeSegments(name)).toBeUndefined())
})

it('names are ordered by their numbers, and only equal ones are equal', () => {
  expect(['part 10', 'part 2', 'a'].sort(compareNames)).toEqual(['a', 'part 2', 'part 10'])
  fc.assert(
    fc.property(fc.string(), fc.string(), (one, other) => {
      expect(compareNames(one, other) === 0).toBe(one === other)
    }),
  )
})
