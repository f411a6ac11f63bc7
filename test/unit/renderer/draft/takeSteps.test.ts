/** Taking drafted steps, through a real committer. */
import { describe, expect, it } from 'vitest'
import { changedSentence, takeSteps, type DraftPlace } from '../../../../renderer/draft/acts.ts'
import { draftModel, type DraftModel } from '../../../../renderer/draft/model.ts'
import { redo, undo } from '../../../../renderer/store/gestures.ts'
import { partsOfStep, stepsOf } from '../../../../renderer/store/view.ts'
import { FollowedProject } from '../../../../renderer/workers/followedProject.ts'
import {
  addEntries,
  addProcedure,
  addStep,
  changeStep,
  writeText,
  type EntryInput,
} from '../../../../shared/lab/acts.ts'
import type { EntryId } from '../../../../shared/lab/ids.ts'
import type { FileState, Place, Step } from '../../../../shared/lab/model.ts'
import { changeBetween } from '../../../../shared/lab/text.ts'
import { acceptDraft } from '../../../../shared/procedure/draft/accept.ts'
import { isSelectorTrue } from '../../../../shared/provenance/selectors.ts'
import { ran } from '../../shared/procedure/support/records.ts'
import { openTestWorkspace } from '../../support/workspace.ts'

const on = (host: string): Place => ({ machine: null, host, user: 'root', directory: null })
const file: FileState = {
  ...{ path: '/etc/chrony/chrony.conf', owner: null, group: null, mode: null, form: 'content' },
  ...{ endsWithNewline: true, lineEnds: 'lf', blob: null },
}
const inputs: readonly Omit<EntryInput, 'project'>[] = [
  { kind: 'decision', text: 'Only the observers come in.' },
  ran('groupadd observers', 0, on('gate')),
  ran('getent group observers', 0, on('gate')),
  { kind: 'output', text: '```text\nobservers:x:1002:\n```' },
  { kind: 'file', text: '```\npool ntp.example.org iburst\n```', file, place: on('clock') },
  ran('systemctl restart chrony', 0, on('clock')),
]

async function setUp() {
  const { workspace, lab, projects } = await openTestWorkspace()
  const project = projects[0]!
  const { change, entries } = addEntries(
    lab.surroundings,
    inputs.map((input) => ({ ...input, project: project.id })),
  )
  await workspace.commit(change)
  const followed = new FollowedProject(lab.id, lab.queries, project.id)
  const draft = async (procedure: DraftPlace['procedure']): Promise<DraftModel> => {
    const { view, machines } = await followed.catchUp()
    return draftModel(view, machines, lab.id, { procedure, chosen: null })
  }
  return { workspace, lab, project, draft, entries }
}

async function withProcedure() {
  const all = await setUp()
  const { workspace, lab, project, draft } = all
  const { procedure, change } = addProcedure(lab.surroundings, project.id, 'Let the observers in')
  await workspace.commit(change)
  const fresh = (): Promise<DraftModel> => draft(procedure.id)
  const place: DraftPlace = { procedure: procedure.id, after: null }
  return { ...all, procedure, fresh, place }
}

/** All that an act could have made, for comparing. */
async function recordsOf(lab: Awaited<ReturnType<typeof setUp>>['lab']): Promise<unknown> {
  const { steps, parts, links, texts, linkStates, procedures } = await lab.dump()
  return {
    steps,
    parts,
    links,
    linkStates,
    procedures,
    texts: (texts as { text: string }[]).map(({ text }) => text),
  }
}

describe('taking drafted steps', () => {
  it('makes all steps and parts by one Change, each with its link whose quote stands where it says', async () => {
    const { workspace, lab, procedure, fresh, place } = await withProcedure()
    const before = workspace.requireView().sequence
    const { rows } = await fresh()
    expect(await takeSteps(workspace, fresh, place, rows)).toBe(true)
    const view = workspace.requireView()
    expect(view.sequence).toBe(before + 1)
    const steps = stepsOf(view, procedure.id)
    expect(steps.map(({ place: where }) => where?.host ?? null)).toEqual(['gate', 'clock', null])
    expect(steps.map(({ id }) => [...partsOfStep(view, id).keys()].sort())).toEqual([
      ['do', 'expect', 'why'],
      ['file'],
      ['do'],
    ])
    expect(partsOfStep(view, steps[1]!.id).get('file')!.file).toEqual(file)
    let quotes = 0
    for (const part of [...view.parts.values()].filter(({ step }) => step !== null)) {
      const own = [...view.links.values()].filter(({ newer }) => newer.node.id === part.id)
      expect(own.length).toBeGreaterThan(0)
      for (const { newer, older, way } of own) {
        expect(way).toBe('draft')
        for (const end of [newer, older]) {
          const standing = await lab.queries.standing(end.node.id as EntryId)
          expect(end.revision).toBe(standing!.revision)
          for (const selector of end.ranges) {
            expect(isSelectorTrue(standing!.text, selector)).toBe(true)
            quotes += 1
          }
        }
        expect(newer.ranges.map(({ quote }) => quote.exact)).toEqual(
          older.ranges.map(({ quote }) => quote.exact),
        )
      }
    }
    expect(quotes).toBe(12)
    // What stands in the procedure is proposed no more.
    expect((await fresh()).rows).toEqual([])
  })

  it('is taken away whole by one undo, and brought back by redo', async () => {
    const { workspace, lab, fresh, place } = await withProcedure()
    const before = await recordsOf(lab)
    await takeSteps(workspace, fresh, place, (await fresh()).rows)
    const after = await recordsOf(lab)
    expect(after).not.toEqual(before)
    await undo(workspace)
    expect(await recordsOf(lab)).toEqual(before)
    await redo(workspace)
    expect(await recordsOf(lab)).toEqual(after)
  })

  it('makes nothing where an entry was amended meanwhile, and says so', async () => {
    const { workspace, lab, fresh, place, entries } = await withProcedure()
    const { rows } = await fresh()
    const node = { kind: 'entry', id: entries[1]!.id } as const
    const standing = (await lab.queries.standing(node.id))!
    const { change } = writeText(
      lab.surroundings,
      node,
      standing.revision,
      changeBetween(standing.text, '```sh\ngroupadd guests\n```'),
    )
    expect(await workspace.commit(change)).toBe(true)
    const before = await recordsOf(lab)
    expect(await takeSteps(workspace, fresh, place, rows)).toBe(false)
    expect(workspace.state.notices.at(-1)!.words).toBe(changedSentence)
    expect(await recordsOf(lab)).toEqual(before)

    // The last guard, where the draft itself is of an older state.
    const now = (await lab.queries.standing(node.id))!
    const accepted = acceptDraft(
      lab.surroundings,
      {
        procedure: workspace.requireView().procedures.get(place.procedure!)!,
        ...{ steps: [], after: null, textOf: () => now },
      },
      rows,
    )
    expect(accepted).toMatchObject({ ok: false, code: 'changed' })
  })

  it('puts them behind the chosen step and never among its sub-steps', async () => {
    const { workspace, procedure, fresh, place } = await withProcedure()
    const { rows } = await fresh()
    await takeSteps(workspace, fresh, place, rows.slice(0, 1))
    await takeSteps(workspace, fresh, place, rows.slice(2))
    const [first] = stepsOf(workspace.requireView(), procedure.id)
    expect(await takeSteps(workspace, fresh, { ...place, after: first!.id }, rows.slice(1, 2))).toBe(true)
    const view = workspace.requireView()
    const kinds = stepsOf(view, procedure.id).map(({ id }) =>
      [...partsOfStep(view, id).keys()].includes('file'),
    )
    expect(kinds).toEqual([false, true, false])
  })

  it('puts them behind all sub-steps of the step that a chosen sub-step belongs to, where the place is that of the last', async () => {
    const { workspace, lab, procedure, fresh, place } = await withProcedure()
    const { surroundings } = lab
    const made: Step[] = []
    const levels = ['step', 'sub-step', 'sub-step', 'section', 'step'] as const
    for (const [n, level] of levels.entries()) {
      const { step, change } = addStep(surroundings, procedure.id, `a${n}`, level)
      await workspace.commit(change)
      made.push(step)
    }
    const [, first, second, section, last] = made
    await workspace.commit(changeStep(surroundings, second!, { place: on('clock') }))
    await workspace.commit(changeStep(surroundings, last!, { place: on('gate') }))
    const [onGate, onClock] = (await fresh()).rows
    const before = await recordsOf(lab)

    // The keyboard is in the first of two sub-steps.
    const inSub = { ...place, after: first!.id }
    expect(await takeSteps(workspace, fresh, inSub, [onClock!])).toBe(true)
    const known = new Set(made.map(({ id }) => id))
    const order = (): string[] =>
      stepsOf(workspace.requireView(), procedure.id).map(({ id, level }) => (known.has(id) ? level : 'new'))
    expect(order()).toEqual(['step', 'sub-step', 'sub-step', 'new', 'section', 'step'])
    const taken = (): Step => stepsOf(workspace.requireView(), procedure.id).find(({ id }) => !known.has(id))!
    expect(taken()).toMatchObject({ level: 'step', place: null })
    await undo(workspace)
    expect(await recordsOf(lab)).toEqual(before)

    // One that was done on another machine says so, and the row behind it keeps the place that it had.
    expect(await takeSteps(workspace, fresh, inSub, [onGate!])).toBe(true)
    expect(order()).toEqual(['step', 'sub-step', 'sub-step', 'new', 'section', 'step'])
    expect(taken().place).toMatchObject({ host: 'gate' })
    expect(workspace.requireView().steps.get(section!.id)!.place).toMatchObject({ host: 'clock' })
    expect(workspace.requireView().steps.get(last!.id)!.place).toMatchObject({ host: 'gate' })
  })

  it('begins the procedure where there is none, by the same Change and the same undo', async () => {
    const { workspace, lab, draft, project } = await setUp()
    const before = await recordsOf(lab)
    const { rows } = await draft(null)
    const fresh = (): Promise<DraftModel> => draft(null)
    expect(await takeSteps(workspace, fresh, { procedure: null, after: null }, rows)).toBe(true)
    const view = workspace.requireView()
    const [procedure] = [...view.procedures.values()]
    expect(workspace.state.procedure).toBe(procedure!.id)
    const title = [...view.parts.values()].find(({ kind }) => kind === 'title')!
    expect(view.texts.get(title.id)).toBe(project.title)
    expect(stepsOf(view, procedure!.id)).toHaveLength(3)
    await undo(workspace)
    expect(await recordsOf(lab)).toEqual(before)
  })
})
