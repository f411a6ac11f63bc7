import { describe, expect, it, vi } from 'vitest'
import { Places } from '../../../../renderer/store/places.ts'
import type { ProjectId } from '../../../../shared/lab/ids.ts'
import { openTestWorkspace } from '../../support/workspace.ts'

const [mast, rack] = ['mast', 'rack'] as ProjectId[] as [ProjectId, ProjectId]

function settings() {
  const kept = new Map<string, unknown>()
  const writes: unknown[] = []
  return {
    writes,
    findSetting: (key: string) => Promise.resolve(kept.get(key)),
    keepSetting: (key: string, value: unknown) => {
      kept.set(key, value)
      writes.push(value)
      return Promise.resolve()
    },
  }
}

describe('the places of a person in projects', () => {
  it('are kept apart, and what was stored of a journal is found again by the next window', async () => {
    const lab = settings()
    const places = new Places(lab)
    places.note(mast, { journal: 'all of it' }, 'stored')
    places.note(rack, { journal: 'rack' }, 'rack')
    places.note(mast, { source: null })
    expect(await places.find(mast)).toEqual({ journal: 'all of it', source: null })
    await places.flush()
    expect(await new Places(lab).find(mast)).toEqual({ journal: 'stored' })
    expect(await new Places(lab).find(rack)).toEqual({ journal: 'rack' })
  })

  it('are written once the journal rests, not at every step', async () => {
    vi.useFakeTimers()
    try {
      const lab = settings()
      const places = new Places(lab)
      for (let n = 0; n < 20; n += 1) {
        places.note(mast, { journal: n }, n)
        await vi.advanceTimersByTimeAsync(50)
      }
      expect(lab.writes).toEqual([])
      await vi.advanceTimersByTimeAsync(1000)
      expect(lab.writes).toEqual([19])
    } finally {
      vi.useRealTimers()
    }
  })

  it('forget what was looked for in journals, also what is not written yet', async () => {
    const lab = settings()
    const places = new Places(lab)
    places.note(mast, { source: null, journal: 'a secret' }, 'a secret')
    places.forgetJournals()
    await places.flush()
    expect(lab.writes).toEqual([])
    expect(JSON.stringify(await places.find(mast))).not.toContain('secret')
  })

  it('lead back to the procedure that was shown, in a project that was left', async () => {
    const { workspace, projects } = await openTestWorkspace(['Mast', 'Rack'])
    const [first, second] = projects.map(({ id }) => id)
    workspace.places.note(second!, { journal: 'scrolled' }, 'scrolled')
    await workspace.openProject(first!)
    await workspace.openProject(second!)
    expect(workspace.places.at(second!)).toMatchObject({ journal: 'scrolled', source: null })
  })
})
