import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  checkArgument,
  checkResult,
  done,
  failed,
  hostCallNames,
  isBytes,
  isFileName,
  largestFileBytes,
  refusedFile,
  toFileName,
} from '../../../shared/host.ts'

const save = {
  suggestedName: 'rack.md',
  mediaType: 'text/markdown; charset=utf-8',
  bytes: new Uint8Array([1]),
}

describe('an argument passes only in the shape of the contract', () => {
  it('as agreed', () => {
    expect(checkArgument('saveFile', save)).toEqual(save)
    expect(checkArgument('openFiles', { accept: ['.md'], multiple: true, limitBytes: 1 })).toBeTruthy()
    expect(checkArgument('describe', undefined)).toBeUndefined()
  })

  it.each([
    ['a path for a name', { ...save, suggestedName: '../rack.md' }],
    ['no name', { ...save, suggestedName: '' }],
    ['text for bytes', { ...save, bytes: 'x' }],
    ['an array for bytes', { ...save, bytes: [1] }],
    ['something more', { ...save, path: '/etc/passwd' }],
    ['a made-up media type', { ...save, mediaType: 'markdown' }],
    ['nothing', undefined],
    ['null', null],
  ])('not with %s', (_what, argument) => {
    expect(() => checkArgument('saveFile', argument)).toThrow('the argument of saveFile is not as agreed')
  })

  it('not with a limit beyond what a file may hold', () => {
    const argument = { accept: [], multiple: false, limitBytes: largestFileBytes + 1 }
    expect(() => checkArgument('openFiles', argument)).toThrow('at limitBytes')
  })

  it('not with another name for a lab than its id, nor another token than the host gives', () => {
    const lab = '0198a8c0-0000-7000-8000-000000000001'
    expect(checkArgument('findDropFolder', { lab })).toEqual({ lab })
    for (const other of ['', '..', `${lab}/..`, lab.slice(1), 1])
      expect(() => checkArgument('findDropFolder', { lab: other })).toThrow('at lab')
    const token = '0123456789abcdef'.repeat(2)
    expect(checkArgument('readChosenFile', { token, limitBytes: 1 })).toEqual({ token, limitBytes: 1 })
    for (const other of ['', '/etc/passwd', token.slice(1), token.toUpperCase()])
      expect(() => checkArgument('readChosenFile', { token: other, limitBytes: 1 })).toThrow('at token')
  })

  it('never with just anything, for any call that takes something', () => {
    const takingNothing = ['describe', 'chooseFolder', 'takeArrivals', 'newWindow', 'readyToClose']
    const taking = hostCallNames.filter((name) => !takingNothing.includes(name))
    expect(taking.length).toBeGreaterThan(10)
    fc.assert(
      fc.property(fc.constantFrom(...taking), fc.jsonValue(), (name, anything) => {
        expect(() => checkArgument(name, anything)).toThrow(TypeError)
      }),
    )
  })
})

describe('an answer passes only in the shape of the contract', () => {
  it('as a success or as a failure with a sentence', () => {
    expect(checkResult('saveFile', done({ kind: 'saved', name: 'a.md' }))).toEqual(
      done({ kind: 'saved', name: 'a.md' }),
    )
    const failure = failed('unsupported', 'This needs the Stillroom program; a browser cannot do it.')
    expect(checkResult('saveFile', failure)).toEqual(failure)
  })

  it.each([
    undefined,
    null,
    { ok: true },
    { ok: true, value: 'saved' },
    { ok: false, code: 'lost', sentence: '' },
    { ok: false },
  ])('not as %j', (result) => {
    expect(() => checkResult('saveFile', result)).toThrow('the answer of saveFile is not as agreed')
  })

  it('with every refused file named, measured and explained', () => {
    const refused = refusedFile('log.txt', 61_234_567, 50_000_000)
    expect(refused).toMatchObject({ kind: 'refused', name: 'log.txt', size: 61_234_567, limit: 50_000_000 })
    expect(checkResult('openFiles', done({ kind: 'opened', files: [refused] }))).toBeTruthy()
    expect(JSON.stringify(refused)).toContain('“log.txt” holds 61.3 MB, more than the 50.0 MB')
  })
})

describe('a file name', () => {
  it('is made from any text, and is then one', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => isFileName(toFileName(text))))
  })

  it('is kept when it is one already', () => {
    expect(toFileName('Replace the logger’s disk.md')).toBe('Replace the logger’s disk.md')
    expect(toFileName('a/b: c')).toBe('a-b- c')
    expect(toFileName('...')).toBe('untitled')
  })
})

it('bytes are known in any realm, and only bytes', () => {
  expect(isBytes(Buffer.from('x'))).toBe(true)
  expect(isBytes(new Uint16Array(1))).toBe(false)
  expect(isBytes(new ArrayBuffer(1))).toBe(false)
})
