import { describe, expect, it } from 'vitest'
import { contentOf } from '../../../../../shared/journal/files/content.ts'
import type { FoundCommand } from '../../../../../shared/journal/terminal/found.ts'
import { entriesOf, MOST_IN_ENTRY, shortened } from '../../../../../shared/journal/terminal/offers.ts'
import { addMachine } from '../../../../../shared/lab/acts.ts'
import { repeatableSurroundings } from '../../../support/lab.ts'

const around = repeatableSurroundings(2)
const gate = addMachine(around, { name: 'gate' }).machine
const weather = addMachine(around, { name: 'weather' }).machine
const log = { name: 'gate.log', machine: weather, machines: [gate, weather], offset: 60 }
const found: FoundCommand = {
  command: 'cat <<E > /etc/motd\n```\nE',
  output: 'done ```` so',
  exitCode: 1,
  place: { host: 'gate.obs.home.arpa', user: 'root', directory: '/etc' },
  started: Date.UTC(2026, 10, 25, 21),
  ended: Date.UTC(2026, 10, 25, 21, 0, 4),
  foundBy: 'marks',
  files: [{ path: '/etc/motd', content: '```\n', by: 'heredoc' }],
  notes: [],
}

describe('what a found command becomes', () => {
  it('is an action, its output and its files, at their time and place, with the exit code', () => {
    const [action, output, file] = entriesOf(found, log)
    expect(action).toMatchObject({
      kind: 'action',
      text: '````sh\ncat <<E > /etc/motd\n```\nE\n````',
      happened: '2026-11-25T22:00:00.000+01:00',
      place: { machine: gate.id, user: 'root', directory: '/etc' },
      ran: { exitCode: 1, ended: '2026-11-25T22:00:04.000+01:00', log: 'gate.log' },
    })
    expect(output).toMatchObject({ kind: 'output', text: '`````text\ndone ```` so\n`````' })
    expect(contentOf(file!.text, file!.file!)).toBe('```\n')
    expect(file!.file!.path).toBe('/etc/motd')
  })

  it('is on the log’s machine where it names no host, and on none that it does not name', () => {
    const nowhere = { host: null, user: null, directory: null }
    expect(entriesOf({ ...found, place: nowhere }, log)[0]!.place?.machine).toBe(weather.id)
    expect(entriesOf({ ...found, place: { ...nowhere, host: 'desk' } }, log)[0]!.place).toMatchObject({
      machine: null,
      host: 'desk',
    })
    expect(
      entriesOf({ ...found, output: '', files: [], place: nowhere }, { ...log, machine: null }),
    ).toMatchObject([{ kind: 'action', place: null }])
  })

  it('is its output alone where nothing was typed', () => {
    expect(entriesOf({ ...found, command: '', files: [] }, log)).toMatchObject([{ kind: 'output' }])
  })

  it('holds the head and the tail of a very long output, and says how much stands between', () => {
    const lines = Array.from({ length: 30_000 }, (_, i) => `line ${i}`)
    const short = shortened(lines.join('\n'))
    expect(short.length).toBeLessThan(MOST_IN_ENTRY)
    const left = Number(/\[(\d+) lines left out/.exec(short)![1])
    expect(short.split('\n').length - 1 + left).toBe(lines.length)
    expect(short.startsWith('line 0\n') && short.endsWith('line 29999')).toBe(true)
  })
})
