import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { joined, notesOf, outputOf, read, refusalOf } from './support.ts'

const head = '{"version": 2, "width": 97, "height": 24, "timestamp": 1795641084}'
const events = ['[0.5, "o", "$ uptime\\r\\n"]', '[1.0, "o", "é日\\u001b[1m\\r\\n"]']
const cast = [head, ...events, ''].join('\n')

describe('an asciicast of version 2', () => {
  it('gives its output as UTF-8 at its times', () => {
    expect(joined(read(cast))).toEqual([
      { kind: 'opened', format: 'asciicast', columns: 97, rows: 24, startedMs: 1795641084000 },
      { atMs: 1795641084500, text: '$ uptime\r\n' },
      { atMs: 1795641085000, text: Buffer.from('é日\u001b[1m\r\n').toString('latin1') },
    ])
  })

  it('gives new sizes and marks, and passes over codes of others', () => {
    const more = ['[2, "r", "120x40"]', '[3, "m", "Fan is in"]', '[4, "z", "later"]', '[5, "r", "wide"]']
    expect(joined(read([cast, ...more, '[6, "o", "x"]'].join('\n'))).slice(3)).toEqual([
      { kind: 'resize', atMs: 1795641086000, columns: 120, rows: 40 },
      { kind: 'mark', atMs: 1795641087000, label: 'Fan is in' },
      { atMs: 1795641090000, text: 'x' },
      { kind: 'note', sentence: expect.stringMatching(/^One line of the recording/) as string },
    ])
  })

  it('leaves out what was typed and says so once', () => {
    const read2 = read([head, '[0.5, "i", "secret-1"]', ' [ 0.6 , "i", "secret-2"]', ...events].join('\n'))
    expect(JSON.stringify(joined(read2))).not.toContain('secret')
    expect(notesOf(read2)).toHaveLength(1)
    expect(outputOf(read2)).toContain('$ uptime')
  })

  it('with CRLF, empty lines and a broken last line is read as far as it is whole', () => {
    const read2 = read(cast.replaceAll('\n', '\r\n\r\n') + '[2.0, "o", "$ ex')
    expect(outputOf(read2)).toBe(outputOf(read(cast)))
    expect(notesOf(read2)).toEqual([expect.stringMatching(/ends in the middle of a line/)])
  })

  it('without a start has no times and says so', () => {
    const read2 = read(cast.replace(', "timestamp": 1795641084', ''))
    expect(notesOf(read2)[0]).toMatch(/does not say when it was made/)
    expect(read2.filter((event) => event.kind === 'output').map((event) => event.atMs)).toEqual([null, null])
  })

  it.each([
    ['{"version":1,"width":80,"height":24,"stdout":[[0.1,"x"]]}', '1'],
    ['{\n  "version": 1,\n  "width": 80,\n  "stdout": []\n}', '1'],
    ['{"version":3,"term":{"cols":80,"rows":24}}\n[0.1,"o","x"]\n', '3'],
  ])('of another version is refused by its number: %s', (text, version) => {
    expect(refusalOf(read(text))).toMatch(new RegExp(`^version: .*in version ${version}, and only version 2`))
  })

  it('whatever the pieces, says the same as in one piece', () => {
    const line = fc.constantFrom(...events, head, '[1, "i", "k"]', '[2, "r", "90x20"]', 'broken', '', '[]')
    fc.assert(
      fc.property(fc.array(line, { maxLength: 20 }), fc.array(fc.nat(), { maxLength: 9 }), (lines, cuts) => {
        const text = [head, ...lines].join('\n')
        expect(joined(read(text, { cuts }))).toEqual(joined(read(text)))
        expect(outputOf(read(text, { cuts, isLive: true }))).toBe(outputOf(read(text)))
      }),
      { numRuns: 300 },
    )
  })
})
