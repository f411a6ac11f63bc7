/** Links of texts that were replaced as a whole, as an import, a merge or pasting over everything does it. */
import { describe, expect, it } from 'vitest'
import { carry } from '../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import { addEntry, addProcedure, addProject, writeText } from '../../../../shared/lab/acts.ts'
import type { EndState, LinkState } from '../../../../shared/lab/model.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'

const step = 'Press the button.\nWait for the lamp.\n'
const sheet = step.repeat(40).trimEnd()
/** Its words, and all that a link keeps of what stood around them, stand there more than once. */
const twentieth = { start: 19 * step.length, end: 19 * step.length + 17 }

/** A part with the sheet, out of which the twentieth of its equal lines was carried on into a step of its own. */
async function labWithCarriedLine() {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const entry = addEntry(around, { project: project.id, kind: 'action', text: sheet })
  const { procedure, change: begun } = addProcedure(around, project.id, 'Read out the logger')
  const whole = { start: 0, end: sheet.length }
  const from = { lab: lab.id, title: '', address: null, text: sheet }
  const first = carry(
    around,
    pickFragment(
      {
        ...from,
        ...{ node: { kind: 'entry', id: entry.entry.id }, revision: entry.revision },
        origin: { kind: 'entry', entryKind: 'action' },
      },
      [whole],
    )!,
    { at: 'new step', procedure: procedure.id, position: 'a0', kind: 'do' },
    'drag',
  )
  const second = carry(
    around,
    pickFragment(
      {
        ...from,
        ...{ node: first.node, revision: first.revision, origin: { kind: 'part', partKind: 'do' } },
      },
      [twentieth],
    )!,
    { at: 'new step', procedure: procedure.id, position: 'a1', kind: 'do' },
    'drag',
  )
  await lab.committer.commitAll([change, entry.change, begun, first.change, second.change])
  const olderEnd = async (): Promise<EndState> => {
    const linkStates = (await lab.dump()).linkStates as LinkState[]
    return linkStates.find(({ link }) => link === second.link.id)!.older
  }
  const replace = async (text: string): Promise<void> => {
    const { change: written } = writeText(around, first.node, first.revision, [
      [sheet.length, ...text.split('\n')],
    ])
    expect(await lab.committer.commit(written)).toMatchObject({ ok: true })
  }
  return { lab, olderEnd, replace }
}

describe('a link into a text that was replaced as a whole', () => {
  it('is where its own copy of equal lines is, after the change as after a rebuild, and undo brings back its characters', async () => {
    const { lab, olderEnd, replace } = await labWithCarriedLine()
    expect(await olderEnd()).toMatchObject({ places: [twentieth], loose: false })
    await replace(`First the pump.\n${sheet}\nThen the valve.`)
    const moved = { start: twentieth.start + 16, end: twentieth.end + 16 }
    expect(await olderEnd()).toMatchObject({ places: [moved], loose: false })
    expect((await olderEnd()).score).toBeGreaterThan(0.9)
    expect(await lab.rebuild()).toBe(true)
    expect(await olderEnd()).toMatchObject({ places: [moved], loose: false })
    await lab.committer.undo()
    expect(await olderEnd()).toMatchObject({ places: [twentieth], loose: false })
    expect(await olderEnd()).not.toHaveProperty('score')
    expect(await lab.rebuild()).toBe(true)
  })

  it('is loose where the new text says something else', async () => {
    const { lab, olderEnd, replace } = await labWithCarriedLine()
    await replace('The logger is read out over the air now; nothing is to be pressed.')
    expect(await olderEnd()).toMatchObject({ places: [null], loose: true })
    expect(await lab.rebuild()).toBe(true)
  })
})
