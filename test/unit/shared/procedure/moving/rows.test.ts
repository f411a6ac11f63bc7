/** Joining rows and moving parts, through the store that the program uses. */
import { beforeEach, describe, expect, it } from 'vitest'
import type { OpenLab } from '../../../../../renderer/db/lab.ts'
import { changeOfJoin, changeOfPartMove } from '../../../../../renderer/store/movingWords.ts'
import * as acts from '../../../../../shared/lab/acts.ts'
import type { Change } from '../../../../../shared/lab/change.ts'
import type { ProcedureId } from '../../../../../shared/lab/ids.ts'
import type { Part, Place, Step, StepLevel, StepPartKind } from '../../../../../shared/lab/model.ts'
import { whyNotJoin, whyNotMovePart } from '../../../../../shared/procedure/moving/join.ts'
import { whyNotSplit } from '../../../../../shared/procedure/moving/split.ts'
import { stepLinksIn } from '../../../../../shared/procedure/rows/step-links.ts'
import { openTestLab } from '../../../support/lab.ts'

interface Row {
  readonly step: Step
  readonly parts: Part[]
}

let lab: OpenLab
let procedure: ProcedureId
let rows: Row[]

async function commit(change: Change): Promise<void> {
  const done = await lab.committer.commit(change)
  if (!done.ok) throw new Error(done.sentence)
}

async function addRow(texts: Partial<Record<StepPartKind, string>>, level: StepLevel = 'step'): Promise<Row> {
  const around = lab.surroundings
  const position = acts.positionBetween(rows.at(-1)?.step ?? null, null)
  const step = { ...acts.addStep(around, procedure, position, level).step }
  const parts: Part[] = []
  const operations = Object.entries(texts).flatMap(([kind, text]) => {
    const part = acts.newPart(around, step, kind as StepPartKind)
    parts.push(part)
    return acts.beginPart(around, part, text).operations
  })
  await commit(acts.makeChange(around, 'add a step', [acts.put('steps', step), ...operations]))
  rows.push({ step, parts })
  return rows.at(-1)!
}

const textOf = async (part: Part | undefined): Promise<string | undefined> =>
  part && (await lab.queries.standing(part.id))?.text

beforeEach(async () => {
  lab = await openTestLab()
  rows = []
  const { project, change } = acts.addProject(lab.surroundings, {
    title: 'Dome',
    aim: '',
    status: 'under way',
  })
  const made = acts.addProcedure(lab.surroundings, project.id, 'Move the dome’s logger')
  await commit(change)
  await commit(made.change)
  procedure = made.procedure.id
})

const joined = async (first: Row, second: Row, referring: Part[] = []): Promise<void> => {
  const change = await changeOfJoin(
    lab,
    { ...first, place: null },
    { ...second, place: null },
    [],
    referring.map(({ id }) => id),
  )
  if (!change.ok) throw new Error(change.sentence)
  await commit(change.value)
}

describe('references to a row that is joined away', () => {
  it('lead to the joined step from other rows, from both rows and from a part that goes over, until it is undone', async () => {
    const first = await addRow({ do: 'Stop it.' })
    const second = await addRow({ do: 'Wait.' })
    const { id } = second.step
    await commit(
      acts.writeText(
        lab.surroundings,
        { kind: 'part', id: first.parts[0]!.id },
        (await lab.queries.standing(first.parts[0]!.id))!.revision,
        [8, [0, ` Then [step 2](step:${id}).`]],
      ).change,
    )
    const why = acts.addPart(lab.surroundings, second.step, 'why')
    await commit(why.change)
    const revision = (await lab.queries.standing(why.part.id))!.revision
    await commit(
      acts.writeText(lab.surroundings, { kind: 'part', id: why.part.id }, revision, [
        [0, `See [it](step:${id}).`],
      ]).change,
    )
    const other = await addRow({
      do: `Again [step 2](step:${id}) and [step 2](step:${id}), but not \`step:${id}\`.`,
    })
    const before = await textOf(other.parts[0])
    await joined(first, { step: second.step, parts: [...second.parts, why.part] }, [other.parts[0]!])
    for (const part of [first.parts[0], why.part, other.parts[0]]) {
      const links = stepLinksIn((await textOf(part))!)
      expect(links.length, part!.kind).toBeGreaterThan(0)
      expect(links.map(({ step }) => step)).toEqual(links.map(() => first.step.id))
    }
    // What stands as code is quoted, and is no reference.
    expect(await textOf(other.parts[0])).toContain(`\`step:${id}\``)
    expect(await textOf(first.parts[0])).toMatch(/^Stop it\. Then .*\n\nWait\.$/su)
    const undone = await lab.committer.undo()
    expect(undone.ok).toBe(true)
    expect(await textOf(other.parts[0])).toBe(before)
    expect(await textOf(first.parts[0])).toBe(`Stop it. Then [step 2](step:${id}).`)
    expect(await textOf(second.parts[0])).toBe('Wait.')
    const redone = await lab.committer.redo()
    expect(redone.ok).toBe(true)
    expect(stepLinksIn((await textOf(other.parts[0]))!)[0]!.step).toBe(first.step.id)
    expect(await lab.rebuild()).toBe(true)
  })
})

describe('a part that goes to another step', () => {
  it('goes as it is where the step has none of its kind, else behind the text of its kind', async () => {
    const first = await addRow({ do: 'Stop it.' })
    const second = await addRow({ do: 'Wait.', why: 'It writes late.' })
    const why = second.parts[1]!
    const change = await changeOfPartMove(lab, why, first.step, null)
    if (!change.ok) throw new Error(change.sentence)
    await commit(change.value)
    expect(await textOf(why)).toBe('It writes late.')
    const next = await changeOfPartMove(lab, second.parts[0]!, first.step, first.parts[0]!)
    if (!next.ok) throw new Error(next.sentence)
    await commit(next.value)
    expect(await textOf(first.parts[0])).toBe('Stop it.\n\nWait.')
    expect(await textOf(second.parts[0])).toBeUndefined()
    await lab.committer.undo()
    expect(await textOf(first.parts[0])).toBe('Stop it.')
    expect(await textOf(second.parts[0])).toBe('Wait.')
  })

  it('stays where it cannot go', async () => {
    const first = await addRow({ do: 'Stop it.' })
    const section = await addRow({ heading: 'The dome' }, 'section')
    const [part] = first.parts
    expect(whyNotMovePart(part!, section.step, false)).toContain('section')
    expect(whyNotMovePart(part!, first.step, true)).toContain('already')
    expect(whyNotMovePart(section.parts[0]!, first.step, false)).toContain('belongs')
    const other = await addRow({ do: 'Go on.' })
    expect(whyNotMovePart({ ...part!, kind: 'file' } as Part, other.step, true)).toContain('file')
    expect(whyNotMovePart(part!, other.step, true)).toBe(null)
  })
})

describe('what cannot be split or joined', () => {
  it('is told with a reason', async () => {
    const { step, parts } = await addRow({ do: 'Stop it.', why: 'It writes.' })
    const [part] = parts
    expect(whyNotSplit(part!, parts, 'Stop it.', 0)).toContain('before the cursor')
    expect(whyNotSplit(part!, parts, 'Stop it.', 8)).toBe(null)
    expect(whyNotSplit(part!, [part!], 'Stop it. ', 8)).toContain('behind the cursor')
    const place: Place = { machine: null, host: 'rack.example.org', user: null, directory: null }
    const [plain, sub] = [
      { step, parts: [], place: null },
      { step: { ...step, level: 'sub-step' as const }, parts: [], place: null },
    ]
    expect(whyNotJoin(plain, sub)).toBe(null)
    expect(whyNotJoin(sub, plain)).toContain('sub-step')
    expect(whyNotJoin(plain, { ...plain, step: { ...step, place }, place })).toContain('places')
    expect(whyNotJoin(plain, { ...plain, step: { ...step, level: 'section' } })).toContain('section')
  })
})
