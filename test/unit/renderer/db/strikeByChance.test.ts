import { describe, expect, it } from 'vitest'
import { noFacts } from '../../../../shared/lab/acts.ts'
import type { EntryId, MachineId, WindowId } from '../../../../shared/lab/ids.ts'
import type { ComposerDraft } from '../../../../shared/lab/model.ts'
import type { Moment } from '../../../../shared/lab/moment.ts'
import { maskDeep, maskFields } from '../../../../shared/safety/mask.ts'
import { openTestLab } from '../../support/lab.ts'
import { addPage, openStory } from '../../support/striking.ts'

const hex = '0192f3a4-beef-7cde-8123-456789abcdef'

describe('a secret that stands in ids and moments by chance', () => {
  it.each(['2026', 'beef'])('leaves those of a composer’s draft alone: %s', async (secret) => {
    const { lab, project, strike } = await openStory()
    const draft: ComposerDraft = {
      key: 'composer one',
      owner: 'composer',
      window: hex as WindowId,
      project: project.id,
      kind: 'action',
      text: `pin ${secret}, and on`,
      facts: {
        ...noFacts,
        happened: '2026-05-03T10:00:00.000+02:00' as Moment,
        under: hex as EntryId,
        place: { machine: hex as MachineId, host: `h-${secret}`, user: secret, directory: `/srv/${secret}` },
        ran: { exitCode: 0, started: '2026-05-03T09:00:00.000+02:00' as Moment, ended: null, log: secret },
      },
      answers: null,
      saved: '2026-05-03T10:00:01.000+02:00' as Moment,
    }
    await lab.saveDraft(draft)
    await strike(secret)
    const [struck] = (await lab.queries.drafts()) as ComposerDraft[]
    const masked = '█'.repeat(4)
    expect(struck).toEqual({
      ...draft,
      text: `pin ${masked}, and on`,
      facts: {
        ...draft.facts,
        place: { machine: hex, host: `h-${masked}`, user: masked, directory: `/srv/${masked}` },
        ran: { ...draft.facts.ran, log: masked },
      },
    })
  })

  it('leaves the date that a source states alone, but no words in its place', async () => {
    const { lab, around, commit, strike } = await openStory()
    const page = addPage(around, 'pin 2026')
    await commit(page.change)
    const source = (await lab.queries.findSource(page.source.id))!
    for (const dated of ['2026', '2026-05', '2026-05-03', '2026-05-03T10:00:00Z'])
      expect(maskFields({ ...source, dated }, '2026').dated).toBe(dated)
    expect(maskFields({ ...source, dated: 'summer 2026' }, '2026').dated).toBe('summer ████')
    await strike('2026')
    expect((await lab.queries.findSource(source.id))?.added).toBe(source.added)
  })

  it('leaves ids and noted heads of the settings alone', async () => {
    const { lab, strike, addEntry } = await openStory()
    await addEntry('login beef')
    const digest = `beef${'0'.repeat(60)}`
    await lab.keepSetting('heads', { heads: [`12 ${digest}`, digest], last: hex, note: 'beef stew' })
    await strike('beef')
    expect(await lab.findSetting('heads')).toEqual({
      heads: [`12 ${digest}`, digest],
      last: hex,
      note: '████ stew',
    })
    expect(maskDeep(digest, digest)).toBe('█'.repeat(64))
  })
})

describe('a sealed journal', () => {
  it('is read with salts that belong to no seal, so that the check sees them', async () => {
    const { lab, project } = await openStory()
    const dump = await lab.dump()
    expect(dump.salts!.length).toBeGreaterThan(0)
    const other = await openTestLab()
    const stray = { seal: `${project.id}:9999999999`, salts: {} }
    await other.fill({ ...dump, salts: [...dump.salts!, stray] })
    const { salts } = await other.sealedJournal(project.id)
    expect(salts).toContainEqual(stray)
  })
})
