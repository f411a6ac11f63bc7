import { expect, test } from 'vitest'
import { findCameOf } from '../../../../../renderer/panes/sources/cameOf.ts'
import {
  dressOf,
  isTooMuch,
  LONG_TEXT,
  MOST_CARRIED,
  pickFromCapture,
} from '../../../../../renderer/panes/sources/picking.ts'
import { toView } from '../../../../../renderer/store/view.ts'
import { carry } from '../../../../../shared/distil/carry.ts'
import { pickSource } from '../../../../../shared/distil/fragment.ts'
import { addProcedure, addProject, addSource } from '../../../../../shared/lab/acts.ts'
import type { Change } from '../../../../../shared/lab/change.ts'
import type { ProjectId } from '../../../../../shared/lab/ids.ts'
import { openTestLab, repeatableSurroundings } from '../../../support/lab.ts'

const text = 'Stop the logger first.\nThen copy.\n'

async function setUp() {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const commit = async (change: Change) => expect((await lab.committer.commit(change)).ok).toBe(true)
  const [one, two] = [addProject, addProject].map((add) =>
    add(around, { title: 'P', aim: '', status: 'planned' }),
  )
  await commit(one!.change)
  await commit(two!.change)
  const added = addSource(around, {
    title: 'Copying',
    address: null,
    kind: 'markdown',
    wayIn: 'file',
    projects: [one!.project.id],
    capture: { text, bytes: new Uint8Array([1]), sha256: 'ab', mediaType: 'text/markdown' },
  })
  await commit(added.change)
  const { source } = added
  const capture = added.capture!
  const words = pickFromCapture(lab.id, source, capture, [{ start: 0, end: 22 }])!
  const view = async (project: ProjectId) => toView(project, await lab.queries.project(project))
  return { around, lab, commit, here: one!.project.id, there: two!.project.id, source, capture, words, view }
}

test('what came of a source names entries by kind and time and parts by their step, oldest first', async () => {
  const { around, lab, commit, here, source, capture, words, view } = await setUp()
  await commit(carry(around, words, { at: 'journal', project: here, kind: 'observation' }, 'drag').change)
  const { procedure, change } = addProcedure(around, here, 'Copy')
  await commit(change)
  const place = { at: 'new step', procedure: procedure.id, position: 'a0', kind: 'do' } as const
  await commit(carry(around, words, place, 'drag').change)
  const whole = pickSource({
    lab: lab.id,
    node: { kind: 'source', id: source.id },
    title: 'Copying',
    address: null,
  })
  await commit(carry(around, whole, { at: 'journal', project: here, kind: 'decision' }, 'button').change)
  const came = await findCameOf(lab, await view(here), [source.id, capture.id])
  expect(came.map(({ where, type, words: carried }) => [where.replace(/, \d.*/, ''), type, carried])).toEqual(
    [
      ['Observation', 'quotes', 'Stop the logger first.'],
      ['Do of step 1', 'quotes', 'Stop the logger first.'],
      ['Decision', 'cites', ''],
    ],
  )
  expect(came[0]!.where).toMatch(/^Observation, 2 Mar 2026, 21:00$/)
  expect(came[1]!.ranges).toEqual([{ start: 0, end: 22 }])
})

test('things of another project are found, with the project that they belong to', async () => {
  const { around, lab, commit, here, there, capture, words, view } = await setUp()
  await commit(carry(around, words, { at: 'journal', project: there, kind: 'fix' }, 'drag').change)
  const { procedure, change } = addProcedure(around, there, 'Copy')
  await commit(change)
  const place = { at: 'new step', procedure: procedure.id, position: 'a0', kind: 'why' } as const
  await commit(carry(around, words, place, 'drag').change)
  const came = await findCameOf(lab, await view(here), [capture.id])
  expect(came.map(({ project }) => project)).toEqual([there, there])
  expect(came[1]!.where).toBe('Why of a step')
})

test('only as much as a link should keep is picked at once', async () => {
  const { lab, source, capture } = await setUp()
  const long = { ...capture, text: 'a'.repeat(MOST_CARRIED + 1) }
  expect(pickFromCapture(lab.id, source, long, [{ start: 0, end: MOST_CARRIED }])).not.toBeNull()
  expect(pickFromCapture(lab.id, source, long, [{ start: 0, end: MOST_CARRIED + 1 }])).toBeNull()
  expect(
    isTooMuch([
      { start: 0, end: MOST_CARRIED },
      { start: MOST_CARRIED, end: MOST_CARRIED + 1 },
    ]),
  ).toBe(true)
})

test('a long text is shown plainly, a plain one without Markdown', async () => {
  const { source, capture } = await setUp()
  expect(dressOf(source, capture)).toBe('markdown')
  expect(dressOf({ ...source, kind: 'text' }, capture)).toBe('text')
  expect(dressOf(source, { ...capture, text: 'a'.repeat(LONG_TEXT) })).toBe('long')
})
