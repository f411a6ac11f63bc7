/** The map of the sample, and the file that it is saved as. */
import { DOMParser } from '@xmldom/xmldom'
import { beforeAll, describe, expect, it } from 'vitest'
import { loadSample } from '../../../../renderer/labs/loadSample.ts'
import { sample } from '../../../../renderer/labs/sample/index.ts'
import { toView, type ProjectView } from '../../../../renderer/store/view.ts'
import { foldMatter } from '../../../../shared/map/fold.ts'
import { placeMap } from '../../../../shared/map/layout.ts'
import { showMap, type ShownMap } from '../../../../shared/map/map.ts'
import { noFilter } from '../../../../shared/map/model.ts'
import { shapePath } from '../../../../shared/map/shapes.ts'
import { toSvgFile } from '../../../../shared/map/svg.ts'
import { matterOf } from '../../../../shared/map/things.ts'
import { kindWords } from '../../../../shared/map/names.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { thing } from './generated.ts'

let view: ProjectView
let shown: ShownMap
beforeAll(async () => {
  const lab = await openTestLab(repeatableSurroundings())
  await loadSample(lab, sample)
  const views = await Promise.all(
    (await lab.queries.projects()).map(async ({ id }) => toView(id, await lab.queries.project(id))),
  )
  view = views.sort((a, b) => b.links.size - a.links.size)[0]!
  shown = showMap(view, { filter: noFilter, open: [], chosen: null })
})

const palette = (): string => '#123456'

describe('the map of the sample', () => {
  it('has every link once: drawn, inside one thing, or told of as leading outside', () => {
    const { relations, outside } = matterOf(view)
    const partOwner = (id: string): string | undefined => {
      const part = [...view.parts.values()].find((one) => one.id === id)
      return part ? (part.step ?? part.procedure) : (view.captures.get(id)?.source ?? id)
    }
    const within = [...view.links.values()].filter(
      ({ newer, older }) => partOwner(newer.node.id) === partOwner(older.node.id),
    )
    expect(relations.length + outside + within.length).toBe(view.links.size)
    expect(relations.length).toBeGreaterThan(10)
  })
  it('has every source, every standing entry and every step', () => {
    const keys = new Set(matterOf(view).things.map(({ key }) => key))
    for (const { id } of view.sources.values()) expect(keys).toContain(id)
    for (const { id } of view.entries.values()) if (!view.withdrawn.has(id)) expect(keys).toContain(id)
    for (const { id, level } of view.steps.values()) if (level !== 'section') expect(keys).toContain(id)
  })
  it('leaves out a withdrawn entry that nothing rests on, and marks one that something does', () => {
    const linked = new Set(matterOf(view).relations.flatMap(({ newer, older }) => [newer, older]))
    const ids = [...view.entries.keys()]
    const [used, unused] = [ids.find((id) => linked.has(id))!, ids.find((id) => !linked.has(id))!]
    const { things } = matterOf({ ...view, withdrawn: new Set([used, unused]) })
    expect(things.find(({ key }) => key === used)?.isWithdrawn).toBe(true)
    expect(things.some(({ key }) => key === unused)).toBe(false)
  })
  it('is told in sentences with its numbers', () => {
    expect(shown.about).toMatch(
      /^\d+ sources?, \d+ entries and \d+ steps?, joined by \d+ links?, \d+ of them loose\. /,
    )
  })
})

describe('the file', () => {
  it('is well-formed XML with every sign, its words and a description, and refers to nothing outside', () => {
    const svg = toSvgFile(shown.map, 'Map', shown.about, palette, null)
    const faults: string[] = []
    const parsed = new DOMParser({ onError: (level, message) => faults.push(`${level} ${message}`) })
    const document = parsed.parseFromString(svg, 'image/svg+xml')
    expect(faults).toEqual([])
    expect(document.documentElement?.namespaceURI).toBe('http://www.w3.org/2000/svg')
    expect(document.getElementsByTagName('desc')[0]?.textContent).toBe(shown.about)
    expect(document.getElementsByTagName('g').length).toBe(shown.map.nodes.length)
    expect(svg.replace('http://www.w3.org/2000/svg', '')).not.toMatch(
      /https?:|href|url\(|<script|<style|<image/,
    )
  })
  it('takes words that XML cannot hold', () => {
    const words = '<b> & "x" \u{0} \u{D800} \u{1F600}'
    const things = [thing('sources', 1, [], { words })]
    const map = placeMap(foldMatter({ things, relations: [], outside: 0 }, new Set()))
    const svg = toSvgFile(map, words, words, palette, null)
    const faults: string[] = []
    // It warns of U+FFFD, which is what is wanted here.
    const document = new DOMParser({
      onError: (level, message) => level !== 'warning' && faults.push(message),
    })
    const title = document.parseFromString(svg, 'image/svg+xml').getElementsByTagName('title')[0]?.textContent
    expect(faults).toEqual([])
    expect(title).toBe('<b> & "x" \u{FFFD} \u{FFFD} \u{1F600}')
  })
})

it('no two kinds have the same shape', () => {
  const kinds = Object.keys(kindWords) as (keyof typeof kindWords)[]
  expect(new Set(kinds.map((kind) => shapePath(kind, 0, 0, 20))).size).toBe(kinds.length)
})
