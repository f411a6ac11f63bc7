/**
 * `npm run figures [area]`: measures, prints a line for each figure, keeps the lines in test/FIGURES.md, and fails where a
 * bound is missed. Each file test/bench/<area>.figures.ts exports its list as `figures`.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { checkFigures, isWithin, toLine, toRecord, type Figure } from '../test/bench/figure.ts'

const folder = join(import.meta.dirname, '../test/bench')
const record = join(import.meta.dirname, '../test/FIGURES.md')
const ending = '.figures.ts'

await run(process.argv[2])

async function run(wanted: string | undefined): Promise<void> {
  const known = readdirSync(folder)
    .filter((name) => name.endsWith(ending))
    .map((name) => name.slice(0, -ending.length))
    .sort()
  const areas = wanted === undefined ? known : known.filter((area) => area === wanted)
  if (areas.length === 0) {
    console.error(
      `There are no figures${wanted === undefined ? '' : ` of “${wanted}”`}. Known areas: ${known.join(', ') || 'none'}.`,
    )
    process.exitCode = 1
    return
  }
  const lines = new Map<string, string[]>()
  const missed: string[] = []
  for (const area of areas) lines.set(area, await measureArea(area, missed))
  writeFileSync(record, toRecord(existsSync(record) ? readFileSync(record, 'utf8') : '', lines))
  for (const id of missed) console.error(`${id} misses its bound.`)
  process.exitCode = missed.length === 0 ? 0 : 1
}

async function measureArea(area: string, missed: string[]): Promise<string[]> {
  const loaded = (await import(pathToFileURL(join(folder, area + ending)).href)) as {
    figures: readonly Figure[]
  }
  checkFigures(area, loaded.figures)
  const lines: string[] = []
  for (const figure of loaded.figures) {
    const measured = await figure.measure()
    const line = toLine(figure, measured)
    console.log(line)
    lines.push(line)
    if (figure.bound !== undefined && !isWithin(measured.value, figure.bound)) missed.push(figure.id)
  }
  return lines
}
