import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { standingSource } from '../../../../renderer/store/labSources.ts'
import {
  addEntry,
  addFolder,
  addProject,
  addSource,
  changeFolder,
  changeSources,
  changeTags,
  FolderFinder,
  foldersBelow,
  judgeTag,
  makeChange,
  mergeSources,
  readAgain,
  removeFolder,
  separateSource,
  toTag,
  toTags,
  type SourceInput,
  type Surroundings,
} from '../../../../shared/lab/acts.ts'
import type { Change, Operation } from '../../../../shared/lab/change.ts'
import type { Folder, Source } from '../../../../shared/lab/model.ts'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import { toFolderTree } from '../../../../shared/sources/folder-tree.ts'
import { carry } from '../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'

async function begin() {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'planned' })
  await commit(lab, change)
  return { around, lab, project }
}

async function commit(lab: OpenLab, change: Change): Promise<void> {
  const result = await lab.committer.commit(change)
  if (!result.ok) throw new Error(result.sentence)
}

/** Many sources as one act; what they lie in is made before them. */
function addSources(around: Surroundings, inputs: readonly SourceInput[], before: readonly Operation[] = []) {
  const added = inputs.map((input) => addSource(around, input))
  const operations = [...before, ...added.flatMap(({ change }) => change.operations)]
  return {
    sources: added.map(({ source }) => source),
    change: makeChange(around, 'add sources', operations),
  }
}

const captureOf = (text: string, sha = 'a') => ({
  text,
  bytes: new TextEncoder().encode(text),
  sha256: sha.repeat(64),
  mediaType: 'text/html',
})

const link = (title: string, more: Partial<SourceInput> = {}): SourceInput => ({
  title,
  address: `https://example.org/${encodeURIComponent(title)}`,
  kind: 'link',
  wayIn: 'typed',
  projects: [],
  capture: null,
  ...more,
})

describe('reading again', () => {
  it('makes a new capture that revises the one before, and what was carried stays true of the old one', async () => {
    const { around, lab, project } = await begin()
    const words = 'Empty the funnel.'
    const { source, capture, change } = addSource(
      around,
      link('Gauge', { kind: 'page', projects: [project.id], capture: captureOf(`# Gauge\n\n${words}\n`) }),
    )
    await commit(lab, change)
    const at = capture!.text.indexOf(words)
    const from = {
      lab: lab.id,
      node: { kind: 'capture', id: capture!.id },
      revision: capture!.revision,
      text: capture!.text,
      origin: { kind: 'source' },
      title: source.title,
      address: source.address,
    } as const
    const fragment = pickFragment(from, [{ start: at, end: at + words.length }])!
    await commit(
      lab,
      carry(around, fragment, { at: 'journal', project: project.id, kind: 'observation' } as const, 'drag')
        .change,
    )
    const again = readAgain(around, source, capture, {
      kind: 'page',
      wayIn: 'pasted',
      capture: captureOf('# Gauge\n\nEmpty it weekly.\n', 'b'),
    })
    await commit(lab, again.change)
    const captures = await lab.queries.capturesOf(source.id)
    expect(captures.map(({ id }) => id)).toEqual([capture!.id, again.capture.id])
    const { states } = await lab.queries.linksTo([capture!.id])
    expect(states.map(({ type, loose }) => [type, loose])).toEqual([
      ['quotes', false],
      ['revises', false],
    ])
    expect((await lab.queries.labSources()).used).toEqual([capture!.id])
    await lab.committer.undo()
    expect(await lab.queries.capturesOf(source.id)).toHaveLength(1)
    expect(await lab.rebuild()).toBe(true)
  })

  it('makes a page of a link without text', async () => {
    const { around, lab } = await begin()
    const { source, change } = addSource(around, link('Gauge'))
    await commit(lab, change)
    await commit(
      lab,
      readAgain(around, source, null, { kind: 'page', wayIn: 'file', capture: captureOf('Words') }).change,
    )
    expect(await lab.queries.findSource(source.id)).toMatchObject({ kind: 'page', title: 'Gauge' })
  })
})

describe('merging', () => {
  it('keeps every record, joins what sorts them, and is taken back by undo', async () => {
    const { around, lab } = await begin()
    const sources: Source[] = []
    for (const [title, tags] of [
      ['A', ['disk']],
      ['B', ['disk', 'raid']],
      ['C', ['smart']],
    ] as const) {
      const added = addSource(around, link(title, { tags, kind: 'page', capture: captureOf(title) }))
      await commit(lab, added.change)
      sources.push(added.source)
    }
    const [a, b, c] = sources as [Source, Source, Source]
    await commit(lab, mergeSources(around, b, [c], sources))
    const between = (await lab.queries.labSources()).sources
    const before = await lab.dump()
    await commit(lab, mergeSources(around, a, [between.find(({ id }) => id === b.id)!], between))
    const now = new Map((await lab.queries.labSources()).sources.map((source) => [source.id, source]))
    expect(now.get(a.id)!.tags).toEqual(['disk', 'raid', 'smart'])
    expect([b, c].map(({ id }) => standingSource({ sources: now }, now.get(id)!).id)).toEqual([a.id, a.id])
    expect(await lab.queries.capturesOf(a.id)).toHaveLength(3)
    await lab.committer.undo()
    const after = await lab.dump()
    expect(after['sources']).toEqual(before['sources'])
    await commit(lab, separateSource(around, now.get(c.id)!))
    expect((await lab.queries.findSource(c.id))!.mergedInto).toBe(null)
  })
})

describe('folders', () => {
  it('are made once for a path, and a path of names leads back to each', () => {
    const names = fc.array(fc.array(fc.constantFrom('a', 'b', 'a/b', ''), { maxLength: 4 }), {
      maxLength: 12,
    })
    fc.assert(
      fc.property(names, (paths) => {
        const around = repeatableSurroundings()
        const finder = new FolderFinder(around, [])
        const ids = paths.map((path) => finder.ensure(path))
        const folders = finder.operations.map((one) => (one as { record: unknown }).record as Folder)
        ids.forEach((id, at) =>
          expect(id === null ? [] : toFolderTree(folders).pathOf(id)).toEqual(paths[at]),
        )
        const wanted = new Set(
          paths.flatMap((path) => path.map((_name, at) => JSON.stringify(path.slice(0, at + 1)))),
        )
        expect(folders).toHaveLength(wanted.size)
        expect(new FolderFinder(around, folders).ensure(paths[0] ?? [])).toBe(ids[0] ?? null)
      }),
    )
  })

  it('never come to lie within themselves', () => {
    const around = repeatableSurroundings()
    const outer = addFolder(around, 'Hardware', null).folder
    const inner = addFolder(around, 'Disks', outer.id).folder
    expect(changeFolder(around, outer, { parent: inner.id }, [outer, inner])).toBe(null)
    expect(changeFolder(around, outer, { parent: outer.id }, [outer, inner])).toBe(null)
    expect(changeFolder(around, inner, { parent: null }, [outer, inner])).not.toBe(null)
    expect(foldersBelow(outer.id, [outer, inner])).toEqual([inner.id])
  })

  it('go with those in them, leave the sources in the lab, and come back by undo', async () => {
    const { around, lab } = await begin()
    const finder = new FolderFinder(around, [])
    const [disks, raid] = [
      finder.ensure(['Hardware', 'Disks'])!,
      finder.ensure(['Hardware', 'Disks', 'RAID'])!,
    ]
    const power = finder.ensure(['Power'])!
    const { sources, change } = addSources(
      around,
      [link('mdadm', { folders: [raid, power] }), link('smartctl', { folders: [disks] })],
      finder.operations,
    )
    await commit(lab, change)
    const { folders } = await lab.queries.labSources()
    const before = await lab.dump()
    await commit(
      lab,
      removeFolder(
        around,
        folders.find(({ name }) => name === 'Hardware')!,
        folders,
        sources,
      ),
    )
    const after = await lab.queries.labSources()
    expect(after.folders.map(({ name }) => name)).toEqual(['Power'])
    expect(after.sources.map((source) => source.folders)).toEqual([[power], []])
    await lab.committer.undo()
    const undone = await lab.dump()
    for (const name of ['folders', 'sources'])
      expect(undone[name]!.map(String)).toEqual(before[name]!.map(String))
    expect((await lab.queries.labSources()).sources.map((source) => source.folders)).toEqual([
      expect.arrayContaining([raid, power]),
      [disks],
    ])
  })
})

describe('tags', () => {
  it('are one line each, without white space around them', () => {
    expect(toTag('  rack\n power ')).toBe('rack power')
    expect(toTags('disk, raid ,, disk')).toEqual(['disk', 'raid'])
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (words) => {
        expect(toTag(toTag(words))).toBe(toTag(words))
      }),
    )
  })

  it('that are accepted are given and remembered by one act; refused ones are only remembered', async () => {
    const { around, lab } = await begin()
    const { source, change } = addSource(around, link('mdadm'))
    await commit(lab, change)
    await commit(lab, judgeTag(around, { kind: 'source', record: source }, 'raid', true, 0.7))
    const tagged = (await lab.queries.findSource(source.id))!
    expect(tagged.tags).toEqual(['raid'])
    await commit(lab, judgeTag(around, { kind: 'source', record: tagged }, 'dome', false, 0.2))
    expect((await lab.queries.verdicts()).map(({ tag, isAccepted }) => [tag, isAccepted])).toEqual([
      ['raid', true],
      ['dome', false],
    ])
    await lab.committer.undo()
    await lab.committer.undo()
    expect((await lab.queries.findSource(source.id))!.tags).toEqual([])
    expect(await lab.queries.verdicts()).toEqual([])
  })

  it('that another window gave an entry meanwhile stay, also where this window saw none', async () => {
    const { around, lab, project } = await begin()
    const { entry, change } = addEntry(around, { project: project.id, kind: 'action', text: 'ran mdadm' })
    await commit(lab, change)
    const seen = { kind: 'entry', record: entry, tags: null } as const
    await commit(lab, changeTags(around, seen, ['raid']))
    await commit(lab, changeTags(around, seen, ['disk']))
    expect(await lab.queries.allEntryTags()).toEqual([{ entry: entry.id, tags: ['raid', 'disk'] }])
  })

  it('of many sources change as one act', async () => {
    const { around, lab } = await begin()
    const { sources, change } = addSources(around, [link('a'), link('b'), link('c')])
    await commit(lab, change)
    await commit(
      lab,
      changeSources(around, sources, ({ title, tags }) =>
        title === 'b' ? null : { tags: [...tags, 'disk'] },
      ),
    )
    const read = async () => (await lab.queries.labSources()).sources.map(({ tags }) => tags.length)
    expect(await read()).toEqual([1, 0, 1])
    await lab.committer.undo()
    expect(await read()).toEqual([0, 0, 0])
  })
})
