import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { maybeShortLine, takeKeptWords, wordsOf } from '../../../app/words.ts'

const link = 'stillroom:add?address=https%3A%2F%2Fmast.example.org%2F'

describe('the words of a command line', () => {
  it('are in a package all that are no switches', () => {
    const line = ['/opt/stillroom', '--no-sandbox', 'fans.html', '--user-data-dir=/tmp/x', link, '']
    expect(wordsOf(line, '/srv', null)).toEqual({ words: ['fans.html', link], folder: '/srv' })
    expect(wordsOf(['/opt/stillroom'], '/srv', null).words).toEqual([])
  })

  it('are in development only those behind the folder that Electron runs', () => {
    const line = ['electron', '-r', '/tmp/loader.cjs', '--inspect=0', '.', '--no-sandbox', 'fans.html']
    expect(wordsOf(line, '/srv/program', '/srv/program').words).toEqual(['fans.html'])
    expect(wordsOf(['electron', '/srv/main.cjs', 'fans.html'], '/', '/srv/elsewhere').words).toEqual([
      'fans.html',
    ])
    expect(wordsOf(['electron', '/srv/program'], '/', '/srv/program/').words).toEqual([])
  })

  it('may look like switches behind two hyphens', () => {
    expect(wordsOf(['x', 'a', '--', '--fans.html', 'b'], '/', null).words).toEqual(['a', '--fans.html', 'b'])
  })
})

describe('a command line', () => {
  const keptIn = mkdtempSync(join(tmpdir(), 'stillroom-words-'))

  it('is left alone when it is short, or long for its switches alone', () => {
    expect(maybeShortLine(['x', 'fans.html'], '/', null, keptIn)).toBeNull()
    expect(maybeShortLine(['x', `--log=${'a'.repeat(20_000)}`], '/', null, keptIn)).toBeNull()
    expect(readdirSync(keptIn)).toEqual([])
  })

  it('is shortened when it is long, and its words come back once, whatever they are', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ minLength: 1, unit: 'grapheme' })), (some) => {
        const long = [...some, `${link}&selection=${'a'.repeat(20_000)}`]
        const line = ['electron', '.', '--no-sandbox', '--', ...long]
        const short = maybeShortLine(line, '/srv', '/srv', keptIn)
        expect(short?.slice(0, 2)).toEqual(['.', '--no-sandbox'])
        expect(short?.join(' ').length).toBeLessThan(100)
        const again = ['electron', ...(short ?? [])]
        expect(wordsOf(again, '/srv', '/srv').words).toEqual([])
        expect(takeKeptWords(again, keptIn)).toEqual({ words: long, folder: '/srv' })
        expect(takeKeptWords(again, keptIn)).toBeNull()
        expect(readdirSync(keptIn)).toEqual([])
      }),
    )
  })

  it('names no other file for its words', () => {
    writeFileSync(join(keptIn, 'x.json'), '{"words":[],"folder":"/"}')
    for (const id of ['', '../x', 'x', '0123456789abcdeg', '0123456789abcdef'])
      expect(takeKeptWords(['electron', `--stillroom-words=${id}`], keptIn)).toBeNull()
    expect(readdirSync(keptIn)).toEqual(['x.json'])
  })
})
