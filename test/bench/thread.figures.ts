/** Figures of the thread: from a source through the journal to a procedure. */
import { join } from 'node:path'
import { databaseBytes, inPage } from './support/page.ts'
import type { Figure } from './figure.ts'

declare global {
  var liveThroughAYear: () => Promise<number>
}

const yearScript = join(import.meta.dirname, 'support/year.ts')

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
]
