import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { completionsOf, filterNames } from '../../../../renderer/find/completions.ts'
import { isLonePath, movedRanges, withoutRange } from '../../../../renderer/find/typed.ts'
import { readQuery } from '../../../../shared/find/query/read-query.ts'

describe('a stretch that is taken out of what was typed', () => {
  it('leaves the words around it apart by one blank, and none at the ends', () => {
    expect(withoutRange('disk kind:fix today', { start: 5, end: 13 })).toBe('disk today')
    expect(withoutRange('kind:fix disk', { start: 0, end: 8 })).toBe('disk')
    expect(withoutRange('disk  kind:fix', { start: 6, end: 14 })).toBe('disk')
    expect(withoutRange('kind:fix', { start: 0, end: 8 })).toBe('')
  })
})

test('a kept stretch says the same words after an edit elsewhere, and is gone after one in it', () => {
  fc.assert(
    fc.property(fc.string(), fc.string({ minLength: 1 }), fc.string(), fc.string(), (a, kept, b, typed) => {
      const before = a + kept + b
      const range = { start: a.length, end: a.length + kept.length }
      for (const after of [typed + before, before + typed]) {
        const [moved] = movedRanges(before, after, [range])
        if (moved) expect(after.slice(moved.start, moved.end)).toBe(kept)
      }
    }),
  )
  expect(movedRanges('disk last March', 'a disk last March', [{ start: 5, end: 15 }])).toEqual([
    { start: 7, end: 17 },
  ])
  expect(movedRanges('disk last March', 'disk last May', [{ start: 5, end: 15 }])).toEqual([])
})

test('a path alone is one, words and quoted paths are none', () => {
  expect(isLonePath(' /etc/fstab ')).toBe(true)
  expect(isLonePath('~/.bashrc')).toBe(true)
  expect(isLonePath('/etc/fstab noatime')).toBe(false)
  expect(isLonePath('"/etc/fstab"')).toBe(false)
  expect(isLonePath('fstab')).toBe(false)
})

describe('how a filter may go on', () => {
  const values = {
    projects: ['Weather logger', 'Rack "power"', 'Weather mast'],
    tags: ['power', 'net/dns'],
    places: ['gate'],
  }

  it('is said in the order of what begins so before what holds it, and read as that filter', () => {
    expect(completionsOf('disk kind:', values).map(({ text }) => text)).toContain('kind:fix')
    expect(completionsOf('in:weather m', values)).toEqual([])
    const [first, second] = completionsOf('disk in:weather', values)
    expect([first!.text, second!.text]).toEqual(['in:"Weather logger"', 'in:"Weather mast"'])
    expect(completionsOf('disk in:"weather m', values).map(({ typed }) => typed)).toEqual([
      'disk in:"Weather mast" ',
    ])
    const projects = values.projects.map((title) => ({ id: title, title }))
    const query = readQuery(first!.typed, { now: 0, offsetAt: () => 0, projects })
    expect(query.filters).toMatchObject([{ by: 'project', projects: ['Weather logger'] }])
    expect(query.words.map(({ written }) => written)).toEqual(['disk'])
  })

  it('offers nothing where the value is whole, or where no filter is typed', () => {
    expect(completionsOf('kind:fix', values)).toEqual([])
    expect(completionsOf('kind', values)).toEqual([])
    expect(completionsOf('not:', values)).toEqual([])
    for (const name of filterNames) expect(completionsOf(`${name} disk`, values)).toEqual([])
  })
})
