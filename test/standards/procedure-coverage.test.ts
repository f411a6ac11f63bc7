/**
 * Omissions on the sample as it is loaded, with its own outcomes and with what is left out: any one step that changes
 * something is taken out of its procedure, and what is then missing is looked for.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { ProjectId } from '../../shared/lab/ids.ts'
import type { Step } from '../../shared/lab/model.ts'
import { omissionsOf, type Coverage, type Omission } from '../../shared/procedure/coverage/omissions.ts'
import type { JournalRecords, ProcedureRecords } from '../../shared/procedure/coverage/records.ts'
import { meaningOf } from '../../shared/procedure/coverage/units.ts'
import { around, journalOf, procedureOf, sampleProjects } from '../unit/shared/procedure/support/records.ts'
import { inputsOf } from '../unit/shared/procedure/support/worked.ts'

function without({ steps, parts, ...rest }: ProcedureRecords, step: Step): ProcedureRecords {
  return {
    ...rest,
    steps: steps.filter(({ id }) => id !== step.id),
    parts: parts.filter((part) => part.step !== step.id),
  }
}

const listed = ({ omissions, uncertain }: Coverage): Omission[] => [...omissions, ...uncertain]

describe('taking one step out of the sample’s procedures', async () => {
  const projects = await sampleProjects()
  const cases: { name: string; journal: JournalRecords; procedure: ProcedureRecords; step: Step }[] = []
  for (const { title, journal, procedures } of projects)
    for (const procedure of procedures)
      for (const [n, step] of [...procedure.steps]
        .sort((a, b) => (a.position < b.position ? -1 : 1))
        .entries())
        cases.push({ name: `${title}, step ${n + 1}`, journal, procedure, step })

  /** What rests on this step alone: told from the whole procedure, before anything is taken out. */
  const restingOn = (coverage: Coverage, step: Step): string[] =>
    coverage.covered.flatMap(({ omission, by }) =>
      by.every((one) => one.step?.id === step.id) ? [omission.id] : [],
    )

  let counted = 0
  it.each(cases)(
    'adds exactly its commands, one of them among the first three: $name',
    ({ journal, procedure, step }) => {
      const before = omissionsOf(journal, procedure)
      const after = omissionsOf(journal, without(procedure, step))
      const known = new Set(listed(before).map(({ id }) => id))
      const added = listed(after).flatMap(({ id }) => (known.has(id) ? [] : [id]))
      const wanted = restingOn(before, step)
      expect(new Set(added)).toEqual(new Set(wanted))
      expect(listed(after)).toHaveLength(known.size + wanted.length)
      const sure = wanted.filter((id) => after.omissions.some((one) => one.id === id))
      if (sure.length === 0) return
      counted += 1
      expect(after.omissions.slice(0, 3).some(({ id }) => sure.includes(id))).toBe(true)
    },
  )

  it('counts every step that changes something, but for three whose commands stand in another step too', () => {
    console.info(`${counted} of ${cases.length} steps of the sample hold a command that rests on them alone`)
    // Read by hand: 25 change something; the mounting of the stick and two commands of the time server stand twice.
    expect(counted).toBe(25 - 3)
  })

  it('puts one of them among the first three of most steps also where nothing was left out', () => {
    const ranks = cases.flatMap(({ journal, procedure, step }) => {
      const whole = { ...procedure, leftOut: [] }
      const wanted = restingOn(omissionsOf(journal, whole), step)
      const { omissions } = omissionsOf(journal, without(whole, step))
      const rank = omissions.findIndex(({ id }) => wanted.includes(id))
      return rank < 0 ? [] : [rank + 1]
    })
    const first = ranks.filter((rank) => rank <= 3).length
    console.info(`where nothing was left out: ${first} of ${ranks.length}; the ranks are`, ranks.join(' '))
    expect(first / ranks.length).toBeGreaterThanOrEqual(0.7)
  })
})

describe('on a recorded session that was not used for building', async () => {
  const name = 'charts-site'
  const labels = JSON.parse(
    readFileSync(join(import.meta.dirname, `../fixtures/worked/${name}.labels.json`), 'utf8'),
  ) as { readonly belongs: readonly string[] }
  const journal = journalOf(await inputsOf(name, around.ids.make<ProjectId>()))
  const { records } = procedureOf([])
  const belongs = new Set(labels.belongs.map((command) => meaningOf(command, '/root').key))

  it('at most a fifth of what is listed as missing from an empty procedure is a false alarm', () => {
    const { omissions, uncertain } = omissionsOf(journal, records)
    const keys = omissions.map(({ deed }) => deed.key)
    const all = [...omissions, ...uncertain].map(({ deed }) => deed.key)
    const alarms = keys.filter((key) => !belongs.has(key))
    const found = [...belongs].filter((key) => keys.includes(key))
    const foundAtAll = [...belongs].filter((key) => all.includes(key))
    console.info(
      `${name}: ${alarms.length} of ${keys.length} listed are false alarms; ${found.length} of ${belongs.size} that a person ` +
        `would miss are listed, ${foundAtAll.length} with those of unknown effect (${uncertain.length})`,
      alarms,
      [...belongs].filter((key) => !keys.includes(key)),
    )
    expect(alarms.length / keys.length).toBeLessThanOrEqual(0.2)
    expect(foundAtAll.length / belongs.size).toBeGreaterThanOrEqual(0.9)
  })
})
