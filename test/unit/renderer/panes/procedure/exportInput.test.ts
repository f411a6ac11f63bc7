import { expect, test } from 'vitest'
import { toExportInput } from '../../../../../renderer/panes/procedure/exportInput.ts'
import { readExportRecords } from '../../../../../renderer/panes/procedure/exportRecords.ts'
import { toShownProcedure } from '../../../../../renderer/panes/procedure/shown.ts'
import { procedureToMarkdown } from '../../../../../shared/export/procedure-markdown.ts'
import { answerProblem, writeText } from '../../../../../shared/lab/acts.ts'
import type { EntryId, PartId } from '../../../../../shared/lab/ids.ts'
import { replacing } from '../../../../../shared/lab/text.ts'
import { openScene, type Scene } from './scene.ts'

async function exported(scene: Scene) {
  const shown = toShownProcedure(await scene.view(), scene.procedure)!
  return toExportInput(shown, await readExportRecords(scene.lab.queries, shown), [])
}

const newStep = (scene: Scene) => ({ at: 'new step', procedure: scene.procedure, after: null }) as const

async function rewrite(scene: Scene, id: PartId, text: string): Promise<void> {
  const standing = (await scene.lab.queries.standing(id))!
  const all = { start: 0, end: standing.text.length }
  const changeSet = replacing(standing.text.length, all, text)
  await scene.commit(
    writeText(scene.lab.surroundings, { kind: 'part', id }, standing.revision, changeSet).change,
  )
}

test('words land in the procedure’s own parts with their link, behind what stands there, and are exported with their source', async () => {
  const scene = await openScene()
  const { procedure } = scene
  const purpose = { at: 'own', procedure, kind: 'purpose' } as const
  const access = { at: 'own', procedure, kind: 'access' } as const
  const first = await scene.carry(scene.fromSource('Name the disk by its PARTUUID.'), access)
  const second = await scene.carry(scene.fromSource('PARTUUID'), access)
  expect(second).toBe(first)
  await scene.carry(scene.fromSource('Name the disk by its PARTUUID.'), purpose)
  const out = await exported(scene)
  expect(out.own).toMatchObject([
    { kind: 'access', text: 'Name the disk by its PARTUUID.\n\nPARTUUID', origins: [{ kind: 'source' }] },
  ])
  expect(out.purpose).toBe('When the disk wears out.\n\nName the disk by its PARTUUID.')
  const markdown = procedureToMarkdown(out, { journal: false })
  expect(markdown).toMatch(/## Access\n\nName the disk by its PARTUUID\.\n\nPARTUUID\[\^1\]/u)
  expect(markdown).toMatch(/^\[\^1\]: Source: Moving a root file system/mu)
  const links = [...(await scene.view()).links.values()].filter(({ newer }) => newer.node.id === first)
  expect(links).toHaveLength(2)
})

test('title, purpose and steps are exported as they stand, parts in the order of reading', async () => {
  const scene = await openScene()
  const output = await scene.entry('output', '/dev/sda2')
  const action = await scene.entry('action', 'findmnt /')
  await scene.carry(scene.fromEntry(output, '/dev/sda2'), newStep(scene))
  const [step] = await scene.steps()
  await scene.carry(scene.fromEntry(action, 'findmnt /'), { at: 'step', step: step! })
  const { title, purpose, steps } = await exported(scene)
  expect([title, purpose]).toEqual(['Move the logger', 'When the disk wears out.'])
  expect(steps.map(({ parts }) => parts.map(({ kind, text }) => [kind, text]))).toEqual([
    [
      ['do', 'findmnt /'],
      ['expect', '/dev/sda2'],
    ],
  ])
})

test('a part rests on its entry, and through it on the source with the moment of its capture', async () => {
  const scene = await openScene()
  const id = await scene.carry(scene.fromSource('rsync -aHAX / /mnt/new/'), { at: 'journal' })
  const entry = (await scene.lab.queries.findEntry(id))!
  const text = (await scene.lab.queries.findText(id as EntryId))!.text
  await scene.carry(scene.fromEntry(entry, text), newStep(scene))
  const [part] = (await exported(scene)).steps[0]!.parts
  expect(part!.origins).toEqual([
    { kind: 'entry', id, entry: { kind: 'action', moment: entry.moment, text } },
    {
      kind: 'source',
      id: scene.source.id,
      source: {
        title: 'Moving a root file system',
        address: 'https://notes.example.org/move',
        taken: scene.capture.taken,
      },
    },
  ])
})

test('a source that is cited as a whole counts with its newest capture', async () => {
  const scene = await openScene()
  await scene.carry(scene.wholeSource(), newStep(scene))
  const [part] = (await exported(scene)).steps[0]!.parts
  expect(part!.origins.map((origin) => origin.kind === 'source' && origin.source.taken)).toEqual([
    scene.capture.taken,
  ])
})

test('an entry that was withdrawn is not exported', async () => {
  const scene = await openScene()
  const entry = await scene.entry('action', 'uptime')
  await scene.carry(scene.fromEntry(entry, 'uptime'), newStep(scene))
  const moment = scene.lab.surroundings.clock.now()
  const record = { id: scene.lab.surroundings.ids.make(), entry: entry.id, moment, withdrawn: true } as const
  await scene.commit({
    id: scene.lab.surroundings.ids.make(),
    at: moment,
    who: null,
    act: 'undo',
    reverses: null,
    operations: [{ op: 'put', table: 'withdrawals', record, before: null } as never],
  })
  expect((await exported(scene)).steps[0]!.parts[0]!.origins).toEqual([])
})

test('a part that was written anew rests no longer on what it came from; one that was reworded does', async () => {
  const scene = await openScene()
  const entry = await scene.entry('decision', 'Keep the card only for booting.')
  const part = (await scene.carry(
    scene.fromEntry(entry, 'Keep the card only for booting.'),
    newStep(scene),
  )) as PartId
  await rewrite(scene, part, 'Something else')
  expect((await exported(scene)).steps[0]!.parts[0]!.origins).toEqual([])
  const second = (await scene.carry(
    scene.fromEntry(entry, 'Keep the card only for booting.'),
    newStep(scene),
  )) as PartId
  const standing = (await scene.lab.queries.standing(second))!
  const changeSet = replacing(standing.text.length, { start: 0, end: 4 }, 'Leave')
  const node = { kind: 'part', id: second } as const
  await scene.commit(writeText(scene.lab.surroundings, node, standing.revision, changeSet).change)
  expect((await exported(scene)).steps[0]!.parts[0]!.origins).toHaveLength(1)
})

test('that a fix answered a problem does not make the step rest on the problem', async () => {
  const scene = await openScene()
  const problem = await scene.entry('problem', 'It runs from the card.')
  const fix = await scene.entry('fix', 'Changed cmdline.txt.')
  await scene.commit(answerProblem(scene.lab.surroundings, fix.id, problem.id, 'button'))
  await scene.carry(scene.fromEntry(fix, 'Changed cmdline.txt.'), newStep(scene))
  const { origins } = (await exported(scene)).steps[0]!.parts[0]!
  expect(origins.map(({ id }) => id)).toEqual([fix.id])
})

test('what is carried twice into a part counts once', async () => {
  const scene = await openScene()
  const entry = await scene.entry('action', 'uptime')
  await scene.carry(scene.fromEntry(entry, 'uptime'), newStep(scene))
  const [step] = await scene.steps()
  await scene.carry(scene.fromEntry(entry, 'uptime'), { at: 'step', step: step! })
  expect((await exported(scene)).steps[0]!.parts[0]!.origins).toHaveLength(1)
})
