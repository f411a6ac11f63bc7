import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import type { SuggestedTags } from '../../../../renderer/workers/tags.ts'
import { TagLearner } from '../../../../renderer/workers/tagsLearner.ts'
import type { TagQueries } from '../../../../renderer/workers/tagsThings.ts'
import { toSavedTagModel } from '../../../../shared/find/saved-tag-model.ts'
import type { TagModel } from '../../../../shared/find/tag-model.ts'
import { termsOfWord } from '../../../../shared/find/tokens.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import type { EntryTags, Source } from '../../../../shared/lab/model.ts'
import { openTestLab } from '../../support/lab.ts'
import { pick } from '../../support/records.ts'
import { beginStory, changeOf, moves, recordsOf, type Move } from '../../support/story.ts'
import { SECRET } from '../../support/striking.ts'

const saved = (model: TagModel): string => JSON.stringify(toSavedTagModel(model))
const rebuilt = async (lab: OpenLab): Promise<string> => saved(await new TagLearner(lab.queries).catchUp())

async function commit(lab: OpenLab, change: Change): Promise<Change> {
  const result = await lab.committer.commit(change)
  if (!result.ok) throw new Error(result.sentence)
  return change
}

/** Tags and verdicts on entries and projects, withdrawals, undo and striking out: what the story's own acts leave out. */
async function tagSomething(lab: OpenLab, { a, b, c, text }: Move): Promise<void> {
  const around = lab.surroundings
  const records = await recordsOf(lab)
  const entry = pick(records.entries, b)!
  const project = pick(records.projects, c)!
  const tags = ((await lab.dump()).entryTags as EntryTags[]).find((one) => one.entry === entry.id) ?? null
  const things = [
    { kind: 'entry', record: entry, tags },
    { kind: 'project', record: project },
    ...records.sources.map((record) => ({ kind: 'source', record }) as const),
  ] as const
  const thing = pick<acts.Tagged>(things, b + c)!
  const tag = acts.toTag(text) || 'rack'
  switch (a % 7) {
    case 0:
    case 1:
      await commit(lab, acts.changeTags(around, thing, [...new Set([...acts.tagsOf(thing), tag])]))
      break
    case 2:
    case 3:
      await commit(lab, acts.judgeTag(around, thing, tag, c % 2 === 0, (b % 11) / 10))
      break
    case 4:
      await commit(lab, acts.withdrawEntry(around, entry.id, c % 2 === 0))
      break
    case 5:
      await lab.committer.undo()
      break
    case 6:
      // Refused where it does not stand: then nothing happened.
      await lab.committer.strikeOut({ kind: 'entry', id: entry.id }, c % 2 === 0 ? 'dump' : 'disk', '')
  }
}

describe('what is known of a lab’s tags', () => {
  it('is, after any acts and however often it caught up, what learning everything anew gives', async () => {
    await fc.assert(
      fc.asyncProperty(moves(30), fc.array(fc.boolean(), { maxLength: 30 }), async (list, caughtUpAt) => {
        const lab = await openTestLab()
        await beginStory(lab)
        const learner = new TagLearner(lab.queries)
        await learner.catchUp()
        for (const [at, move] of list.entries()) {
          if (at % 2 === 0) await tagSomething(lab, move)
          else {
            const change = await changeOf(lab, move)
            if (change) await lab.committer.commit(change)
          }
          if (caughtUpAt[at]) await learner.catchUp()
        }
        expect(saved(await learner.catchUp())).toBe(await rebuilt(lab))
        lab.close()
      }),
      { numRuns: 60 },
    )
  })

  it('follows a tagged source to its newer texts, also to those of a source that was merged into it', async () => {
    const { lab, source } = await openTaggedLab()
    const around = lab.surroundings
    const other = await addSource(lab, 'Dome again', 'Nothing yet.')
    await commit(lab, acts.mergeSources(around, source, [other], await lab.queries.sources()))
    const learner = new TagLearner(lab.queries)
    const termsOf = async () => (await learner.catchUp()).texts.get(source.id)!.terms.map(([term]) => term)
    await learner.catchUp()
    for (const [id, text, term] of [
      [source.id, 'Now about hinges.', 'hinges'],
      [other.id, 'And about gutters.', 'gutters'],
    ] as const) {
      const record = (await lab.queries.findSource(id))!
      const capture = { text, bytes: new Uint8Array(), sha256: term.padStart(64, '0'), mediaType: '' }
      const newest = (await lab.queries.findNewestCapture(id)) ?? null
      const input = { kind: 'text', wayIn: 'file', capture } as const
      await commit(lab, acts.readAgain(around, record, newest, input).change)
      expect(await termsOf()).toContain(termsOfWord(term)[0])
      expect(saved(learner.model)).toBe(await rebuilt(lab))
    }
    await commit(lab, acts.separateSource(around, (await lab.queries.findSource(other.id))!))
    expect(await termsOf()).not.toContain(termsOfWord('gutters')[0])
    expect(saved(learner.model)).toBe(await rebuilt(lab))
  })

  it('is brought up to what was committed while it was learnt', async () => {
    const { lab, source } = await openTaggedLab()
    const slow: TagQueries = Object.create(lab.queries, {
      verdicts: {
        value: async () => {
          const verdicts = await lab.queries.verdicts()
          await commit(lab, acts.changeSource(lab.surroundings, source, { tags: ['dome', 'wind'] }))
          return verdicts
        },
      },
    }) as TagQueries
    const learner = new TagLearner(slow)
    await learner.catchUp()
    expect(saved(await learner.catchUp())).toBe(await rebuilt(lab))
    expect(learner.model.uses.get('wind')).toBe(1)
  })

  it('holds no term of what was struck out, neither of texts nor of tags', async () => {
    const { lab, source, project } = await openTaggedLab(`the key is ${SECRET} of the dome`)
    const around = lab.surroundings
    await commit(lab, acts.changeTags(around, { kind: 'project', record: project }, [SECRET]))
    await commit(lab, acts.judgeTag(around, { kind: 'source', record: source }, SECRET, false, 0.4))
    const learner = new TagLearner(lab.queries)
    const secrets = termsOfWord(SECRET).filter((term) => term.length > 2)
    expect(saved(await learner.catchUp())).toContain(secrets[0])
    const result = await lab.committer.strikeOut({ kind: 'source', id: source.id }, SECRET, 'a password')
    expect(result.ok).toBe(true)
    const after = saved(await learner.catchUp()).toLowerCase()
    for (const secret of secrets) expect(after).not.toContain(secret)
    expect(after).toContain('dome')
  })

  it('does not count an entry that was withdrawn, nor a source that was merged into another', async () => {
    const { lab, source, project } = await openTaggedLab()
    const around = lab.surroundings
    const added = acts.addEntry(around, { project: project.id, kind: 'action', text: 'Turned the dome.' })
    await commit(lab, added.change)
    const thing = { kind: 'entry', record: added.entry, tags: null } as const
    await commit(lab, acts.changeTags(around, thing, ['dome']))
    const learner = new TagLearner(lab.queries)
    const usesOf = async () => (await learner.catchUp()).uses.get('dome') ?? 0
    expect(await usesOf()).toBe(2)
    await commit(lab, acts.withdrawEntry(around, added.entry.id))
    expect(await usesOf()).toBe(1)
    await commit(lab, acts.withdrawEntry(around, added.entry.id, false))
    expect(await usesOf()).toBe(2)
    const other = await addSource(lab, 'Dome again', 'The dome turns.', ['dome'])
    expect(await usesOf()).toBe(3)
    const sources = await lab.queries.sources()
    await commit(lab, acts.mergeSources(around, source, [other], sources))
    expect(await usesOf()).toBe(2)
  })
})

describe('suggestions', () => {
  it('come from the first tagged source on, with the source that they come from', async () => {
    const { lab, source } = await openTaggedLab()
    const other = await addSource(lab, 'Shutter', 'The shutter of the dome sticks in frost.')
    const { tags, isEarly } = await new TagLearner(lab.queries).suggest({ kind: 'source', id: other.id })
    expect(isEarly).toBe(false)
    expect(tags[0]).toMatchObject({ tag: 'dome', why: { kind: 'named' } })
    expect(tags.find(({ tag }) => tag === 'upkeep')).toMatchObject({
      why: { kind: 'near', name: source.title, node: { kind: 'source', id: source.id } },
    })
    expect(tags.filter(({ why }) => why.kind === 'phrase').length).toBeGreaterThan(0)
    expect(tags.length).toBeLessThanOrEqual(7)
  })

  it('are phrases of the text alone while nothing is tagged, and for a link those of title and address', async () => {
    const lab = await openTestLab()
    const { change, project } = acts.addProject(lab.surroundings, { title: 'P', aim: '', status: 'planned' })
    await commit(lab, change)
    const link = acts.addSource(lab.surroundings, {
      title: 'Anemometer bearings',
      address: 'https://wind.example.org/bearings',
      kind: 'link',
      wayIn: 'typed',
      projects: [project.id],
      capture: null,
    })
    await commit(lab, link.change)
    const { tags } = await new TagLearner(lab.queries).suggest({ kind: 'source', id: link.source.id })
    const phrases = tags.map(({ tag }) => tag)
    expect(phrases[0]).toBe('anemometer bearings')
    expect(phrases).toContain('wind')
    expect(new Set(tags.map(({ why }) => why.kind))).toEqual(new Set(['phrase']))
  })

  it('never bring back for a thing what was refused for it, until the refusal is undone', async () => {
    const { lab } = await openTaggedLab()
    const record = await addSource(lab, 'Shutter', 'The shutter of the dome sticks; frost on the shutter.')
    const learner = new TagLearner(lab.queries)
    const suggested = async () =>
      (await learner.suggest({ kind: 'source', id: record.id })).tags.map(({ tag }) => tag)
    const refused: string[] = []
    for (let round = 0; round < 40; round++) {
      const tags = await suggested()
      for (const tag of refused) expect(tags).not.toContain(tag)
      if (tags.length === 0) break
      refused.push(tags[0]!)
      await commit(lab, acts.judgeTag(lab.surroundings, { kind: 'source', record }, tags[0]!, false, 0.3))
    }
    expect(refused).toContain('dome')
    expect(refused.length).toBeGreaterThan(3)
    const undone = await lab.committer.undo()
    expect(undone.ok).toBe(true)
    expect(await suggested()).toContain(refused.at(-1))
  })

  it('do not offer again what was accepted and taken off', async () => {
    const { lab } = await openTaggedLab()
    const record = await addSource(lab, 'Shutter', 'The shutter of the dome sticks in frost.')
    const learner = new TagLearner(lab.queries)
    const suggested = async () =>
      (await learner.suggest({ kind: 'source', id: record.id })).tags.map(({ tag }) => tag)
    await commit(lab, acts.judgeTag(lab.surroundings, { kind: 'source', record }, 'dome', true, 0.8))
    expect(await suggested()).not.toContain('dome')
    const tagged = (await lab.queries.findSource(record.id))!
    await commit(lab, acts.changeTags(lab.surroundings, { kind: 'source', record: tagged }, []))
    expect(await suggested()).not.toContain('dome')
  })

  it('do not wait for a long lesson: they come of the text alone, without what was refused, and then in full', async () => {
    const { lab } = await openTaggedLab()
    const record = await addSource(lab, 'Shutter', 'The shutter of the dome sticks in frost.')
    await commit(lab, acts.judgeTag(lab.surroundings, { kind: 'source', record }, 'frost', false, 0))
    let goOn = (): void => undefined
    const held = new Promise<void>((resolve) => (goOn = resolve))
    const slow = Object.create(lab.queries, {
      sequence: { value: () => held.then(() => lab.queries.sequence()) },
    }) as TagQueries
    const shares: (number | null)[] = []
    const learner = new TagLearner(slow, (share) => shares.push(share), 5)
    const node = { kind: 'source', id: record.id } as const
    const early = await learner.suggest(node)
    expect(early.isEarly).toBe(true)
    const tagsOf = ({ tags }: SuggestedTags) => tags.map(({ tag }) => tag)
    expect(new Set(early.tags.map(({ why }) => why.kind))).toEqual(new Set(['phrase']))
    expect(tagsOf(early)).not.toContain('frost')
    goOn()
    await learner.catchUp()
    const full = await learner.suggest(node)
    expect(full.isEarly).toBe(false)
    expect(tagsOf(full)).toContain('dome')
    expect([shares[0], shares.at(-1)]).toEqual([0, null])
  })

  it('are made for entries and projects as well', async () => {
    const { lab, project } = await openTaggedLab()
    const { change, entry } = acts.addEntry(lab.surroundings, {
      project: project.id,
      kind: 'fix',
      text: 'Greased the rollers of the dome.',
    })
    await commit(lab, change)
    const learner = new TagLearner(lab.queries)
    const ofEntry = await learner.suggest({ kind: 'entry', id: entry.id })
    expect(ofEntry.tags[0]).toMatchObject({ tag: 'dome' })
    const ofProject = await learner.suggest({ kind: 'project', id: project.id })
    expect(ofProject.tags.map(({ tag }) => tag)).toContain('dome')
  })
})

async function addSource(lab: OpenLab, title: string, text: string, tags: string[] = []): Promise<Source> {
  const [project] = await lab.queries.projects()
  const { source, change } = acts.addSource(lab.surroundings, {
    title,
    address: null,
    kind: 'text',
    wayIn: 'file',
    projects: project ? [project.id] : [],
    capture: {
      text,
      bytes: new TextEncoder().encode(text),
      sha256: text.length.toString(16).padStart(64, '0'),
      mediaType: 'text/plain',
    },
  })
  await commit(lab, change)
  if (tags.length === 0) return source
  await commit(lab, acts.changeSource(lab.surroundings, source, { tags }))
  return (await lab.queries.findSource(source.id))!
}

/** A lab with a project about a dome and one source, tagged `dome` and `upkeep`. */
async function openTaggedLab(text = 'The dome turns on rollers; the shutter is greased each spring.') {
  const lab = await openTestLab()
  const { change, project } = acts.addProject(lab.surroundings, {
    title: 'Quiet the dome',
    aim: 'The dome turns without noise.',
    status: 'under way',
  })
  await commit(lab, change)
  const source = await addSource(lab, 'Rollers of the dome', text, ['dome', 'upkeep'])
  return { lab, source, project }
}
