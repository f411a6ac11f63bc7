import fc from 'fast-check'
import { expect, test } from 'vitest'
import { carryChoices, filterChoices } from '../../../../../renderer/panes/procedure/carryPlaces.ts'
import { nameFor, otherKinds, usualKind } from '../../../../../renderer/panes/procedure/landing.ts'
import { stepAbove } from '../../../../../renderer/panes/procedure/moving.ts'
import { appendedTo, bringPlainAt } from './plain.ts'
import { isSameStep, missingKinds, toShownProcedure } from '../../../../../renderer/panes/procedure/shown.ts'
import { restsOn } from '../../../../../renderer/panes/procedure/words.ts'
import type { StepId } from '../../../../../shared/lab/ids.ts'
import { partKindAt } from '../../../../../shared/distil/landing.ts'
import { addEntry, changeStep } from '../../../../../shared/lab/acts.ts'
import { unnamedFile } from '../../../../../renderer/panes/procedure/fileParts.ts'
import type { FileState } from '../../../../../shared/lab/model.ts'
import { openScene } from './scene.ts'

const usual = { part: null, entry: null } as const

async function sceneWithTwoSteps() {
  const scene = await openScene()
  const place = { at: 'new step', procedure: scene.procedure, after: null } as const
  for (const text of ['Second: stop the logger', 'First: look at the café clock'])
    await scene.carry(scene.fromEntry(await scene.entry('action', text), text), place)
  return { scene, shown: toShownProcedure(await scene.view(), scene.procedure)! }
}

test('words of a source can go to the journal and to every place of the procedure, in reading order', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const choices = carryChoices(scene.fromSource('rsync -aHAX / /mnt/new/'), shown, usual)
  expect(choices.map(({ name }) => name)).toEqual([
    'Entry in the journal: action',
    'New step before 1: do',
    'Do of step 1',
    'New step after 1: do',
    'Do of step 2',
    'New step after 2: do',
    ...['Purpose', 'Made for', 'Access', 'Parts and tools', 'Time', 'Back-up first', 'Closing checks'].map(
      (word) => `Of the procedure itself: ${word}`,
    ),
    'Of the procedure itself: How to undo it all',
  ])
  expect(choices[2]!.excerpt).toBe('First: look at the café clock')
  expect(new Set(choices.map(({ id }) => id)).size).toBe(choices.length)
})

test('the journal takes no words from the journal', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const entry = await scene.entry('output', '/dev/sda2')
  const choices = carryChoices(scene.fromEntry(entry, '/dev/sda2'), shown, usual)
  expect(choices.some(({ place }) => place?.at === 'journal')).toBe(false)
  expect(choices[1]!.name).toBe('Expect of step 1')
})

test('a chosen kind stands in every name and goes with the place', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const kinds = { part: 'caution', entry: 'fix' } as const
  const choices = carryChoices(scene.fromSource('Name the disk by its PARTUUID.'), shown, kinds)
  expect(choices[0]!.place).toEqual({ at: 'journal', kind: 'fix' })
  expect(choices[2]!.name).toBe('Caution of step 1')
  expect(choices[2]!.place).toMatchObject({ at: 'step', kind: 'caution' })
})

test('without a procedure one can be begun', async () => {
  const scene = await openScene()
  const choices = carryChoices(scene.fromSource('Name the disk by its PARTUUID.'), null, usual)
  expect(choices.map(({ place }) => place?.at ?? 'begin')).toEqual(['journal', 'begin'])
})

test('places are found by every typed word, whatever its case and accents', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const choices = carryChoices(scene.fromSource('rsync -aHAX / /mnt/new/'), shown, usual)
  const found = (typed: string) => filterChoices(choices, typed).map(({ name }) => name)
  expect(found('CAFE clock')).toEqual(['Do of step 1'])
  expect(found('after 2')).toEqual(['New step after 2: do'])
  expect(found('  ')).toHaveLength(choices.length)
  expect(found('nowhere')).toEqual([])
})

const allButDo = ['condition', 'done already', 'caution', 'expect', 'if it fails', 'hold', 'undo', 'why']

test('a step offers the usual kind once and all others beside it', () => {
  const kind = usualKind({ kind: 'text' }, () => 'why')
  expect(kind).toBe('do')
  expect(otherKinds(kind)).toEqual(allButDo)
  expect(usualKind({ kind: 'unread fragment' }, () => 'why')).toBeNull()
})

test('a place says no kind while what comes cannot be read yet', async () => {
  const { shown } = await sceneWithTwoSteps()
  const steps = shown.steps.map(({ step }) => step)
  const [first] = steps
  const comer = { kind: 'unread fragment' } as const
  const { procedure, id } = first!
  expect(nameFor(comer, { at: 'step', step: id }, steps)).toBe('Onto step 1')
  expect(nameFor(comer, { at: 'step', step: id, kind: 'why' }, steps)).toBe('Why of step 1')
  expect(nameFor(comer, { at: 'new step', procedure, after: id }, steps)).toBe('New step after 1')
  expect(nameFor({ kind: 'text' }, { at: 'new step', procedure, after: id }, steps)).toBe(
    'New step after 1: do',
  )
})

test('a dragged step lands behind the last one whose middle lies above the pointer', () => {
  const heights = fc.array(fc.integer({ min: 2, max: 300 }), { minLength: 1, maxLength: 12 })
  fc.assert(
    fc.property(heights, fc.integer({ min: -50, max: 4000 }), (sizes, y) => {
      let top = 0
      const boxes = sizes.map((size, i) => {
        const box = { id: `s${i}` as StepId, top, bottom: top + size }
        top += size
        return box
      })
      const after = stepAbove(boxes, y)
      const at = boxes.findIndex(({ id }) => id === after)
      const middle = (i: number): number => (boxes[i]!.top + boxes[i]!.bottom) / 2
      if (at >= 0) expect(middle(at)).toBeLessThan(y)
      if (at + 1 < boxes.length) expect(middle(at + 1)).toBeGreaterThanOrEqual(y)
    }),
  )
})

test('a step knows which parts it has not', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  expect(missingKinds(shown.steps[0]!).filter((kind) => kind !== 'file')).toEqual(allButDo)
  await bringPlainAt(
    scene,
    { at: 'new part', step: shown.steps[0]!.step, kind: 'caution' },
    'Mind the mains.',
  )
  const step = toShownProcedure(await scene.view(), scene.procedure)!.steps[0]!
  expect(step.parts.map(({ part }) => part.kind)).toEqual(['caution', 'do'])
})

test('a step that nothing touched is not drawn again', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const view = await scene.view()
  const [one, again] = [toShownProcedure(view, scene.procedure)!, toShownProcedure(view, scene.procedure)!]
  expect(isSameStep(one.steps[0]!, again.steps[0]!)).toBe(true)
  expect(isSameStep(one.steps[0]!, one.steps[1]!)).toBe(false)
  expect(shown.steps.map(({ number }) => number)).toEqual(['1', '2'])
})

test('what a step rests on is counted by things, not by links', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  expect(restsOn([])).toBe('Rests on nothing')
  const [one] = shown.steps[0]!.parts[0]!.links.map(({ link }) => link)
  expect(restsOn([one!, one!])).toBe('Rests on 1 entry')
  await scene.carry(scene.wholeSource(), { at: 'step', step: shown.steps[0]!.step.id })
  const step = toShownProcedure(await scene.view(), scene.procedure)!.steps[0]!
  expect(restsOn(step.parts.flatMap(({ links }) => links.map(({ link }) => link)))).toBe(
    'Rests on 1 entry and 1 source',
  )
})

test('text of another program lands as one Change, and its undo leaves nothing of it', async () => {
  const { scene } = await sceneWithTwoSteps()
  const before = await scene.view()
  const landing = { at: 'new step', procedure: scene.procedure, position: 'zz', kind: 'do' } as const
  const change = await bringPlainAt(scene, landing, '\n\n  Wait.\r\nThen look.\0 \n')
  const after = toShownProcedure(await scene.view(), scene.procedure)!
  expect(after.steps[2]!.parts.map(({ text, links }) => [text, links.length])).toEqual([
    ['  Wait.\nThen look.\ufffd', 0],
  ])
  await scene.lab.committer.undo(change.id)
  expect((await scene.view()).steps).toEqual(before.steps)
  expect((await scene.view()).texts).toEqual(before.texts)
})

test('text of another program becomes the last block of a part that stands', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const { part } = shown.steps[1]!.parts[0]!
  expect(await appendedTo(scene, part, 'Then wait.')).toBe('Second: stop the logger\n\nThen wait.')
})

test('a file entry becomes a file part with its file state, once for a step; lines out of it are words', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const file: FileState = { ...unnamedFile, path: '/etc/fstab', owner: 'root', mode: '0644' }
  const text = '```fstab\nUUID=0f /\n```'
  const made = addEntry(scene.lab.surroundings, { project: scene.project, kind: 'file', text, file })
  await scene.commit(made.change)
  const whole = scene.fromEntry(made.entry, text)
  const step = shown.steps[0]!.step.id
  await scene.carry(whole, { at: 'step', step })
  const part = toShownProcedure(await scene.view(), scene.procedure)!.steps[0]!.parts[1]!
  expect(part.part).toMatchObject({ kind: 'file', file })
  expect(part.text).toBe(text)
  expect(part.links[0]!.state!.type).toBe('quotes')
  await expect(scene.carry(whole, { at: 'step', step })).rejects.toThrow('sets down a file already')
  expect(partKindAt({ origin: { kind: 'entry', entryKind: 'file' }, fence: 'fstab' })).toBe('do')
})

test('a row that is carried among sub-steps is one of them', async () => {
  const { scene, shown } = await sceneWithTwoSteps()
  const [first, second] = shown.steps.map(({ step }) => step)
  await scene.commit(changeStep(scene.lab.surroundings, second!, { level: 'sub-step' }))
  await scene.carry(scene.fromSource('PARTUUID'), {
    at: 'new step',
    procedure: scene.procedure,
    after: first!.id,
  })
  const rows = toShownProcedure(await scene.view(), scene.procedure)!.steps
  expect(rows.map(({ number }) => number)).toEqual(['1', '1.1', '1.2'])
})
