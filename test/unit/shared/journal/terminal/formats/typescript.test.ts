import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { joined, notesOf, outputOf, read, refusalOf, toBytes } from './support.ts'

const head =
  'Script started on 2026-11-25 22:11:24+01:00 [TERM="xterm" TTY="/dev/pts/0" COLUMNS="97" LINES="24"]\n'
const foot = '\nScript done on 2026-11-25 22:11:28+01:00 [COMMAND_EXIT_CODE="3"]\n'
const startedMs = Date.parse('2026-11-25T22:11:24+01:00')
const body = '$ uptime\r\n 22:11 up 3 days\r\n$ exit\r\n'

describe('a typescript', () => {
  it('gives its session without the lines that script put around it', () => {
    expect(joined(read(head + body + foot))).toEqual([
      { kind: 'opened', format: 'typescript', columns: 97, rows: 24, startedMs },
      { atMs: null, text: body },
      { kind: 'ended', atMs: startedMs + 4000, exitCode: 3 },
    ])
  })

  it('of one command over several lines keeps no line of that command', () => {
    const long = `Script started on 2026-11-25 22:11:24+01:00 [COMMAND="for m in mast vane\ndo echo ] $m\ndone" <not executed on terminal>]\n`
    const events = read(`${long}mast\r\nvane\r\n`)
    expect(events[0]).toMatchObject({ kind: 'opened', columns: null, rows: null, startedMs })
    expect(outputOf(events)).toBe('mast\r\nvane\r\n')
  })

  it.each([
    [
      'in another language',
      'Skript gestartet am 2026-11-25 22:11:24+01:00 [COLUMNS="97" LINES="24"]\n',
      '\nSkript beendet am 2026-11-25 22:11:28+01:00 [COMMAND_EXIT_CODE="3"]\n',
    ],
    [
      'in Cyrillic',
      'Скрипт запущен 2026-11-25 22:11:24+01:00 [COLUMNS="97" LINES="24"]\n',
      '\nСкрипт выполнен 2026-11-25 22:11:28+01:00 [COMMAND_EXIT_CODE="3"]\n',
    ],
    ['of BSD', 'Script started on Wed Nov 25 22:11:24 2026\n', '\nScript done on Wed Nov 25 22:11:28 2026\n'],
    [
      'that reached its size',
      head,
      '\nScript done on 2026-11-25 22:11:28+01:00 [<max output size exceeded>]\n',
    ],
    ['with CRLF behind its head', head.replace('\n', '\r\n'), foot],
    ['cut within its last line', head, '\nScript done on 2026-11-25 22:1'],
  ])('%s is known by its form', (_what, first, last) => {
    const events = read(first + body + last)
    expect(events.map((event) => event.kind)).toEqual(['opened', 'output', 'ended'])
    expect(outputOf(events)).toBe(body)
  })

  it('with a second session behind the first opens twice', () => {
    const events = read(head + body + foot + head.replace('97', '120') + body + foot)
    expect(events.map((event) => event.kind)).toEqual([
      'opened',
      'output',
      'ended',
      'opened',
      'output',
      'ended',
    ])
    expect(outputOf(events)).toBe(body + body)
    expect(events[3]).toMatchObject({ columns: 120 })
  })

  it('that shows another typescript keeps what it shows', () => {
    const shown = (head + body + foot).replaceAll('\r\n', '\n').replaceAll('\n', '\r\n')
    expect(outputOf(read(head + shown + foot))).toBe(shown)
  })

  it('without its end was cut off and is read as far as it goes', () => {
    const events = read(head + body)
    expect(events.some((event) => event.kind === 'ended')).toBe(false)
    expect(outputOf(events)).toBe(body)
  })

  it('followed live gives each piece at once with its time of arrival', () => {
    const events = read(head + body + foot, { isLive: true, cuts: [head.length, head.length + 12] })
    expect(joined(events)).toEqual([
      { kind: 'opened', format: 'typescript', columns: 97, rows: 24, startedMs },
      { atMs: 1_001_000, text: body.slice(0, 12) },
      { atMs: 1_002_000, text: body.slice(12) },
      { kind: 'ended', atMs: startedMs + 4000, exitCode: 3 },
    ])
  })
})

const timing = '0.5 10\n0.25 18\n1.0 8\n'
describe('a classic timing file', () => {
  it('gives every byte its time', () => {
    expect(joined(read(head + body + foot, { timing })).slice(1, 4)).toEqual([
      { atMs: startedMs + 500, text: body.slice(0, 10) },
      { atMs: startedMs + 750, text: body.slice(10, 28) },
      { atMs: startedMs + 1750, text: body.slice(28) },
    ])
  })

  it.each(['0.5 10\n0.25 18\n1.0 9\n', '0.5 10\n0.25 18\n', 'mast 1\nmast 2\n', ''])(
    'that does not fit (%j) is said, and the recording is read without times',
    (other) => {
      const events = read(head + body + foot, { timing: other })
      expect(notesOf(events)).toHaveLength(1)
      expect(notesOf(events)[0]).toMatch(/read without its times/)
      expect(events.filter((event) => event.kind === 'output').map((event) => event.atMs)).toEqual([null])
      expect(outputOf(events)).toBe(body)
    },
  )

  it('gives times as far as it goes where both files were cut off', () => {
    const events = read(head + body, { timing: timing.slice(0, 15) })
    expect(outputOf(events)).toBe(body)
    expect(joined(events).slice(1, 4)).toEqual([
      { atMs: startedMs + 500, text: body.slice(0, 10) },
      { atMs: startedMs + 750, text: body.slice(10, 28) },
      { atMs: null, text: body.slice(28) },
    ])
    expect(notesOf(events)[0]).toMatch(/timing file ends before/)
    const short = read(head + body.slice(0, 20), { timing })
    expect(notesOf(short)[0]).toMatch(/end is missing/)
    expect(outputOf(short)).toBe(body.slice(0, 20))
  })

  it('with CRLF and a damaged line is read too', () => {
    const events = read(head + body + foot, {
      timing: timing.replace('1.0 8', '??\n1.0 8').replaceAll('\n', '\r\n'),
    })
    expect(events.filter((event) => event.kind === 'output')).toHaveLength(3)
    expect(notesOf(events)[0]).toMatch(/^One line of the timing file/)
  })

  it('of the last of several sessions gives that one times and says so', () => {
    const events = read(head + body + 'more' + foot + head + body + foot, { timing })
    expect(notesOf(events)).toEqual([expect.stringMatching(/of the last one only/)])
    const times = events.filter((event) => event.kind === 'output').map((event) => event.atMs)
    expect(times[0]).toBe(null)
    expect(times.slice(-3)).toEqual([startedMs + 500, startedMs + 750, startedMs + 1750])
    expect(outputOf(events)).toBe(body + 'more' + body)
  })

  it('chosen as the recording is refused', () => {
    expect(refusalOf(read(timing))).toMatch(/^timing-file: /)
    expect(refusalOf(read('H 0.000000 START_TIME 2026-11-25 06:30:40+00:00\nO 0.1 3\n'))).toMatch(
      /^timing-file: /,
    )
  })
})

const heads = (output: string | null, input: string | null): string =>
  [
    'H 0.000000 START_TIME 2026-11-25 22:11:24+01:00',
    'H 0.000000 COMMAND for m in mast\ndo echo $m\ndone',
    ...(output === null ? [] : [`H 0.000000 OUTPUT_LOG /var/log/${output}`]),
    ...(input === null ? [] : [`H 0.000000 INPUT_LOG /var/log/${input}`]),
    '',
  ].join('\n')

describe('an advanced timing file', () => {
  it('gives times and new sizes', () => {
    const records = `${heads('logger.log', null)}O 0.5 10\nS 0.5 SIGWINCH ROWS=30 COLS=100\nS 0.1 SIGTERM\nO 0.1 26\nH 0.0 EXIT_CODE 3\n`
    expect(joined(read(head + body + foot, { timing: records })).slice(1, 4)).toEqual([
      { atMs: startedMs + 500, text: body.slice(0, 10) },
      { kind: 'resize', atMs: startedMs + 1000, columns: 100, rows: 30 },
      { atMs: startedMs + 1200, text: body.slice(10) },
    ])
  })

  it('says the size where the log does not', () => {
    const other = head.replace(/\[.*\]/, '[<not executed on terminal>]')
    const records = `H 0.000000 START_TIME 2026-11-25 22:11:24+01:00\nH 0.0 COLUMNS 132\nH 0.0 LINES 50\nH 0.0 OUTPUT_LOG logger.log\nO 0.5 36\n`
    expect(read(other + body + foot, { timing: records })[1]).toEqual({
      kind: 'resize',
      atMs: startedMs,
      columns: 132,
      rows: 50,
    })
  })

  const keys = 'hunter-secret'
  const both = `${head}Password: ${keys}\r\n${foot}`
  const bothRecords = `${heads('logger.log', 'logger.log')}O 0.1 10\nI 0.5 ${keys.length}\nO 0.1 2\n`

  it.each([false, true])('of output and keys in one file leaves the keys out (live: %s)', (isLive) => {
    const events = read(both, { timing: bothRecords, isLive, cuts: [3, head.length + 12] })
    expect(outputOf(events)).toBe('Password: \r\n')
    expect(notesOf(events)).toEqual([expect.stringMatching(/keys that were pressed. They were left out/)])
    expect(JSON.stringify(joined(events))).not.toContain('hunter')
  })

  it('of output and keys in two files adds only the waits', () => {
    const records = `${heads('logger.log', 'keys')}O 0.5 10\nI 1.0 99\nO 0.5 26\n`
    expect(joined(read(head + body + foot, { timing: records })).slice(1, 3)).toEqual([
      { atMs: startedMs + 500, text: body.slice(0, 10) },
      { atMs: startedMs + 2000, text: body.slice(10) },
    ])
  })

  it.each([false, true])('whose log holds only the keys refuses it (live: %s)', (isLive) => {
    const log = `${head}mount /srv/weather\r${keys}\r${foot}`
    const length = log.length - head.length - foot.length
    for (const names of [heads('out', 'logger.log'), heads(null, 'logger.log')]) {
      const events = read(log, { timing: `${names}I 0.5 ${length}\n`, isLive })
      expect(refusalOf(events)).toMatch(/^keys: /)
      expect(outputOf(events)).toBe('')
    }
  })

  it('that does not fit a log with keys refuses it, since nothing tells them from the output', () => {
    const events = read(both, { timing: bothRecords.replace('I 0.5 13', 'I 0.5 12') })
    expect(refusalOf(events)).toMatch(/^keys: .*cannot be told from what was shown/)
    expect(outputOf(events)).toBe('')
  })

  it('that ends before its log with keys does leaves the rest out', () => {
    const cutLog = `${head}Password: ${keys}`
    const events = read(cutLog, { timing: `${heads('logger.log', 'logger.log')}O 0.1 10\n` })
    expect(outputOf(events)).toBe('Password: ')
    expect(notesOf(events)[0]).toMatch(/last 13 bytes of this recording were left out/)
  })

  it('of the last of several sessions with keys leaves the others out', () => {
    const events = read(both.replace('hunter', 'other-') + both, { timing: bothRecords })
    expect(outputOf(events)).toBe('Password: \r\n')
    expect(notesOf(events)[0]).toMatch(/ones before were left out/)
    const live = read(both.replace('22:11:24', '21:11:24') + both, { timing: bothRecords, isLive: true })
    expect(refusalOf(live)).toMatch(/^keys: Several sessions/)
    expect(outputOf(live)).toBe('')
  })

  it('that comes later than its log with keys is waited for', () => {
    const events = read(both, { timing: '', isLive: true })
    expect(outputOf(events)).toBe('')
  })
})

describe('keys in a log without a timing file', () => {
  it('are seen where they stand alone', () => {
    const events = read(`${head}ls -l /etc/hostname\rread -s -p Password: x\rsecret-123\rexit\r${foot}`)
    expect(refusalOf(events)).toMatch(/^keys: /)
    expect(outputOf(events)).toBe('')
  })

  it('are seen where they stand before their echo', () => {
    const events = read(
      `${head}\u001b[?2004h$ llss  --ll  //eettcc\r\r\n\u001b[?2004l\rPassword:secret-123\r\r\n`,
      {
        cuts: [110, 130, 140],
      },
    )
    expect(refusalOf(events)).toMatch(/^keys: /)
  })

  it('are not taken for what a program shows', () => {
    for (const shown of [
      '\r  5 %\r 10 %\r 15 %',
      '\rmast 1\rmast 2\rmast 3',
      '$ echo "=========="\r\r\n',
      'aabbcc\r\r\n',
      '\u001b[1m%\u001b[0m   \r \r$ ',
    ])
      expect(refusalOf(read(head + shown + foot)) ?? 'read').toBe('read')
  })
})

describe('whatever the pieces', () => {
  const line = fc.constantFrom(
    ...['$ ls\r\n', '\n', '\r', 'Script done on ', 'Script started on ', '2026-11-25 22:11:28+01:00 ['],
    ...[head, foot, '\u001b[2J', 'mast é', '[COMMAND_EXIT_CODE="1"]\n', '\r\r\n', 'll', 'ss', '0.5 3\n'],
  )
  const log = fc.array(line, { maxLength: 30 }).map((parts) => head + parts.join('') + foot)
  const cuts = fc.array(fc.nat(), { maxLength: 12 })

  it('a recording says the same as in one piece', () => {
    fc.assert(
      fc.property(log, cuts, (text, places) => {
        expect(joined(read(text, { cuts: places }))).toEqual(joined(read(text)))
      }),
      { numRuns: 400 },
    )
  })

  it('a timed recording gives back exactly the bytes of its sessions, each record at its time', () => {
    const pieces = fc.array(fc.tuple(fc.nat({ max: 3000 }), fc.string({ minLength: 1, maxLength: 20 })), {
      maxLength: 20,
    })
    fc.assert(
      fc.property(pieces, cuts, fc.boolean(), (parts, places, isLive) => {
        const shown = parts.map(([ms, text]) => [ms, text.replaceAll('\n', '\r\n')] as const)
        const records = shown.map(([ms, text]) => `${(ms / 1000).toFixed(6)} ${toBytes(text).length}\n`)
        const text = shown.map(([, part]) => part).join('')
        const events = read(head + text + foot, { timing: records.join(''), cuts: places, isLive })
        fc.pre(records.length > 0)
        expect(outputOf(events)).toBe(Buffer.from(text).toString('latin1'))
        const times = shown.flatMap(([, part], i) =>
          toBytes(part).length === 0
            ? []
            : [shown.slice(0, i + 1).reduce((sum, [ms]) => sum + ms, startedMs)],
        )
        const told = events.filter((event) => event.kind === 'output').map((event) => event.atMs)
        expect([...new Set(told)]).toEqual([...new Set(times)])
      }),
      { numRuns: 300 },
    )
  })

  it('no key of a log that holds them comes through, live or finished', () => {
    const part = fc.record({ isKey: fc.boolean(), length: fc.integer({ min: 1, max: 9 }) })
    fc.assert(
      fc.property(fc.array(part, { maxLength: 30 }), cuts, fc.boolean(), (parts, places, isLive) => {
        const text = parts.map(({ isKey, length }) => (isKey ? 'K' : 'o').repeat(length)).join('')
        const records = parts.map(({ isKey, length }) => `${isKey ? 'I' : 'O'} 0.1 ${length}\n`).join('')
        const timing = heads('logger.log', 'logger.log') + records
        const events = read(head + text + foot, { timing, cuts: places, isLive })
        expect(outputOf(events)).toBe(text.replaceAll('K', ''))
      }),
      { numRuns: 300 },
    )
  })
})
