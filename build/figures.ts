/**
 * `npm run figures [area]`: measures, prints a line for each figure, keeps the lines in test/FIGURES.md, and fails where a
 * bound is missed. Each file test/bench/<area>.figures.ts exports its list as `figures`; of an area with several files the
 * others are called <area>-<what>.figures.ts.
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
  const known = [...new Set(files().map(areaOf))].sort()
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

function files(): string[] {
  return readdirSync(folder).filter((name) => name.endsWith(ending))
}

function areaOf(file: string): string {
  return file.split(/[-.]/)[0]!
}

async function loadArea(area: string): Promise<Figure[]> {
  const figures: Figure[] = []
  for (const file of files().filter((one) => areaOf(one) === area)) {
    const loaded = (await import(pathToFileURL(join(folder, file)).href)) as { figures: readonly Figure[] }
    figures.push(...loaded.figures)
  }
  checkFigures(area, figures)
  return figures.sort((a, b) => a.id.localeCompare(b.id, 'en', { numeric: true }))
}

async function measureArea(area: string, missed: string[]): Promise<string[]> {
  const lines: string[] = []
  for (const figure of await loadArea(area)) {
    const measured = await figure.measure()
    const line = toLine(figure, measured)
    console.log(line)
    lines.push(line)
    if (figure.bound !== undefined && !isWithin(measured.value, figure.bound)) missed.push(figure.id)
  }
  return lines
}
