/** Carrying over what is missing, through a real committer. */
import { describe, expect, it } from 'vitest'
import { carryOver, leaveOutNow, takeIn } from '../../../../renderer/coverage/acts.ts'
import { coverageModel, type CoverageModel } from '../../../../renderer/coverage/model.ts'
import { FollowedProject } from '../../../../renderer/workers/followedProject.ts'
import { redo, undo } from '../../../../renderer/store/gestures.ts'
import { stepsOf } from '../../../../renderer/store/view.ts'
import { addEntries, addProcedure, type EntryInput } from '../../../../shared/lab/acts.ts'
import type { FileState, Place } from '../../../../shared/lab/model.ts'
import { isSelectorTrue } from '../../../../shared/provenance/selectors.ts'
import { ran } from '../../shared/procedure/support/records.ts'
import { openTestWorkspace } from '../../support/workspace.ts'

const on = (host: string): Place => ({ machine: null, host, user: 'root', directory: null })

async function setUp(inputs: readonly Omit<EntryInput, 'project'>[]) {
  const { workspace, lab, projects } = await openTestWorkspace()
  const project = projects[0]!
  const { change } = addEntries(
    lab.surroundings,
    inputs.map((input) => ({ ...input, project: project.id })),
  )
  await workspace.commit(change)
  const begun = addProcedure(lab.surroundings, project.id, 'Restart the gate')
  await workspace.commit(begun.change)
  const followed = new FollowedProject(lab.id, lab.queries, project.id)
  const id = begun.procedure.id
  const fresh = async (): Promise<CoverageModel> => {
    const { view, machines } = await followed.catchUp()
    return coverageModel(view, machines, id)!
  }
  const textsOf = (): string[] =>
    stepsOf(workspace.requireView(), id).map(({ id: step }) => {
      const view = workspace.requireView()
      const part = [...view.parts.values()].find((one) => one.step === step)!
      return `${part.kind}: ${view.texts.get(part.id)}`
    })
  const carry = async (words: string): Promise<boolean> => {
    const found = (await fresh()).missing.find(({ text }) => text.includes(words))!
    return (await carryOver(workspace, fresh, id, found.id, 'keyboard')) !== null
  }
  return { workspace, lab, id, fresh, textsOf, carry }
}

const fence = (words: string): string => `do: \`\`\`sh\n${words}\n\`\`\``

describe('carrying over', () => {
  it('puts each between its neighbours, whatever comes first, and says the place where it changes', async () => {
    const { workspace, id, fresh, textsOf, carry } = await setUp([
      ran('apt install chrony', 0, on('gate')),
      ran('mkdir /srv/readings', 0, on('gate')),
      ran('systemctl restart chrony', 0, on('clock')),
      ran('touch /srv/last', 0, on('gate')),
    ])
    expect(await carry('apt')).toBe(true)
    expect(await carry('touch')).toBe(true)
    expect(await carry('systemctl')).toBe(true)
    expect(await carry('mkdir')).toBe(true)
    expect(textsOf()).toEqual([
      fence('apt install chrony'),
      fence('mkdir /srv/readings'),
      fence('systemctl restart chrony'),
      fence('touch /srv/last'),
    ])
    const hosts = stepsOf(workspace.requireView(), id).map(({ place }) => place?.host ?? null)
    expect(hosts).toEqual(['gate', null, 'clock', 'gate'])
    const { counts } = await fresh()
    expect(counts).toMatchObject({ covered: 4, missing: 0, uncertain: 0 })
  })

  it('is one Change with its link, and one undo', async () => {
    const { workspace, lab, fresh, textsOf, carry } = await setUp([ran('apt install chrony', 0, on('gate'))])
    await carry('apt')
    const view = workspace.requireView()
    const [link] = [...view.links.values()]
    expect(link).toMatchObject({ way: 'keyboard', older: { node: { kind: 'entry' } } })
    const standing = await lab.queries.standing(link!.newer.node.id as never)
    expect(link!.newer.ranges.every((one) => isSelectorTrue(standing!.text, one))).toBe(true)
    expect(link!.newer.revision).toBe(standing!.revision)
    await undo(workspace)
    expect(textsOf()).toEqual([])
    expect(workspace.requireView().links.size).toBe(0)
    expect((await fresh()).counts).toMatchObject({ covered: 0, missing: 1 })
    await redo(workspace)
    expect(textsOf()).toEqual([fence('apt install chrony')])
    expect((await fresh()).counts).toMatchObject({ covered: 1, missing: 0 })
  })

  it('fences a command that was written in a line, so that it is one in the procedure too', async () => {
    const text = 'I ran `systemctl restart chrony` and waited.'
    const { fresh, textsOf, id, workspace } = await setUp([{ kind: 'action', text, place: on('gate') }])
    const [found] = (await fresh()).unsure
    expect(await carryOver(workspace, fresh, id, found!.id, 'button')).not.toBeNull()
    expect(textsOf()).toEqual([fence('systemctl restart chrony')])
    expect((await fresh()).counts).toMatchObject({ covered: 1, uncertain: 0 })
  })

  it('does nothing where it is not missing any more, and says so', async () => {
    const { workspace, fresh, id, textsOf, carry } = await setUp([ran('apt install chrony', 0, on('gate'))])
    const [found] = (await fresh()).missing
    await carry('apt')
    expect(await carryOver(workspace, fresh, id, found!.id, 'keyboard')).toBeNull()
    expect(textsOf()).toHaveLength(1)
    expect(workspace.state.notices.at(-1)!.words).toBe('It is not missing any more. Nothing was changed.')
  })

  it('of a file makes a part that sets it down', async () => {
    const file: FileState = {
      ...{ path: '/etc/chrony/chrony.conf', owner: null, group: null, mode: null, form: 'content' },
      ...{ endsWithNewline: true, lineEnds: 'lf', blob: null },
    }
    const text = '```\npool ntp.example.org iburst\n```'
    const { fresh, textsOf, carry } = await setUp([{ kind: 'file', text, file, place: on('gate') }])
    expect(await carry('chrony.conf')).toBe(true)
    expect(textsOf()).toEqual([`file: ${text}`])
    expect((await fresh()).counts).toMatchObject({ covered: 1, missing: 0 })
  })
})

describe('leaving out', () => {
  it('keeps the reason, is undone in one, and is taken in again', async () => {
    const { workspace, fresh, id } = await setUp([ran('apt install chrony && touch /srv/a', 0, on('gate'))])
    const [first, second] = (await fresh()).missing
    expect(await leaveOutNow(workspace, fresh, id, first!.id, 'Only a trial.')).toBe(true)
    const now = await fresh()
    expect(now.leftOut.map(({ says, text }) => [says.reason, text])).toEqual([['Only a trial.', first!.text]])
    expect(now.missing.map(({ text }) => text)).toEqual([second!.text])
    await undo(workspace)
    expect((await fresh()).missing).toHaveLength(2)
    await redo(workspace)
    const [out] = (await fresh()).leftOut
    expect(await takeIn(workspace, out!)).toBe(true)
    expect(await takeIn(workspace, out!)).toBe(false)
    expect((await fresh()).missing).toHaveLength(2)
  })
})
