import { expect, test } from 'vitest'
import { loadLife } from '../../../../renderer/trace/loadLife.ts'
import { wordsOfEvent } from '../../../../renderer/trace/words.ts'
import { answerProblem, removeSteps } from '../../../../shared/lab/acts.ts'
import type { PartId } from '../../../../shared/lab/ids.ts'
import type { LifeEvent } from '../../../../shared/provenance/life.ts'
import { instantOf } from '../../../../shared/lab/moment.ts'
import { textOf } from '../../../../shared/sources/difference.ts'
import { openScene } from '../panes/procedure/scene.ts'
import { carriedTwice, markNow, rewrite } from './scene.ts'

const words = (events: readonly LifeEvent[]): string[] => events.map(wordsOfEvent)

async function stepOutOfAFix() {
  const scene = await openScene()
  const first = await scene.entry('observation', 'The card is slow.')
  const problem = await scene.entry('problem', 'The root did not mount.')
  const fix = await scene.entry('fix', 'Name the disk by its PARTUUID.')
  await scene.commit(answerProblem(scene.lab.surroundings, fix.id, problem.id, 'button'))
  const place = { at: 'new step', procedure: scene.procedure, after: null } as const
  const part = (await scene.carry(scene.fromEntry(fix, 'Name the disk by its PARTUUID.'), place)) as PartId
  const step = (await scene.lab.queries.findPart(part))!.step!
  return { scene, first, problem, fix, part, step }
}

test('the life of a step: its problem, what ended it, the carry, each rewording with its words, and the version', async () => {
  const { scene, problem, fix, part, step } = await stepOutOfAFix()
  const node = { kind: 'part', id: part } as const
  await rewrite(scene, node, (text) => text.replace('disk', 'drive'))
  await rewrite(scene, node, (text) => text.replace('Name', 'Call'))
  await markNow(scene, 'First that works')
  await rewrite(scene, node, (text) => `${text} Once.`)
  await markNow(scene, 'Said how often')
  const { events, labels } = await loadLife(scene.lab, step)
  expect(words(events)).toEqual([
    'A problem',
    'First note: what ended it',
    'The step was begun by a carry',
    'Carried to If it fails',
    'Reworded: If it fails',
    'Version 1 holds it',
    'Reworded: If it fails',
    'Version 2 holds it, as it stands now',
  ])
  const texts = events.flatMap((event) =>
    event.kind === 'words' ? [[textOf(event.difference, 'older'), textOf(event.difference, 'newer')]] : [],
  )
  // Two rewordings of one sitting are told as one.
  expect(texts).toEqual([
    ['Name the disk by its PARTUUID.', 'Call the drive by its PARTUUID.'],
    ['Call the drive by its PARTUUID.', 'Call the drive by its PARTUUID. Once.'],
  ])
  expect([labels.get(problem.id)!.text, labels.get(fix.id)!.kind]).toEqual([
    'The root did not mount.',
    'entry',
  ])
})

test('a carry that was undone stands in the life with its undoing', async () => {
  const { scene, part, step } = await stepOutOfAFix()
  await scene.carry(scene.fromSource('Name the disk by its PARTUUID.'), {
    at: 'text',
    part,
    step,
    kind: 'if it fails',
    offset: 0,
  })
  await scene.lab.committer.undo()
  const { events } = await loadLife(scene.lab, step)
  expect(words(events).slice(-3)).toEqual([
    'Carried to If it fails',
    'Carried to If it fails',
    'Taken back from If it fails',
  ])
})

test('a step that was removed and brought back says so, and not that its words were typed again', async () => {
  const { scene, step } = await stepOutOfAFix()
  const view = await scene.view()
  const parts = [...view.parts.values()].filter((part) => part.step === step)
  const standing = await scene.lab.queries.standingParts(parts)
  await scene.commit(removeSteps(scene.lab.surroundings, [view.steps.get(step)!], standing))
  expect((await loadLife(scene.lab, step)).events).toEqual([])
  await scene.lab.committer.undo()
  const { events } = await loadLife(scene.lab, step)
  expect(words(events).slice(-2)).toEqual(['The step was removed', 'The step was brought back by undo'])
})

test('a step that came from a page has no note but that of the entry between', async () => {
  const { scene, entry, step } = await carriedTwice()
  const { events } = await loadLife(scene.lab, step)
  expect(words(events)).toEqual(['First note', 'The step was begun by a carry', 'Carried to Why'])
  expect(events[0]).toMatchObject({ kind: 'entry', entry: { entry: { id: entry } } })
  const instants = events.map(({ at }) => instantOf(at))
  expect(instants).toEqual([...instants].sort((a, b) => a - b))
})

test('only the Changes that the texts of the step name are read', async () => {
  const { scene, step } = await stepOutOfAFix()
  for (let i = 0; i < 20; i++) await scene.entry('observation', `Reading ${i}`)
  const read: string[] = []
  const { queries } = scene.lab
  const changes = queries.trace.changes.bind(queries.trace)
  queries.trace.changes = async (ids) => {
    read.push(...ids)
    return changes(ids)
  }
  await loadLife(scene.lab, step)
  expect(read).toHaveLength(1)
})
