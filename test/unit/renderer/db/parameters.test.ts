import { describe, expect, it } from 'vitest'
import { carry } from '../../../../shared/distil/carry.ts'
import { pickFragment } from '../../../../shared/distil/fragment.ts'
import * as acts from '../../../../shared/lab/acts.ts'
import type { Change } from '../../../../shared/lab/change.ts'
import type { ValueType } from '../../../../shared/procedure/values/types.ts'
import { findOccurrences } from '../../../../shared/procedure/values/occurrences.ts'
import { openTestLab } from '../../support/lab.ts'
import { recordsOf, standing } from '../../support/records.ts'

const LINE = 'ping -c 3 192.0.2.10'

/** A command of the journal, carried whole or in part into the one step of a procedure. */
async function openCarried(words = LINE) {
  const lab = await openTestLab()
  const around = lab.surroundings
  const commit = async (change: Change) => {
    const result = await lab.committer.commit(change)
    if (!result.ok) throw new Error(result.sentence)
    return result.value.change
  }
  const { project, change } = acts.addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  await commit(change)
  const entry = acts.addEntry(around, { project: project.id, kind: 'action', text: LINE })
  await commit(entry.change)
  const begun = acts.addProcedure(around, project.id, 'See whether it answers')
  await commit(begun.change)
  const start = LINE.indexOf(words)
  const fragment = pickFragment(
    {
      ...{ lab: lab.id, node: { kind: 'entry', id: entry.entry.id }, revision: entry.revision },
      ...{ origin: { kind: 'entry', entryKind: 'action' }, title: '', address: null, text: LINE },
    },
    [{ start, end: start + words.length }],
  )!
  const landing = { at: 'new step', procedure: begun.procedure.id, position: 'a0', kind: 'do' } as const
  const carried = carry(around, fragment, landing, 'button')
  await commit(carried.change)
  const part = carried.node.id as never
  const stateOf = async () => (await recordsOf(lab)).linkStates[0]!
  const textOf = async () => standing(await recordsOf(lab), part)
  const make = async (value: string, type: ValueType, name = 'host') => {
    const text = await textOf()
    const fields = { procedure: begun.procedure.id, name, type, help: '', rule: null, position: 'a0' }
    const isSecret = type === 'secret'
    const made = acts.makeParameter(
      around,
      { ...fields, example: isSecret ? '' : value, preset: '', carried: isSecret ? null : value },
      [{ part, ...text, ranges: findOccurrences(text.text, value, type) }],
    )
    await commit(made.change)
    return made.parameter
  }
  return { lab, around, commit, procedure: begun.procedure, part, stateOf, textOf, make }
}

describe('making a parameter', () => {
  it('turns no quote into a derivation, and undo brings back the words and their link', async () => {
    const { lab, stateOf, textOf, make } = await openCarried()
    const before = await stateOf()
    expect(before).toMatchObject({ type: 'quotes', kept: 1, loose: false })
    await make('192.0.2.10', 'IPv4 address')
    const { text } = await textOf()
    expect(text).toBe('ping -c 3 ⁅host⁆')
    expect(await stateOf()).toMatchObject({ type: 'quotes', kept: 1, loose: false })
    expect((await stateOf()).newer.places).toEqual([{ start: 0, end: text.length }])
    expect(await lab.rebuild()).toBe(true)
    await lab.committer.undo()
    expect((await textOf()).text).toBe(LINE)
    expect(await stateOf()).toEqual(before)
  })

  it('keeps a link whose words were the value alone', async () => {
    const { lab, stateOf, make } = await openCarried('192.0.2.10')
    await make('192.0.2.10', 'IPv4 address')
    expect(await stateOf()).toMatchObject({ type: 'quotes', kept: 1, loose: false })
    expect((await stateOf()).newer.places).toEqual([{ start: 0, end: '⁅host⁆'.length }])
    expect(await lab.rebuild()).toBe(true)
  })

  it('stays a quote when it is renamed, and when its example becomes another', async () => {
    const { lab, around, commit, part, stateOf, textOf, make } = await openCarried()
    const parameter = await make('192.0.2.10', 'IPv4 address')
    const texts = [{ part, ...(await textOf()) }]
    await commit(acts.changeParameter(around, parameter, { name: 'logger', example: '192.0.2.99' }, texts))
    expect((await textOf()).text).toBe('ping -c 3 ⁅logger⁆')
    expect(await stateOf()).toMatchObject({ type: 'quotes', kept: 1 })
    expect(await lab.rebuild()).toBe(true)
  })

  it('derives where another word than the value was changed', async () => {
    const { around, commit, part, stateOf, textOf, make } = await openCarried()
    await make('192.0.2.10', 'IPv4 address')
    const { revision, text } = await textOf()
    const at = text.indexOf('3')
    const change = [at, [1, '9'], text.length - at - 1] as const
    await commit(acts.writeText(around, { kind: 'part', id: part }, revision, change).change)
    expect(await stateOf()).toMatchObject({ type: 'derives', kept: 0.75 })
  })

  it('is taken back with the value in its place, and refused under a name that is taken', async () => {
    const { lab, around, commit, part, procedure, stateOf, textOf, make } = await openCarried()
    const parameter = await make('192.0.2.10', 'IPv4 address')
    const second = { ...parameter, procedure: procedure.id, carried: null }
    const twice = acts.makeParameter(around, second, []).change
    expect(await lab.committer.commit(twice)).toMatchObject({ ok: false, code: 'stale-revision' })
    await commit(acts.removeParameter(around, parameter, [{ part, ...(await textOf()) }]))
    expect((await textOf()).text).toBe(LINE)
    expect(await stateOf()).toMatchObject({ type: 'quotes', kept: 1 })
  })

  it('of a secret keeps no value and still knows the words around it for a quote', async () => {
    const { lab, around, commit, stateOf, make } = await openCarried()
    const parameter = await make('192.0.2.10', 'secret', 'pass')
    expect(parameter).toMatchObject({ example: '', preset: '', carried: null })
    expect(await stateOf()).toMatchObject({ type: 'quotes', kept: 1, loose: false })
    expect(await lab.rebuild()).toBe(true)
    const kept = acts.changeParameter(around, parameter, { example: 'hunter', carried: 'hunter' })
    await commit(kept)
    expect((await recordsOf(lab)).parameters[0]).toMatchObject({ example: '', carried: null })
    const forced = acts.makeChange(around, 'change a parameter', [
      acts.put('parameters', { ...parameter, example: 'hunter' }, parameter),
    ])
    await expect(lab.committer.commit(forced)).rejects.toThrow(RangeError)
  })
})

describe('a lone sign of placeholders before a value', () => {
  it('stays a sign of its own', async () => {
    const { around, commit, part, textOf, make } = await openCarried()
    const { revision, text } = await textOf()
    const at = text.indexOf('192')
    const change = [at, [0, '⁅'], text.length - at] as const
    await commit(acts.writeText(around, { kind: 'part', id: part }, revision, change).change)
    await make('192.0.2.10', 'IPv4 address')
    expect((await textOf()).text).toBe('ping -c 3 ⁅⁅⁅host⁆')
  })
})

describe('versions', () => {
  it('take the next number, and a number that another window took is refused', async () => {
    const { lab, around, commit, procedure } = await openCarried()
    const records = await recordsOf(lab)
    const parts = records.parts.map((part) => ({ part, revision: standing(records, part.id).revision }))
    const whole = { procedure, steps: records.steps, parts, parameters: [] }
    const first = acts.markVersion(around, whole, 0, 'First')
    await commit(first.change)
    const twice = acts.markVersion(around, whole, 0, 'First too').change
    expect(await lab.committer.commit(twice)).toMatchObject({ ok: false, code: 'stale-revision' })
    await commit(acts.markVersion(around, whole, 1, 'Second').change)
    const changed = acts.makeChange(around, 'mark a version', [
      acts.put('versions', { ...first.version, line: 'other' }),
    ])
    expect(await lab.committer.commit(changed)).toMatchObject({ ok: false, code: 'append-only' })
    expect((await lab.queries.project(procedure.project)).versions.map(({ number }) => number)).toEqual([
      1, 2,
    ])
  })
})
