import { describe, expect, test } from 'vitest'
import {
  unknownOf,
  type EndedRun,
  type ItemEnd,
} from '../../../../../../renderer/panes/sources/intakeQueue.ts'
import {
  changesOf,
  linesOf,
  textOfReport,
  toReport,
  wordsOfReport,
} from '../../../../../../renderer/panes/sources/taking/report.ts'
import { addSource } from '../../../../../../shared/lab/acts.ts'
import type { CaptureId, ChangeId } from '../../../../../../shared/lab/ids.ts'
import { repeatableSurroundings } from '../../../../support/lab.ts'

const around = repeatableSurroundings()
const source = (title: string, kind: 'page' | 'link' = 'page') =>
  addSource(around, {
    title,
    address: 'https://docs.example.org/',
    kind,
    wayIn: 'file',
    projects: [],
    capture: null,
  }).source
const [one, two] = [around.ids.make<ChangeId>(), around.ids.make<ChangeId>()]
const added = (change = one): ItemEnd => ({ kind: 'added', source: source('x'), change, notes: [] })
const failed: ItemEnd = { kind: 'failed', sentence: 'It holds no words.' }
const there: ItemEnd = { kind: 'there', source: source('Fans'), change: null }
const again: ItemEnd = {
  kind: 'again',
  source: source('Pumps'),
  capture: around.ids.make<CaptureId>(),
  change: two,
}

function ended(ends: readonly ItemEnd[], directories: readonly string[] = []): EndedRun<null> {
  const items = ends.map((_, at) => ({
    ...unknownOf,
    name: `file ${at}`,
    wayIn: 'file' as const,
    task: { kind: 'text' as const, name: '', text: '' },
    directories,
  }))
  const run = {
    place: null,
    items,
    isInFolders: true,
    isQuiet: false,
    wasTaken: () => false,
    onEnd: () => undefined,
  }
  return { run, ends }
}

describe('the report on a run', () => {
  test('says in a line how many came in and why the others did not', () => {
    const ends = [
      ...Array<ItemEnd>(312).fill(added()),
      ...Array<ItemEnd>(5).fill(there),
      ...Array<ItemEnd>(3).fill(failed),
    ]
    expect(wordsOfReport(toReport(1, ended(ends)))).toBe(
      '312 of 320 added. 5 were there already. 3 could not be read.',
    )
    expect(wordsOfReport(toReport(1, ended([added(), there, again, { kind: 'cancelled' }])))).toBe(
      '1 of 4 added. 1 was there already. 1 was read again. 1 was called off.',
    )
    expect(wordsOfReport({ ...toReport(1, ended([added()])), wasTakenBack: true })).toBe(
      '1 of 1 added. All of it was taken back.',
    )
    expect(wordsOfReport(toReport(1, ended(Array<ItemEnd>(1204).fill(added()))))).toBe(
      '1,204 of 1,204 added.',
    )
  })

  test('counts the pages of a file of bookmarks that were there', () => {
    const report = { ...toReport(1, ended([added()])), name: 'bookmarks.html', things: 30, added: 20 }
    expect(wordsOfReport({ ...report, known: { pages: 10, enriched: 4 } })).toBe(
      '20 of 30 links of “bookmarks.html” added. 10 were there already. 4 of these got their folders, tags or remarks.',
    )
  })

  test('names each file that was not simply added, with a sentence, also as text', () => {
    const report = toReport(1, ended([added(), failed, there, again]), ['The folder holds more.'])
    expect(linesOf(report, 'failed')).toMatchObject([{ name: 'file 1', sentence: 'It holds no words.' }])
    const text = textOfReport(report)
    expect(text).toContain('1 of 4 added.')
    expect(text).toContain('The folder holds more.')
    expect(text).toContain('Could not be read:\n- file 1: It holds no words.')
    expect(text).toContain('- file 2: “Fans” is here already')
    expect(text).toContain('- file 3: “Pumps” was read again')
  })

  test('a link that got its text has nothing to be compared with', () => {
    const report = toReport(1, ended([{ ...again, source: source('Pumps', 'link') }]))
    expect(report.lines).toMatchObject([
      { kind: 'again', capture: null, sentence: expect.stringContaining('has its text now') as string },
    ])
  })

  test('its Changes stand in the order in which they were made, each once', () => {
    expect(changesOf([again, added(), added(), there])).toEqual([one, two])
  })

  test('knows which sources can lie in folders', () => {
    expect(toReport(1, ended([added()])).isInFolders).toBe(false)
    const report = toReport(1, ended([added(), failed], ['docs', 'rack']))
    expect(report.placed).toMatchObject([{ directories: ['docs', 'rack'] }])
    expect(report.isInFolders).toBe(true)
  })
})
