import { gzipSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { createRecordingReader } from '../../../../../../shared/journal/terminal/formats/recording.ts'
import { joined, outputOf, read, refusalOf, toBytes } from './support.ts'

describe('plain bytes', () => {
  it.each([
    ['of a multiplexer', '\u001b[?2004h$ uptime\r\n\u001b[?2004l 22:11 up\r\n'],
    ['of a serial console', '\0\0[    0.000000] Booting Linux\r\nlogger login: \u0007'],
    ['in Latin-1', Buffer.from('T\xfcr auf\r\n'.repeat(9), 'latin1')],
    ['that begin with a brace', '{ echo mast; }\r\nmast\r\n'],
  ])('%s are read as they are, and their width is not known', (_what, log) => {
    const events = read(log)
    expect(events[0]).toEqual({ kind: 'opened', format: 'plain', columns: null, rows: null, startedMs: null })
    expect(outputOf(events)).toBe(Buffer.from(log as string).toString('latin1'))
  })

  it('that arrive live have their times of arrival', () => {
    expect(joined(read('$ ls\r\nfans\r\n', { isLive: true, cuts: [6] })).slice(1)).toEqual([
      { atMs: 1_000_000, text: '$ ls\r\n' },
      { atMs: 1_001_000, text: 'fans\r\n' },
    ])
  })

  it('are shown live at once, however few', () => {
    const reader = createRecordingReader({ name: 'tty', isLive: true, isTimed: false, measured: null })
    expect(reader.push(toBytes('$ '), 5).map((event) => event.kind)).toEqual(['opened', 'output'])
  })
})

describe('refused with a sentence is', () => {
  const noise = Uint8Array.from({ length: 5000 }, (_, i) => (i * i * 31 + i * 7) % 256)
  it.each([
    ['a gzip file', new Uint8Array(gzipSync('$ ls\r\n')), /^binary: .*compressed \(gzip\)/],
    ['a program', toBytes('\u007fELF\u0002\u0001\u0001'), /^binary: .*is a program/],
    ['noise', noise, /^binary: .*bytes that are no text/],
    ['an empty file', '', /^empty: /],
  ])('%s', (_what, bytes, sentence) => {
    const events = read(bytes)
    expect(refusalOf(events)).toMatch(sentence)
    expect(events).toHaveLength(1)
  })

  it('and then nothing follows', () => {
    const reader = createRecordingReader({ name: 'a.gz', isLive: true, isTimed: false, measured: null })
    expect(reader.push(new Uint8Array(gzipSync('x')), 1)).toHaveLength(1)
    expect([...reader.push(toBytes('$ ls\r\n'), 2), ...reader.end()]).toEqual([])
  })
})

describe('whatever comes', () => {
  it('the joined output of plain bytes is what came, however it is cut', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', minLength: 1 }),
        fc.array(fc.nat(), { maxLength: 9 }),
        (text, cuts) => {
          const log = `$ ${text}`
          fc.pre(refusalOf(read(log)) === undefined)
          expect(outputOf(read(log, { cuts }))).toBe(Buffer.from(log).toString('latin1'))
        },
      ),
      { numRuns: 300 },
    )
  })

  it('no bytes make it throw', () => {
    const some = fc.uint8Array({ maxLength: 300 })
    fc.assert(
      fc.property(
        some,
        fc.option(some),
        fc.array(fc.nat(), { maxLength: 5 }),
        fc.boolean(),
        (log, timing, cuts, isLive) => {
          read(log, { cuts, isLive, ...(timing === null ? {} : { timing }) })
        },
      ),
      { numRuns: 500 },
    )
  })

  it('a recording of 100 MB is read in pieces, none of which is kept', () => {
    const head = 'Script started on 2026-11-25 22:11:24+01:00 [COLUMNS="97" LINES="24"]\n'
    const reader = createRecordingReader({ name: 'long', isLive: false, isTimed: false, measured: null })
    const piece = toBytes('2026-11-25T22:11:24Z mast-3 wind 4.1 m/s from 270 deg\r\n'.repeat(19_000))
    let bytes = 0
    const count = (events: ReturnType<typeof reader.push>): void => {
      for (const event of events) if (event.kind === 'output') bytes += event.bytes.length
    }
    count(reader.push(toBytes(head), null))
    for (let i = 0; i < 100; i += 1) count(reader.push(piece.slice(), null))
    count(reader.end())
    expect(bytes).toBe(piece.length * 100)
  })
})
