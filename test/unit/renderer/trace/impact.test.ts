import { expect, test } from 'vitest'
import { countImpact, loadImpact } from '../../../../renderer/trace/loadImpact.ts'
import type { Traced } from '../../../../renderer/store/traced.ts'
import { carriedTwice, reuse, rewrite } from './scene.ts'
import type { Scene } from '../panes/procedure/scene.ts'

async function impact(scene: Scene, node: Traced) {
  const { groups, labels } = await loadImpact(scene.lab, node)
  return groups.map(({ outline, rows }) => ({
    procedure: outline.title,
    rows: rows.map((row) => ({
      name: row.name,
      isAlone: row.impact.isAlone,
      others: row.impact.others.map(({ id }) => labels.get(id)!.name),
      words: row.parts.map(({ words }) => words),
    })),
  }))
}

test('steps of every procedure rest on a source by way of entries and other steps', async () => {
  const { scene, part } = await carriedTwice()
  await reuse(scene, part)
  const quoted = 'Name the disk by its PARTUUID.'
  expect(await impact(scene, { kind: 'source', id: scene.source.id })).toEqual([
    {
      procedure: 'Move the logger',
      rows: [{ name: 'Step 1', isAlone: true, others: [], words: [`> ${quoted}`] }],
    },
    {
      procedure: 'Move the dome’s computer',
      rows: [{ name: 'Step 1', isAlone: true, others: [], words: [`> ${quoted}`] }],
    },
  ])
})

test('on a step rest the steps of other procedures that its words were copied to, and not the step itself', async () => {
  const { scene, part, step } = await carriedTwice()
  await reuse(scene, part)
  const expected = [
    {
      procedure: 'Move the dome’s computer',
      rows: [{ name: 'Step 1', isAlone: true, others: [], words: ['> Name the disk by its PARTUUID.'] }],
    },
  ]
  expect(await impact(scene, { kind: 'part', id: part })).toEqual(expected)
  expect(await impact(scene, { kind: 'step', id: step })).toEqual(expected)
})

test('a step that another entry bears too rests on the source, but not alone', async () => {
  const { scene, entry, step } = await carriedTwice()
  const other = await scene.entry('observation', 'It mounted after a restart.')
  await scene.carry(scene.fromEntry(other, 'It mounted after a restart.'), {
    at: 'step',
    step,
    kind: 'expect',
  })
  const [group] = await impact(scene, { kind: 'capture', id: scene.capture.id })
  expect(group!.rows).toMatchObject([{ isAlone: false, others: [expect.stringMatching(/observation$/)] }])
  // Of the entry that quotes the page the step's words are all the page's, so the page is no second footing.
  const [own] = await impact(scene, { kind: 'entry', id: entry })
  expect(own!.rows).toMatchObject([{ name: 'Step 1', isAlone: false }])
})

test('words that were struck out on the way, and words that were lost, are said', async () => {
  const { scene, part, entry } = await carriedTwice()
  await scene.lab.committer.strikeOut({ kind: 'entry', id: entry }, 'PARTUUID', 'a name of ours')
  const { groups } = await loadImpact(scene.lab, { kind: 'source', id: scene.source.id })
  expect(groups[0]!.rows[0]!.impact.parts).toMatchObject([{ hasStruck: true, isLooseOnly: false }])
  await rewrite(scene, { kind: 'part', id: part }, () => 'Another matter')
  const later = await loadImpact(scene.lab, { kind: 'source', id: scene.source.id })
  expect(later.groups[0]!.rows[0]!.impact.parts).toMatchObject([{ isLooseOnly: true }])
  expect(later.groups[0]!.rows[0]!.parts[0]!.ranges).toEqual([])
  expect(countImpact(later.groups)).toEqual({ all: 1, alone: 1 })
})

test('nothing rests on what nothing was carried from', async () => {
  const { scene } = await carriedTwice()
  const other = await scene.entry('observation', 'The fan is loud.')
  expect(await impact(scene, { kind: 'entry', id: other.id })).toEqual([])
})

test('a procedure’s own part stands for itself', async () => {
  const { scene } = await carriedTwice()
  await scene.carry(scene.fromSource('Name the disk by its PARTUUID.'), {
    at: 'own',
    procedure: scene.procedure,
    kind: 'supplies',
  })
  const [group] = await impact(scene, { kind: 'source', id: scene.source.id })
  expect(group!.rows.map(({ name }) => name)).toEqual(['Supplies', 'Step 1'])
})
