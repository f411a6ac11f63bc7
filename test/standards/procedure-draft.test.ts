/**
 * Drafted steps of two recorded sessions against the procedures that a person distilled from them by hand, before the code
 * that drafts was written (test/fixtures/worked). A command counts as found where a drafted step holds the same one.
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import type { LabId, ProjectId } from '../../shared/lab/ids.ts'
import { fileMeaning } from '../../shared/procedure/coverage/deeds.ts'
import { meaningOf, unitsOf } from '../../shared/procedure/coverage/units.ts'
import { draftFrom, type Draft } from '../../shared/procedure/draft/draft.ts'
import { around, journalOf } from '../unit/shared/procedure/support/records.ts'
import { inputsOf } from '../unit/shared/procedure/support/worked.ts'

interface ByHand {
  readonly steps: readonly { readonly do: readonly string[]; readonly see: readonly string[] }[]
}

const folder = join(import.meta.dirname, '../fixtures/worked')
const keysOf = (command: string): string[] => unitsOf(command).map(({ text }) => meaningOf(text, null).key)

function draftedKeys({ rows }: Draft): string[] {
  // Each line of a fence that came from one entry is one command; a prompt is looked for in none.
  const keys = rows.flatMap(({ parts }) =>
    parts.flatMap((part) => {
      if (part.kind === 'file' && part.file) return [fileMeaning(part.file, part.text, null).key]
      return part.kind === 'expect'
        ? []
        : part.from.flatMap(({ fragment }) => fragment.selectors.flatMap(({ quote }) => keysOf(quote.exact)))
    }),
  )
  return [...new Set(keys)]
}

describe.each([
  { name: 'keys-only', found: 0.75, other: 0.25 },
  { name: 'nightly-archive', found: 0.6, other: 0.55 },
])('the draft of $name', async ({ name, found, other }) => {
  const byHand = JSON.parse(readFileSync(join(folder, `${name}.procedure.json`), 'utf8')) as ByHand
  const journal = journalOf(await inputsOf(name, around.ids.make<ProjectId>()))
  const draft = draftFrom(journal, { lab: around.ids.make<LabId>(), chosen: null, links: [] })
  const drafted = draftedKeys(draft)
  const done = byHand.steps.flatMap((step) => step.do.flatMap(keysOf))
  const all = new Set([...done, ...byHand.steps.flatMap((step) => step.see.flatMap(keysOf))])
  const hit = [...all].filter((key) => drafted.includes(key))
  const strange = drafted.filter((key) => !all.has(key))

  it(`finds most of the person’s commands and few others`, () => {
    const doneHit = done.filter((key) => drafted.includes(key))
    console.info(
      `${name}: ${hit.length} of ${all.size} commands found (${doneHit.length} of ${done.length} that change something); ` +
        `${strange.length} of ${drafted.length} drafted are not in the person’s`,
    )
    expect(hit.length / all.size).toBeGreaterThanOrEqual(found)
    expect(strange.length / drafted.length).toBeLessThanOrEqual(other)
  })

  it('says of every command what became of it', () => {
    const kept = new Set(draft.rows.flatMap(({ deeds }) => deeds))
    const dropped = new Set(draft.dropped.map(({ deed }) => deed))
    expect([...kept].filter((deed) => dropped.has(deed))).toEqual([])
    const commands = journal.list
      .filter(({ kind }) => kind === 'action')
      .flatMap(({ id }) => unitsOf(journal.texts.get(id)!.split('\n').slice(1, -1).join('\n')))
    const files = journal.list.filter(({ kind }) => kind === 'file')
    expect(kept.size + dropped.size).toBe(commands.length + files.length)
  })
})
