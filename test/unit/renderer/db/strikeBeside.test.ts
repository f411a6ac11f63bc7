import { describe, expect, it } from 'vitest'
import * as acts from '../../../../shared/lab/acts.ts'
import type { FileState } from '../../../../shared/lab/model.ts'
import { recordsOf, standing } from '../../support/records.ts'
import { everything, openStory, SECRET } from '../../support/striking.ts'

/** A procedure with a secret in every field that a person can write beside its texts. */
async function openBeside(secret: string) {
  const story = await openStory()
  const { lab, around, commit, records } = story
  const machine = acts.addMachine(around, { name: 'logger' })
  await commit(machine.change)
  const [procedure, step, entry] = [records.procedures[0]!, records.steps[0]!, records.entries[0]!]
  const place = { machine: machine.machine.id, host: secret, user: secret, directory: `/srv/${secret}` }
  await commit(acts.changeProcedure(around, procedure, { place }))
  await commit(acts.changeStep(around, step, { place }))
  const file: FileState = {
    path: `/etc/${secret}`,
    owner: secret,
    group: null,
    mode: '0600',
    form: 'content',
    endsWithNewline: true,
    lineEnds: 'lf',
    blob: null,
  }
  await commit(acts.addPart(around, step, 'file', file).change)
  const fields = { procedure: procedure.id, name: 'pass', type: 'free text', position: 'a0' } as const
  const words = { help: secret, example: secret, preset: secret, carried: secret }
  const rule = { allowed: [secret, 'other'] }
  await commit(acts.makeParameter(around, { ...fields, ...words, rule }).change)
  const now = await recordsOf(lab)
  const whole = {
    procedure: now.procedures[0]!,
    steps: now.steps,
    parts: now.parts.map((part) => ({ part, revision: standing(now, part.id).revision })),
    parameters: now.parameters,
  }
  await commit(acts.markVersion(around, whole, 0, `with ${secret}`).change)
  await commit(acts.addRemark(around, step, secret).change)
  const finding = { procedure: procedure.id, rule: 'plain-verb', step: step.id, words: secret }
  await commit(acts.silence(around, finding, secret).change)
  await commit(acts.leaveOut(around, procedure.id, { entry: entry.id, command: null }, secret).change)
  const says = { isFetched: true, sha256: 'beef'.repeat(16) }
  await commit(acts.tickDownload(around, procedure.id, `package ${secret}`, null, says))
  return story
}

/** Ids, moments and digests of a version, a remark and so on: what striking out must leave alone. */
const bones = ({ versions, remarks, silences, leftOut, fetches }: Awaited<ReturnType<typeof recordsOf>>) => ({
  versions: versions.map(({ steps, parts, parameters, place, ...version }) => ({
    ...{ id: version.id, procedure: version.procedure, marked: version.marked, machine: place?.machine },
    steps: steps.map(({ id, position, level, place: at }) => ({ id, position, level, machine: at?.machine })),
    parts: parts.map(({ part, revision }) => ({ id: part.id, kind: part.kind, step: part.step, revision })),
    parameters: parameters.map(({ id, type, position }) => ({ id, type, position })),
  })),
  others: [...remarks, ...silences, ...leftOut].map(({ id, procedure, made }) => ({ id, procedure, made })),
  rules: silences.map(({ rule, step }) => ({ rule, step })),
  fetches: fetches.map(({ id, fetched, sha256 }) => ({ id, fetched, sha256 })),
})

describe('striking out what stands beside a procedure’s texts', () => {
  it('leaves no trace of it in places, files, parameters, versions, remarks, silences or downloads', async () => {
    const { lab, strike } = await openBeside(SECRET)
    expect(await everything(lab)).toContain(SECRET)
    const before = bones(await recordsOf(lab))
    await strike()
    expect(await everything(lab)).not.toContain(SECRET)
    expect(bones(await recordsOf(lab))).toEqual(before)
    expect(await lab.rebuild()).toBe(true)
  })

  it.each(['2026', 'beef', 'step'])('leaves ids, moments and digests alone: %s', async (secret) => {
    const { lab, strike } = await openBeside(secret)
    const before = bones(await recordsOf(lab))
    await strike(secret)
    expect(bones(await recordsOf(lab))).toEqual(before)
  })
})
