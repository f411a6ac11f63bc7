/** A loose link that is set again by hand, through the store that the program uses. */
import { expect, it } from 'vitest'
import { carry } from '../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import { replacing } from '../../../../shared/lab/text.ts'
import { looseSides, setLinkAgain } from '../../../../shared/provenance/setAgain.ts'
import { openTestLab } from '../../support/lab.ts'

const said = 'The readings come in each minute.'

async function looseLink() {
  const lab = await openTestLab()
  const around = lab.surroundings
  const { project, change } = acts.addProject(around, { title: 'Dome', aim: '', status: 'under way' })
  const made = acts.addProcedure(around, project.id, 'Look at the logger')
  const { entry, change: noted } = acts.addEntry(around, {
    project: project.id,
    kind: 'observation',
    text: said,
  })
  await lab.committer.commitAll([change, made.change, noted])
  const now = (await lab.queries.standing(entry.id))!
  const from = { lab: lab.id, title: '', address: null, node: { kind: 'entry', id: entry.id } as const }
  const origin = { kind: 'entry', entryKind: 'observation' } as const
  const fragment = pickFragment({ ...from, ...now, origin }, [{ start: 0, end: said.length }])!
  const landing = {
    at: 'new step',
    procedure: made.procedure.id,
    position: acts.positionBetween(null, null),
    kind: 'expect',
  } as const
  const carried = carry(around, fragment, landing, 'drag')
  await lab.committer.commit(carried.change)
  const { link } = carried
  const { node } = link.newer
  const text = (await lab.queries.standing(node.id as never))!
  const other = 'Both lamps of the rack are green; wait.'
  const rewritten = acts.writeText(
    around,
    node as never,
    text.revision,
    replacing(text.text.length, { start: 0, end: text.text.length }, other),
  )
  await lab.committer.commit(rewritten.change)
  const standing = async () => await lab.queries.standingLinks(node.id)
  return { lab, link, node, other, standing }
}

it('a loose link is set again: the old one leaves the present, the past keeps it, and undo and redo go both ways', async () => {
  const { lab, link, node, other, standing } = await looseLink()
  const [before] = await standing()
  expect(looseSides(before!.state)).toEqual(['newer'])
  const text = (await lab.queries.standing(node.id as never))!
  const blanks = { start: other.indexOf('lamps') - 1, end: other.indexOf(' green') + 1 }
  const change = setLinkAgain(lab.surroundings, link, 'newer', text, blanks)
  if (!change.ok) throw new Error(change.sentence)
  expect((await lab.committer.commit(change.value)).ok).toBe(true)
  const [after, ...more] = await standing()
  expect(more).toEqual([])
  expect(after!.link).toMatchObject({ revises: link.id, older: link.older, way: link.way })
  expect(after!.link.newer.ranges.map(({ quote }) => quote.exact)).toEqual(['lamps of the rack are'])
  expect(looseSides(after!.state)).toEqual([])
  expect(after!.state.type).toBe('derives')
  expect(await lab.queries.goneLinks([link.id])).toEqual([link])
  expect(await lab.rebuild()).toBe(true)

  expect((await lab.committer.undo()).ok).toBe(true)
  expect(await standing()).toEqual([before])
  expect((await lab.committer.redo()).ok).toBe(true)
  expect(await standing()).toEqual([after])
  expect(await lab.rebuild()).toBe(true)
  lab.close()
})

it('nothing is linked where blanks alone were selected', async () => {
  const { lab, link, node, other } = await looseLink()
  const text = (await lab.queries.standing(node.id as never))!
  const at = other.indexOf(' ')
  for (const range of [
    { start: at, end: at + 1 },
    { start: 3, end: 3 },
  ])
    expect(setLinkAgain(lab.surroundings, link, 'newer', text, range)).toMatchObject({
      ok: false,
      code: 'nothing-selected',
    })
  lab.close()
})
