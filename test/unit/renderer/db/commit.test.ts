import { describe, expect, it } from 'vitest'
import { carry } from '../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import { addEntry, addProcedure, addProject, addSource, writeText } from '../../../../shared/lab/acts.ts'
import { changeBetween } from '../../../../shared/lab/text.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'

async function labWithCarry() {
  const around = repeatableSurroundings()
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const entry = addEntry(around, {
    project: project.id,
    kind: 'action',
    text: 'Ran `lsblk -f` and saw the card.',
  })
  const procedure = addProcedure(around, project.id, 'Move the logger')
  await lab.committer.commitAll([change, entry.change, procedure.change])
  const text = 'Ran `lsblk -f` and saw the card.'
  const fragment = pickFragment(
    {
      lab: lab.id,
      node: { kind: 'entry', id: entry.entry.id },
      revision: entry.revision,
      origin: { kind: 'entry', entryKind: 'action' },
      title: '',
      address: null,
      text,
    },
    [{ start: 4, end: 14 }],
  )!
  const carried = carry(
    around,
    fragment,
    { at: 'new step', procedure: procedure.procedure.id, position: 'a0', kind: 'do' },
    'drag',
  )
  const result = await lab.committer.commit(carried.change)
  return { around, lab, project, entry, procedure, carried, result }
}

describe('committing', () => {
  it('lands text and link of a carry together', async () => {
    const { lab, carried, result } = await labWithCarry()
    expect(result.ok).toBe(true)
    const dump = await lab.dump()
    expect(dump.texts).toContainEqual(expect.objectContaining({ node: carried.node.id, text: '`lsblk -f`' }))
    expect(dump.linkStates).toEqual([
      expect.objectContaining({ link: carried.link.id, type: 'quotes', kept: 1, loose: false }),
    ])
  })

  it('makes a quotation a derivation once it is reworded, and undo makes it a quotation again', async () => {
    const { around, lab, carried } = await labWithCarry()
    const { change } = writeText(
      around,
      carried.node,
      carried.revision,
      changeBetween('`lsblk -f`', 'List the disks: `lsblk`'),
    )
    await lab.committer.commit(change)
    expect((await lab.dump()).linkStates).toEqual([expect.objectContaining({ type: 'derives' })])
    await lab.committer.undo()
    expect((await lab.dump()).linkStates).toEqual([expect.objectContaining({ type: 'quotes', kept: 1 })])
    expect(await lab.rebuild()).toBe(true)
  })

  it('refuses a revision that is not the last', async () => {
    const { around, lab, carried } = await labWithCarry()
    const first = writeText(around, carried.node, carried.revision, changeBetween('`lsblk -f`', 'x'))
    await lab.committer.commit(first.change)
    const second = writeText(around, carried.node, carried.revision, changeBetween('`lsblk -f`', 'y'))
    expect(await lab.committer.commit(second.change)).toMatchObject({ ok: false, code: 'stale-revision' })
  })

  it('undoes an older carry without touching newer typing', async () => {
    const { around, lab, carried } = await labWithCarry()
    const typed = writeText(around, carried.node, carried.revision, [
      [0, 'As root: '],
      10,
      [0, ', then look.'],
    ])
    await lab.committer.commit(typed.change)
    await lab.committer.undo(carried.change.id)
    const { texts, links } = await lab.dump()
    expect(texts).toContainEqual(
      expect.objectContaining({ node: carried.node.id, text: 'As root: , then look.' }),
    )
    expect(links).toEqual([])
  })

  it('keeps text and bytes of a source once, and brings them back by redo', async () => {
    const around = repeatableSurroundings()
    const lab = await openTestLab(around)
    const bytes = new TextEncoder().encode('# Notes')
    const added = addSource(around, {
      title: 'Notes',
      address: null,
      kind: 'markdown',
      wayIn: 'file',
      projects: [],
      capture: { text: '# Notes', bytes, sha256: 'ab'.repeat(32), mediaType: 'text/markdown' },
    })
    await lab.committer.commit(added.change)
    const before = await lab.dump()
    await lab.committer.undo()
    expect((await lab.dump()).blobs).toEqual([])
    await lab.committer.redo()
    const after = await lab.dump()
    expect([after.blobs, after.captures, after.sources]).toEqual([
      before.blobs,
      before.captures,
      before.sources,
    ])
  })
})
