import { beforeEach, describe, expect, test } from 'vitest'
import {
  unknownOf,
  type IntakeItem,
  type ItemEnd,
  type TakenIn,
} from '../../../../../../renderer/panes/sources/intakeQueue.ts'
import { BatchKeeper, type KeepingParts } from '../../../../../../renderer/panes/sources/taking/keeping.ts'
import { toLabSources, type LabSources } from '../../../../../../renderer/store/labSources.ts'
import type { OpenLab } from '../../../../../../renderer/db/lab.ts'
import { nothingStated } from '../../../../../../shared/intake/taken.ts'
import { addProject } from '../../../../../../shared/lab/acts.ts'
import type { Change } from '../../../../../../shared/lab/change.ts'
import type { ProjectId } from '../../../../../../shared/lab/ids.ts'
import { openTestLab } from '../../../../support/lab.ts'

let lab: OpenLab
let project: ProjectId
let all: LabSources
let changes: Change[]
let ends: Map<string, ItemEnd>
/** The time of the keeper, in milliseconds; sleeping lets it pass. */
let time: number

beforeEach(async () => {
  lab = await openTestLab()
  const added = addProject(lab.surroundings, { title: 'Cool the rack', aim: '', status: 'under way' })
  await lab.committer.commit(added.change)
  project = added.project.id
  all = toLabSources(await lab.queries.labSources())
  changes = []
  ends = new Map()
  time = 0
})

function keeper(more: Partial<KeepingParts> = {}) {
  const parts: KeepingParts = {
    around: lab.surroundings,
    project,
    isInFolders: false,
    isFew: false,
    wasTaken: () => false,
    labSources: () => all,
    commit: async (change) => {
      const result = await lab.committer.commit(change)
      if (!result.ok) return result
      changes.push(change)
      all = toLabSources(await lab.queries.labSources())
      return { ok: true }
    },
    now: () => time,
    sleep: (ms) => Promise.resolve(void (time += ms)),
    ...more,
  }
  return new BatchKeeper(parts, ({ name }, end) => void ends.set(name, end))
}

const item = (name: string, more: Partial<IntakeItem> = {}): IntakeItem => ({
  ...unknownOf,
  name,
  wayIn: 'file',
  task: { kind: 'text', name, text: name },
  ...more,
})
const taken = (words: string, more: Partial<TakenIn> = {}): TakenIn => ({
  ok: true,
  title: words,
  address: null,
  kind: 'text',
  text: words,
  mediaType: 'text/plain',
  ...nothingStated,
  notes: [],
  bytes: new TextEncoder().encode(words),
  sha256: words.padEnd(64, '#'),
  ...more,
})
const endOf = (name: string) => ends.get(name)!
const fans = 'https://docs.example.org/fans'

describe('keeping what was taken in', () => {
  test('many things are few Changes, each at least a quarter of a second behind the one before', async () => {
    const times: number[] = []
    const keeping = keeper()
    for (let at = 0; at < 60; at++) {
      await keeping.keep(item(`file ${at}`), taken(`words ${at}`))
      if (changes.length > times.length) times.push(time)
    }
    await keeping.finish()
    times.push(time)
    expect(changes.map(({ act }) => act)).toEqual(['add sources', 'add sources', 'add sources'])
    expect(times).toEqual([0, 250, 500])
    expect(all.sources.size).toBe(60)
    expect([...ends.values()].every(({ kind }) => kind === 'added')).toBe(true)
  })

  test('large things are not collected', async () => {
    const keeping = keeper()
    await keeping.keep(item('large'), taken('large', { bytes: new Uint8Array(17 * 1024 * 1024) }))
    expect(changes.length).toBe(1)
  })

  test('what a document states is kept with its pages and notes', async () => {
    const keeping = keeper()
    const stated = {
      author: 'A. Fan',
      dated: '2024-05',
      pages: [{ start: 0, label: 'i' }],
      notes: ['Left out: 1 form.'],
    }
    await keeping.keep(item('fans.pdf'), taken('fans', { kind: 'pdf', address: fans, ...stated }))
    await keeping.finish()
    expect([...all.sources.values()]).toMatchObject([
      {
        title: 'fans',
        address: fans,
        kind: 'pdf',
        author: 'A. Fan',
        dated: '2024-05',
        projects: [project],
        wayIn: 'file',
      },
    ])
    expect([...all.heads.values()]).toMatchObject([{ pages: stated.pages, notes: stated.notes }])
    expect(changes[0]!.act).toBe('add a source')
  })

  test('equal bytes in one run are one source and one blob', async () => {
    const keeping = keeper()
    await keeping.keep(item('a.txt'), taken('same'))
    await keeping.keep(item('b.txt'), taken('same'))
    await keeping.finish()
    expect(all.sources.size).toBe(1)
    expect(endOf('a.txt').kind).toBe('added')
    expect(endOf('b.txt')).toMatchObject({ kind: 'there', change: null })
  })

  test('equal bytes that are wanted twice are two sources and one blob', async () => {
    const keeping = keeper()
    await keeping.keep(item('a.txt'), taken('same'))
    await keeping.keep(item('b.txt', { isOwn: true }), taken('same'))
    await keeping.finish()
    expect(all.sources.size).toBe(2)
    expect((await lab.dump())['blobs']!.length).toBe(1)
  })

  test('one page in two states within one run is read again, and undo takes back each alone', async () => {
    const keeping = keeper({ isFew: true })
    await keeping.keep(item('old.html'), taken('old', { address: fans }))
    await keeping.keep(item('new.html'), taken('new', { address: `${fans}?utm_source=mail` }))
    await keeping.finish()
    expect(changes.map(({ act }) => act)).toEqual(['add a source', 'read again'])
    expect(all.sources.size).toBe(1)
    expect([...all.heads.values()].map(({ sha256 }) => sha256.replace(/#+$/, ''))).toEqual(['old', 'new'])
    const again = endOf('new.html')
    if (again.kind !== 'again') throw new Error(again.kind)
    expect(again.source.title).toBe('old')
    const { links } = await lab.queries.linksTo([...all.heads.keys()])
    expect(links.length).toBe(1)
    expect((await lab.committer.undo(again.change)).ok).toBe(true)
    expect((await lab.queries.labSources()).heads.length).toBe(1)
  })

  test('a link without text becomes the page, with its title, and stays the same source', async () => {
    const keeping = keeper()
    await keeping.keepLink(item('link', { address: fans }), fans)
    await keeping.keep(
      item('fans.html'),
      taken('Fans of the rack', { kind: 'page', address: fans, author: 'A. Fan' }),
    )
    await keeping.finish()
    expect([...all.sources.values()]).toMatchObject([
      { kind: 'page', title: 'Fans of the rack', author: 'A. Fan' },
    ])
    expect(all.heads.size).toBe(1)
  })

  test('a title that a person gave is kept when the page is read again', async () => {
    const keeping = keeper()
    await keeping.keepLink(item('link', { address: fans, title: 'My fans' }), fans)
    await keeping.keep(item('fans.html'), taken('Fans', { address: fans }))
    await keeping.finish()
    expect([...all.sources.values()]).toMatchObject([{ title: 'My fans' }])
  })

  test('what another project has already joins this one', async () => {
    const other = addProject(lab.surroundings, { title: 'Straighten the mast', aim: '', status: 'under way' })
    await lab.committer.commit(other.change)
    const there = keeper({ project: other.project.id })
    await there.keep(item('a.txt'), taken('same'))
    await there.finish()
    const here = keeper()
    await here.keep(item('b.txt'), taken('same'))
    await here.finish()
    expect([...all.sources.values()]).toMatchObject([{ projects: [other.project.id, project] }])
    expect(endOf('b.txt')).toMatchObject({ kind: 'there', change: changes[1]!.id })
    expect(changes[1]!.act).toBe('change a source')
  })

  test('sources come to lie in folders named like the directories, those that are there already too', async () => {
    const keeping = keeper({ isInFolders: true })
    await keeping.keep(item('a', { directories: ['docs', 'rack'] }), taken('a'))
    await keeping.keep(item('b', { directories: ['docs', 'rack'] }), taken('b'))
    await keeping.keep(item('c', { directories: ['docs'] }), taken('c'))
    await keeping.keep(item('d', { directories: ['docs', 'copies'] }), taken('a'))
    await keeping.keep(item('e'), taken('e'))
    await keeping.finish()
    const names = [...all.folders.values()].map(({ name }) => name).sort()
    expect(names).toEqual(['copies', 'docs', 'rack'])
    const foldersOf = (title: string) =>
      [...all.sources.values()]
        .find((source) => source.title === title)!
        .folders.map((id) => all.folders.get(id)!.name)
        .sort()
    expect(foldersOf('a')).toEqual(['copies', 'rack'])
    expect(foldersOf('b')).toEqual(['rack'])
    expect(foldersOf('c')).toEqual(['docs'])
    expect(foldersOf('e')).toEqual([])
  })

  test('bytes that were taken before are passed over, also where the lab has them no more', async () => {
    const keeping = keeper({ wasTaken: (sha256) => sha256.startsWith('gone') })
    await keeping.keep(item('renamed.txt'), taken('gone'))
    await keeping.finish()
    expect(all.sources.size).toBe(0)
    expect(endOf('renamed.txt')).toEqual({ kind: 'there', source: null, change: null })
  })

  test('what cannot be committed fails with the reason, all of the batch', async () => {
    const keeping = keeper({ commit: () => Promise.resolve({ ok: false, sentence: 'No room left.' }) })
    await keeping.keep(item('a'), taken('a'))
    await keeping.keep(item('b'), taken('b'))
    await keeping.finish()
    expect(endOf('a')).toEqual({ kind: 'failed', sentence: '“a” was not added. No room left.' })
    expect(endOf('b')).toMatchObject({ kind: 'failed' })
  })

  test('nothing is added to a lab that is not open any more', async () => {
    const keeping = keeper({ labSources: () => null })
    await keeping.keep(item('a'), taken('a'))
    await keeping.finish()
    expect(endOf('a')).toMatchObject({
      kind: 'failed',
      sentence: expect.stringContaining('Another lab') as string,
    })
  })

  test('a page handed over with its selection is a page whatever its text is', async () => {
    const keeping = keeper()
    await keeping.keep(
      item('Fans', { kind: 'page', address: fans, title: 'Fans', wayIn: 'handed over' }),
      taken('words'),
    )
    await keeping.finish()
    expect([...all.sources.values()]).toMatchObject([
      { kind: 'page', title: 'Fans', address: fans, wayIn: 'handed over' },
    ])
  })
})
