/** Figures of the thread: from a source through the journal to a procedure. */
import { join } from 'node:path'
import { parseMarkdown } from '../../shared/markdown/parse.ts'
import { renderMarkdown } from '../../shared/markdown/render.ts'
import { databaseBytes, inPage } from './support/page.ts'
import type { Figure } from './figure.ts'

declare global {
  var liveThroughAYear: () => Promise<number>
}

const yearScript = join(import.meta.dirname, 'support/year.ts')

const prose =
  'Stopped **the logger** and read `journalctl -u logger` twice; the disk was full of old \\* files. '.repeat(
    4,
  )
/** An entry of 2 kB with prose, an output and a list. */
const entry = `${prose}\n\n\`\`\`\n${'/dev/sda1  91G  90G  1G  99% /var\n'.repeat(36)}\`\`\`\n\n- ${prose}\n- see [the page](https://docs.example.org)\n`

/** The best of many runs, in milliseconds: what the work costs when nothing else disturbs it. */
function best(run: () => unknown): number {
  const once = (): number => {
    const start = performance.now()
    run()
    return performance.now() - start
  }
  return Math.min(...Array.from({ length: 60 }, once))
}

export const figures: readonly Figure[] = [
  {
    id: 'thread.0',
    what: 'a year of daily use on the disk (250 days of 40 entries, 10 carries, 60 revisions and 2 pages of 40 kB)',
    baseline: 'originals alone 20 MB, all texts alone 10 MB',
    quick: false,
    measure: () =>
      inPage(yearScript, async (page, profile) => {
        await page.evaluate(() => globalThis.liveThroughAYear())
        return { value: databaseBytes(profile) / 1e6, unit: 'MB' }
      }),
  },
  {
    id: 'thread.0b',
    what: 'rendering a 2 kB entry, beside parsing it alone',
    bound: { op: '<=', value: 2 },
    quick: false,
    measure: () =>
      Promise.resolve({
        value: best(() => renderMarkdown(entry)) / best(() => parseMarkdown(entry)),
        unit: 'times',
      }),
  },
]
