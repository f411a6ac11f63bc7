import { describe, expect, test } from 'vitest'
import {
  countFolders,
  pagesOf,
  toBookmarksParts,
} from '../../../../../../renderer/panes/sources/taking/bookmarks.ts'
import { toLabSources } from '../../../../../../renderer/store/labSources.ts'
import type { OpenLab } from '../../../../../../renderer/db/lab.ts'
import type { BookmarkedLink } from '../../../../../../shared/intake/bookmarks/link.ts'
import { addProject } from '../../../../../../shared/lab/acts.ts'
import { toFolderTree } from '../../../../../../shared/sources/folder-tree.ts'
import type { ProjectId } from '../../../../../../shared/lab/ids.ts'
import { toMoment } from '../../../../../../shared/lab/moment.ts'
import { openTestLab } from '../../../../support/lab.ts'

const pause = () => Promise.resolve()
const link = (address: string, more: Partial<BookmarkedLink> = {}): BookmarkedLink => ({
  title: address,
  address,
  folders: [],
  tags: [],
  added: null,
  note: '',
  shortcut: '',
  ...more,
})
const fans = 'https://docs.example.org/fans'

async function newLab(): Promise<{ lab: OpenLab; project: ProjectId }> {
  const lab = await openTestLab()
  const { change, project } = addProject(lab.surroundings, {
    title: 'Cool the rack',
    aim: '',
    status: 'planned',
  })
  await lab.committer.commit(change)
  return { lab, project: project.id }
}

async function addAll(
  { lab, project }: Awaited<ReturnType<typeof newLab>>,
  links: readonly BookmarkedLink[],
  leavesKnown = false,
) {
  const before = toLabSources(await lab.queries.labSources())
  const pages = await pagesOf(links, pause)
  const [made] = [...toBookmarksParts(lab.surroundings, before, project, pages, leavesKnown)]
  if (!made) throw new Error('no part for the links')
  const result = made.change.operations.length > 0 ? await lab.committer.commit(made.change) : { ok: true }
  expect(result.ok).toBe(true)
  const after = toLabSources(await lab.queries.labSources())
  const sources = [...after.sources.values()]
  const foldersOf = (address: string) =>
    sources
      .find((one) => one.address === address)!
      .folders.map((id) => toFolderTree(after.folders.values()).pathOf(id).join('/'))
      .sort()
  return { made, sources, foldersOf, after }
}

describe('the links of a file of bookmarks', () => {
  test('become sources with their folders, tags, date and remark', async () => {
    const added = toMoment(Date.UTC(2024, 4, 2), 0)
    const { sources, foldersOf } = await addAll(await newLab(), [
      link(fans, {
        folders: ['Rack', 'Cooling'],
        tags: ['fans', ' quiet '],
        added,
        note: 'Read twice.',
        shortcut: 'fan',
      }),
      link('https://docs.example.org/top'),
    ])
    expect(sources).toMatchObject([
      {
        kind: 'link',
        wayIn: 'bookmarks',
        tags: ['fans', 'quiet'],
        bookmarked: added,
        remark: 'Read twice.\nOpened in the browser by the word “fan”.',
      },
      { tags: [], bookmarked: null, remark: '', folders: [] },
    ])
    expect(foldersOf(fans)).toEqual(['Rack/Cooling'])
  })

  test('come in once for each page, with all that was said of it', async () => {
    const [early, late] = [toMoment(Date.UTC(2020, 0, 1), 0), toMoment(Date.UTC(2024, 0, 1), 0)]
    const { sources, foldersOf } = await addAll(await newLab(), [
      link(fans, { folders: ['Rack'], tags: ['fans'], added: late, note: 'One.' }),
      link(`${fans}?utm_source=mail#top`, {
        folders: ['Other'],
        tags: ['fans', 'air'],
        added: early,
        note: 'Two.',
      }),
    ])
    expect(sources.length).toBe(1)
    expect(sources).toMatchObject([
      { address: fans, tags: ['fans', 'air'], bookmarked: early, remark: 'One.\nTwo.' },
    ])
    expect(foldersOf(fans)).toEqual(['Other', 'Rack'])
  })

  test('give folders and tags to what the lab has, and bring it into the project', async () => {
    const place = await newLab()
    await addAll(place, [link(fans, { tags: ['own'], note: 'Mine.' })])
    const { made, sources, foldersOf } = await addAll(place, [
      link(fans, { folders: ['Rack'], tags: ['fans'], note: 'Theirs.' }),
      link('https://docs.example.org/new'),
    ])
    expect(made).toMatchObject({ added: 1, known: 1, enriched: 1 })
    expect(sources.length).toBe(2)
    expect(sources[0]).toMatchObject({ tags: ['own', 'fans'], remark: 'Mine.' })
    expect(foldersOf(fans)).toEqual(['Rack'])
    const again = await addAll(place, [link(fans, { folders: ['Rack'], tags: ['fans'] })])
    expect(again.made).toMatchObject({ added: 0, known: 1, enriched: 0 })
    expect(again.made.change.operations).toEqual([])
  })

  test('leave what the lab has as it is where only new ones are wanted', async () => {
    const place = await newLab()
    await addAll(place, [link(fans)])
    const { made, sources, after } = await addAll(
      place,
      [link(fans, { folders: ['Rack'], tags: ['fans'] }), link('https://docs.example.org/new')],
      true,
    )
    expect(made).toMatchObject({ added: 1, known: 1, enriched: 0 })
    expect(sources[0]).toMatchObject({ tags: [], folders: [] })
    expect(after.folders.size).toBe(0)
  })

  test('are counted with every folder on the way', () => {
    expect(countFolders([])).toBe(0)
    expect(
      countFolders([
        link(fans, { folders: ['a', 'b', 'c'] }),
        link(fans, { folders: ['a', 'd'] }),
        link(fans),
      ]),
    ).toBe(4)
    // A name with a slash in it is one folder.
    expect(countFolders([link(fans, { folders: ['a/b'] }), link(fans, { folders: ['a', 'b'] })])).toBe(3)
  })

  test('ten thousand of them, nested fifty deep, give the screen its turn all along', async () => {
    const { lab, project } = await newLab()
    const folders = Array.from({ length: 50 }, (_, at) => `level ${at}`)
    const links = Array.from({ length: 10_000 }, (_, at) =>
      link(`https://docs.example.org/${at}`, { folders: folders.slice(0, at % 51) }),
    )
    let turns = 0
    const watching = () => {
      turns++
      return new Promise<void>((resolve) => setTimeout(resolve, 0))
    }
    const pages = await pagesOf(links, watching)
    const all = toLabSources(await lab.queries.labSources())
    const operations = []
    for (const { change } of toBookmarksParts(lab.surroundings, all, project, pages, false)) {
      operations.push(...change.operations)
      await watching()
    }
    expect(operations.length).toBe(10_050)
    // No part needs what a later one makes.
    const made = new Set<string>()
    for (const operation of operations) {
      if (operation.op !== 'put') throw new Error(operation.op)
      if (operation.table === 'sources') for (const id of operation.record.folders) expect(made).toContain(id)
      made.add((operation.record as { id: string }).id)
    }
    // A turn for every few hundred links, whatever the machine.
    expect(turns).toBeGreaterThan(70)
  })
})
