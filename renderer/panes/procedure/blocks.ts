/**
 * Rows that are drawn together. Of a long procedure only what is near the view is drawn, a block at a time: the browser
 * goes through all that is drawn with every key.
 */
import type { StepId } from '../../../shared/lab/ids.ts'
import type { StepLevel } from '../../../shared/lab/model.ts'

/** What a row must tell to find its block. */
export interface BlockRow {
  readonly step: { readonly id: StepId; readonly level: StepLevel }
}

export interface RowBlock<R> {
  /** Stays while the block begins with the same row. */
  readonly key: string
  readonly rows: readonly R[]
  /** Place of its first row in the whole list, from 0 on. */
  readonly start: number
}

/** One row in so many begins a block. */
const USUAL_ROWS = 5

/**
 * Cuts a list of rows into blocks of some five, in order. A section always begins one, together with the row below it.
 * Elsewhere a row's own id says whether it begins one, so that adding, moving or removing a row changes the blocks beside
 * it and no other: what is drawn of the rest stays.
 */
export function blocksOf<R extends BlockRow>(rows: readonly R[]): RowBlock<R>[] {
  const blocks: { key: string; rows: R[]; start: number }[] = []
  rows.forEach((row, i) => {
    const above = rows[i - 1]
    const last = blocks.at(-1)
    if (last && above && !beginsBlock(row, above)) last.rows.push(row)
    else blocks.push({ key: i === 0 ? 'head' : row.step.id, rows: [row], start: i })
  })
  return blocks
}

function beginsBlock({ step }: BlockRow, above: BlockRow): boolean {
  if (step.level === 'section') return true
  return above.step.level !== 'section' && digestOf(step.id) % USUAL_ROWS === 0
}

/** FNV-1a, 32 bits (draft-eastlake-fnv): spreads ids that were made one after another. */
function digestOf(id: string): number {
  let digest = 0x811c9dc5
  for (let i = 0; i < id.length; i++) digest = Math.imul(digest ^ id.charCodeAt(i), 0x01000193)
  return digest >>> 0
}
