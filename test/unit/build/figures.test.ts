import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { checkFigures, isWithin, toLine, toRecord, type Figure } from '../../bench/figure.ts'

const files = import.meta.glob<{ figures: readonly Figure[] }>('../../bench/*.figures.ts', { eager: true })
const areas = Object.entries(files).map(([path, { figures }]) => ({
  area: /([a-z]+)(?:-[a-z-]+)?\.figures\.ts$/.exec(path)?.[1] ?? '',
  figures,
}))
const quick = areas.flatMap(({ figures }) =>
  figures.filter((figure) => figure.quick && figure.bound !== undefined),
)

describe('the figures', () => {
  it('have numbers of their own', () => {
    for (const { area, figures } of areas) checkFigures(area, figures)
  })

  it.each(quick)('$id keeps to its bound: $what', { timeout: 60_000 }, async (figure) => {
    const measured = await figure.measure()
    expect(isWithin(measured.value, figure.bound!), toLine(figure, measured)).toBe(true)
  })
})

const figure: Figure = {
  id: 'thread.4',
  what: 'time of a rebuild beside a fresh start',
  measure: () => Promise.resolve({ value: 0.305049, unit: '' }),
  bound: { op: '<=', value: 0.5 },
  baseline: 'published 0.3123',
  source: 'example',
  quick: true,
}

describe('a figure', () => {
  it('is one line with its value, bound, baseline and source', () => {
    const line = 'thread.4 time of a rebuild beside a fresh start = 0.305 (≤ 0.5; published 0.3123) [example]'
    expect(toLine(figure, { value: 0.305049, unit: '' })).toBe(line)
  })

  it('without bound, baseline and source is a line still', () => {
    const { bound: _bound, baseline: _baseline, source: _source, ...plain } = figure
    expect(toLine({ ...plain, id: 'thread.1', what: 'a year of use' }, { value: 12345.6, unit: 'MB' })).toBe(
      'thread.1 a year of use = 12346 MB',
    )
  })

  it('keeps to a bound up to and with its value, and never when it is not a number', () => {
    expect([0.4, 0.5, 0.6, NaN].map((value) => isWithin(value, { op: '<=', value: 0.5 }))).toEqual([
      true,
      true,
      false,
      false,
    ])
    expect([0.4, 0.5, 0.6, NaN].map((value) => isWithin(value, { op: '>=', value: 0.5 }))).toEqual([
      false,
      true,
      true,
      false,
    ])
  })

  it('of another area, or with a number that stands twice, is refused', () => {
    expect(() => checkFigures('find', [figure])).toThrow('thread.4 is not a figure of find')
    expect(() => checkFigures('thread', [figure, figure])).toThrow('thread.4 stands twice')
  })
})

describe('the script', () => {
  it('names the areas that there are, each once, where it is asked for another', () => {
    const root = join(import.meta.dirname, '../../..')
    const script = spawnSync(
      process.execPath,
      [join(root, 'node_modules/tsx/dist/cli.mjs'), join(root, 'build/figures.ts'), 'none such'],
      { encoding: 'utf8' },
    )
    expect(script.status).toBe(1)
    for (const area of new Set(areas.map((one) => one.area)))
      expect(script.stderr.split(new RegExp(`\\b${area}\\b`, 'u'))).toHaveLength(2)
  }, 60_000)
})

describe('the record', () => {
  it('replaces what was measured and keeps the other areas', () => {
    const first = toRecord(
      '',
      new Map([
        ['thread', ['thread.1 a = 1']],
        ['find', ['find.1 b = 2']],
      ]),
    )
    const second = toRecord(first, new Map([['thread', ['thread.1 a = 3', 'thread.2 c = 4']]]))
    expect(second.match(/^- .*$/gm)).toEqual(['- find.1 b = 2', '- thread.1 a = 3', '- thread.2 c = 4'])
    expect(toRecord(second, new Map())).toBe(second)
  })
})
