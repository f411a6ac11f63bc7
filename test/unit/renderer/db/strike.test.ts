import { describe, expect, it } from 'vitest'
import { carry } from '../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { ChangeSetJson } from '../../../../shared/lab/model.ts'
import { recordsOf } from '../../support/story.ts'
import { addPage, everything, MASKED, openStory, SECRET, textOf } from '../../support/striking.ts'

describe('striking out', () => {
  it('masks a secret that was typed at once, and nothing around it', async () => {
    const { lab, addEntry, strike } = await openStory()
    const { entry } = await addEntry(`login ${SECRET} ok`)
    await strike()
    expect(await textOf(lab, entry.id)).toBe(`login ${MASKED} ok`)
    expect(await everything(lab)).not.toContain(SECRET)
    expect(await lab.rebuild()).toBe(true)
  })

  it('masks a secret typed across several revisions and then deleted, in every one of them', async () => {
    const { lab, addEntry, write, strike } = await openStory()
    const { node, revision } = await addEntry(`x ${SECRET.slice(0, 4)}`)
    const second = await write(node, revision, [6, [0, SECRET.slice(7)]])
    const third = await write(node, second.revision, [6, [0, SECRET.slice(4, 7)], SECRET.length - 7])
    await write(node, third.revision, [2, [SECRET.length, 'gone']])
    await strike()
    const revisions = await lab.queries.revisions(node.id)
    expect(revisions.map(({ changeSet }) => changeSet)).toEqual([
      [[0, `x ${MASKED.slice(0, 4)}`]],
      [6, [0, MASKED.slice(7)]],
      [6, [0, MASKED.slice(4, 7)], SECRET.length - 7],
      [2, [SECRET.length, 'gone']],
    ])
    expect(await everything(lab)).not.toMatch(new RegExp(`${SECRET.slice(0, 4)}|${SECRET.slice(4, 7)}"`))
  })

  it('masks a secret that was deleted and brought back by undo, in the revision that brought it back too', async () => {
    const { lab, addEntry, write, strike } = await openStory()
    const { node, revision } = await addEntry(`x ${SECRET}`)
    await write(node, revision, [2, [SECRET.length]])
    await lab.committer.undo()
    expect(await textOf(lab, node.id)).toBe(`x ${SECRET}`)
    await strike()
    expect(await textOf(lab, node.id)).toBe(`x ${MASKED}`)
    expect(await everything(lab)).not.toContain(SECRET)
  })

  it('empties the bytes of a capture that shows it, also where markup stands within it', async () => {
    const { lab, around, commit, strike } = await openStory()
    const half = SECRET.length >> 1
    const raw = `<p>pass ${SECRET.slice(0, half)}<b>${SECRET.slice(half)}</b></p>`
    const page = addPage(around, `pass ${SECRET}`, raw)
    await commit(page.change)
    await strike()
    expect((await recordsOf(lab)).blobs.find(({ sha256 }) => sha256 === 'c'.repeat(64))?.bytes).toHaveLength(
      0,
    )
    expect(await lab.queries.findCapture(page.capture!.id)).toMatchObject({ text: `pass ${MASKED}` })
    expect(await everything(lab)).not.toContain(SECRET.slice(0, half))
  })

  it('reaches a source that undo took away, its bytes too', async () => {
    const { lab, around, commit, addEntry, strike } = await openStory()
    const half = SECRET.length >> 1
    await commit(
      addPage(around, `pass ${SECRET}`, `${SECRET.slice(0, half)}<b>${SECRET.slice(half)}</b>`).change,
    )
    await lab.committer.undo()
    await addEntry(SECRET)
    await strike()
    expect(await everything(lab)).not.toContain(SECRET.slice(0, half))
    await lab.committer.undo()
    expect(await everything(lab)).not.toContain(SECRET.slice(0, half))
  })

  it('finds UTF-16 bytes of either order, at odd places too', async () => {
    for (const [littleEndian, shift] of [
      [true, 0],
      [false, 0],
      [true, 1],
      [false, 1],
    ] as const) {
      const { lab, around, commit, strike } = await openStory()
      const bytes = new Uint8Array(SECRET.length * 2 + shift)
      const view = new DataView(bytes.buffer)
      SECRET.split('').forEach((unit, i) => view.setUint16(i * 2 + shift, unit.charCodeAt(0), littleEndian))
      const source = addPage(around, 'nothing to see')
      await commit({
        ...source.change,
        operations: source.change.operations.map((operation) =>
          operation.op === 'put' && operation.table === 'blobs'
            ? { ...operation, record: { ...operation.record, bytes } }
            : operation,
        ),
      })
      expect(await everything(lab)).toContain(SECRET)
      await strike()
      expect(await everything(lab)).not.toContain(SECRET)
    }
  })

  it('masks what links quote of it, also in prefix and suffix, and leaves their type and places', async () => {
    const { lab, around, commit, records, addEntry, strike } = await openStory()
    const text = `before ${SECRET} after`
    const { node, revision } = await addEntry(text)
    const step = records.steps[0]!
    const from = { lab: lab.id, node, revision, title: '', address: null, text }
    const origin = { kind: 'entry', entryKind: 'output' } as const
    const ranges = [
      { start: 0, end: 6 },
      { start: 7, end: 7 + SECRET.length },
      { start: 8 + SECRET.length, end: text.length },
      { start: 0, end: text.length },
    ]
    const kinds = ['expect', 'why', 'caution', 'if it fails'] as const
    for (const [i, range] of ranges.entries()) {
      const fragment = pickFragment({ ...from, origin }, [range])!
      await commit(carry(around, fragment, { at: 'new part', step, kind: kinds[i]! }, 'button').change)
    }
    const before = (await recordsOf(lab)).linkStates
    await strike()
    expect((await recordsOf(lab)).linkStates).toEqual(before)
    expect(before.map(({ type }) => type)).toEqual(['quotes', 'quotes', 'quotes', 'quotes'])
    expect(await everything(lab)).not.toContain(SECRET)
    expect(await everything(lab)).not.toContain(SECRET.slice(-6))
    expect((await recordsOf(lab)).links[1]!.older.ranges[0]!.quote).toMatchObject({
      exact: MASKED,
      prefix: 'before ',
    })
  })

  it('masks drafts, and keeps their words and change sets in step', async () => {
    const { lab, project, addEntry, strike } = await openStory()
    const { node, revision } = await addEntry(`x ${SECRET.slice(0, 5)}`)
    const whole = await addEntry(`y ${SECRET} z`)
    const window = lab.surroundings.ids.make<never>()
    const saved = lab.surroundings.clock.now()
    const common = { owner: 'text', window, saved } as const
    const completing: ChangeSetJson = [7, [0, SECRET.slice(5)]]
    await lab.saveDraft({
      ...common,
      key: 'a',
      node,
      base: revision,
      changeSet: completing,
      text: `x ${SECRET}`,
    })
    const shortening: ChangeSetJson = [4, [1], SECRET.length - 1]
    const short = `y ${SECRET.slice(0, 2)}${SECRET.slice(3)} z`
    await lab.saveDraft({
      ...common,
      key: 'b',
      node: whole.node,
      base: whole.revision,
      changeSet: shortening,
      text: short,
    })
    await lab.saveDraft({
      ...({ key: 'c', owner: 'composer', window, project: project.id, kind: 'action', saved } as const),
      text: `typing ${SECRET}`,
      answers: null,
      facts: { ...acts.noFacts, place: { machine: null, host: null, user: SECRET, directory: null } },
    })
    await strike()
    expect((await lab.queries.drafts()).map(({ text }) => text)).toEqual([
      `x ${MASKED}`,
      `y ${MASKED.slice(1)} z`,
      `typing ${MASKED}`,
    ])
    expect(await textOf(lab, node.id)).toBe(`x ${MASKED.slice(0, 5)}`)
    expect(await everything(lab)).not.toMatch(new RegExp(SECRET.slice(0, 5)))
  })

  it('masks titles, aims, addresses, names and reasons, now and in the past, but no id, kind or moment', async () => {
    const { lab, around, project, commit, strike } = await openStory()
    await commit({ ...acts.changeProject(around, project, { title: SECRET, aim: SECRET }), who: SECRET })
    const source = (await recordsOf(lab)).sources[0]!
    await commit(
      acts.changeSource(around, source, { title: SECRET, address: `https://${SECRET}@example.org/` }),
    )
    await lab.committer.undo()
    await lab.keepSetting('name', { person: SECRET })
    await strike(SECRET, `typed ${SECRET} by mistake`)
    expect(await everything(lab)).not.toContain(SECRET)
    // Words that also stand in ids, kinds, names of tables and moments of every record.
    const ids = (await recordsOf(lab)).projects[0]!
    await commit(acts.changeProject(around, ids, { aim: `projects planned 2026 ${ids.id.slice(0, 8)}` }))
    for (const word of ['projects', 'planned', '2026', ids.id.slice(0, 8)]) await strike(word)
    expect((await recordsOf(lab)).projects[0]).toEqual({
      ...ids,
      title: MASKED,
      aim: '████████ ███████ ████ ████████',
    })
    expect(await lab.rebuild()).toBe(true)
    expect(await lab.committer.undo()).toMatchObject({ ok: true })
  })

  it('finds a secret of several lines where it was quoted or indented', async () => {
    const { lab, addEntry, strike } = await openStory()
    const plain = await addEntry('key\nMIIEvQIB\nADANBgkq\nend')
    const quoted = await addEntry('> key\n> MIIEvQIB\n> ADANBgkq\n> end\n\n- MIIEvQIB  \n  ADANBgkq')
    await strike('\nMIIEvQIB\nADANBgkq\n')
    expect(await textOf(lab, plain.entry.id)).toBe('key\n████████\n████████\nend')
    expect(await everything(lab)).not.toMatch(/MIIEvQIB|ADANBgkq/)
    expect(await textOf(lab, quoted.entry.id)).toContain('> key\n> ████████\n> ████████\n> end')
  })

  it('refuses what is too short or not there, and then changes nothing', async () => {
    const { lab, records } = await openStory()
    const before = await lab.dump()
    const node = { kind: 'entry', id: records.entries[0]!.id } as const
    for (const secret of ['', '   ', ' dum ', 'not in this lab'])
      expect(await lab.committer.strikeOut(node, secret, '')).toMatchObject({
        ok: false,
        code: 'nothing-left',
      })
    expect(await lab.dump()).toEqual(before)
  })
})
