import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { linkWords } from '../../shared/distil/carry.ts'
import { pickFragment } from '../../shared/distil/fragment.ts'
import * as acts from '../../shared/lab/acts.ts'
import type { StoredChange } from '../../shared/lab/change.ts'
import type { LabId } from '../../shared/lab/ids.ts'
import type { Range } from '../../shared/lab/model.ts'
import { provForms } from '../../shared/provenance/prov/forms.ts'
import { provenanceOf } from '../../shared/provenance/prov/provenance.ts'
import { findQuote, isSelectorTrue, makeSelector } from '../../shared/provenance/selectors.ts'
import { repeatableSurroundings } from '../unit/support/lab.ts'

/**
 * W3C Web Annotation Data Model (Recommendation, 23 February 2017), model examples 23 (§4.2.4, Text Quote Selector) and
 * 24 (§4.2.5, Text Position Selector), and the W3C's own test schemas for both.
 */
const folder = join(process.env.STANDARDS_DIR ?? join(process.cwd(), '../shared/standards'), 'web-annotation')
const isThere = existsSync(folder)
const read = (path: string): unknown => JSON.parse(readFileSync(join(folder, path), 'utf8'))

/** All objects of that type in a JSON value. */
function selectorsIn(value: unknown, type: string): Record<string, unknown>[] {
  if (typeof value !== 'object' || value === null) return []
  const own = (value as { type?: unknown }).type === type ? [value as Record<string, unknown>] : []
  return [...own, ...Object.values(value).flatMap((inner) => selectorsIn(inner, type))]
}
const examples = ['anno23', 'anno24', 'anno29', 'anno38'].map(
  (name) => `w3c-model-examples/model/wd2/examples/correct/${name}.json`,
)

describe('selectors beside those of the Web Annotation Data Model', () => {
  it.skipIf(!isThere)('quote with the keys of the published TextQuoteSelectors and no others', () => {
    const published = examples.flatMap((path) => selectorsIn(read(path), 'TextQuoteSelector'))
    expect(published.length).toBeGreaterThan(0)
    for (const example of published) {
      const [prefix, exact, suffix] = ['prefix', 'exact', 'suffix'].map((key) =>
        String(example[key] ?? ''),
      ) as [string, string, string]
      const made = makeSelector(prefix + exact + suffix, {
        start: prefix.length,
        end: prefix.length + exact.length,
      })
      expect(made.quote).toMatchObject(example)
      expect(Object.keys(made.quote).sort()).toEqual(['exact', 'prefix', 'suffix', 'type'])
    }
  })

  it.skipIf(!isThere)(
    'place with the keys of the published TextPositionSelectors, from 0, the end left out',
    () => {
      const published = examples.flatMap((path) => selectorsIn(read(path), 'TextPositionSelector'))
      expect(published.length).toBeGreaterThan(0)
      for (const example of published) {
        const range = example as unknown as { start: number; end: number }
        const text = 'x'.repeat(range.end + 10)
        const { position, quote } = makeSelector(text, range)
        expect(position).toEqual(example)
        // §4.2.5: the character at start is selected, the one at end is not.
        expect(quote.exact).toBe(text.slice(range.start, range.end))
      }
    },
  )

  it.skipIf(!isThere)('meet what the published test schemas ask for', () => {
    const schema = JSON.stringify(read('w3c-tests/definitions/specificResource.json'))
    const { quote, position } = makeSelector('The weather logger writes to its card.', { start: 4, end: 11 })
    expect(schema).toContain('TextQuoteSelector')
    for (const key of ['exact', 'prefix', 'suffix'] as const) expect(typeof quote[key]).toBe('string')
    expect(Number.isInteger(position.start) && position.start >= 0 && position.end > position.start).toBe(
      true,
    )
  })

  it('tell equal words apart by prefix and suffix, as §4.2.4 asks, and find none where there is doubt', () => {
    const text = 'one disk and one disk or one disk'
    const second = makeSelector(text, { start: 13, end: 21 })
    expect(second.quote).toMatchObject({ exact: 'one disk', prefix: 'one disk and ', suffix: ' or one disk' })
    expect(isSelectorTrue(text, second)).toBe(true)
    expect(findQuote(text, second)).toEqual({ start: 13, end: 21 })
    expect(
      findQuote(`${text}, ${text}`, { ...second, quote: { ...second.quote, suffix: '', prefix: '' } }),
    ).toBe(null)
    expect(findQuote('a tape', second)).toBe(null)
  })

  it('never halve a character beyond the first plane in prefix or suffix', () => {
    const text = `${'🔭'.repeat(20)}x${'🔭'.repeat(20)}`
    for (const range of [
      { start: 40, end: 41 },
      { start: 38, end: 41 },
      { start: 40, end: 43 },
    ]) {
      const { prefix, suffix } = makeSelector(`a${text}`, {
        start: range.start + 1,
        end: range.end + 1,
      }).quote
      expect([prefix, suffix].map((words) => encodeURIComponent(words)).join('')).not.toContain('%EF%BF%BD')
      expect(text).toContain(prefix)
    }
  })
})

/** A lab in which a range of an entry was carried into a step, exported as JSON-LD. */
function exportOfCarry(text: string, range: Range): unknown {
  const around = repeatableSurroundings()
  const lab = around.ids.make<LabId>()
  const { project, change: begun } = acts.addProject(around, { title: 'Logger', aim: '', status: 'planned' })
  const { entry, revision, change } = acts.addEntry(around, { project: project.id, kind: 'action', text })
  const fragment = pickFragment(
    {
      ...{ lab, node: { kind: 'entry', id: entry.id } as const, revision, text, title: '', address: null },
      origin: { kind: 'entry', entryKind: 'action' },
    },
    [range],
  )!
  const fix = acts.addEntry(around, {
    ...{ project: project.id, kind: 'fix' as const },
    text: text.slice(range.start, range.end),
  })
  const newer = {
    node: { kind: 'entry', id: fix.entry.id } as const,
    ...{ revision: fix.revision, text: text.slice(range.start, range.end) },
    ranges: [{ start: 0, end: range.end - range.start }],
  }
  const link = acts.makeChange(around, 'carry', [
    acts.put('links', linkWords(around, fragment, newer, 'drag')),
  ])
  const changes = [begun, change, fix.change, link].map((one, i): StoredChange => ({
    ...one,
    sequence: i + 1,
  }))
  const document = provenanceOf({ lab, changes, linkStates: [], captures: new Map() }, { kind: 'lab' })
  return JSON.parse(provForms['JSON-LD'].write(document))
}

describe('selectors in the JSON-LD of an export', () => {
  it.skipIf(!isThere)('of the words of a published example are the TextQuoteSelector of that example', () => {
    const published = examples.flatMap((path) => selectorsIn(read(path), 'TextQuoteSelector'))
    expect(published.length).toBeGreaterThan(0)
    for (const example of published) {
      const [prefix, exact, suffix] = ['prefix', 'exact', 'suffix'].map((key) => String(example[key])) as [
        string,
        string,
        string,
      ]
      const range = { start: prefix.length, end: prefix.length + exact.length }
      const exported = exportOfCarry(prefix + exact + suffix, range)
      expect(selectorsIn(exported, 'TextQuoteSelector')).toContainEqual(example)
    }
  })

  it.skipIf(!isThere)(
    'at the place of a published example are the TextPositionSelector of that example',
    () => {
      const published = examples.flatMap((path) => selectorsIn(read(path), 'TextPositionSelector'))
      expect(published.length).toBeGreaterThan(0)
      for (const example of published) {
        const range = example as unknown as Range
        // §4.2.5 counts characters of the text; those before it are of two UTF-16 units each.
        const text = `${'🔭'.repeat(range.start)}${'x'.repeat(range.end - range.start + 5)}`
        const units = { start: 2 * range.start, end: range.start + range.end }
        expect(selectorsIn(exportOfCarry(text, units), 'TextPositionSelector')).toContainEqual(example)
      }
    },
  )

  it.skipIf(!isThere)(
    'stand where those of the published examples stand: beside the source that they select from',
    () => {
      const target = (read(examples[0]!) as { target: object }).target
      const stretches = specificResourcesIn(
        exportOfCarry('this is an anotation that', { start: 11, end: 20 }),
      )
      expect(stretches).toHaveLength(2)
      for (const stretch of stretches)
        expect(Object.keys(stretch)).toEqual(expect.arrayContaining(Object.keys(target)))
    },
  )
})

/** Nodes that are specific resources among other things. */
function specificResourcesIn(exported: unknown): Record<string, unknown>[] {
  const nodes = (exported as { '@graph': Record<string, unknown>[] })['@graph']
  return nodes.filter(({ type }) => [type].flat().includes('SpecificResource'))
}
