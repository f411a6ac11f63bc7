/** Tables of `.Bl -column`. */
import type { Table } from 'mdast'
import { toPhrasing } from '../roff/phrasing.ts'
import { addText, type Run } from '../roff/style.ts'
import { tableOf } from '../tables.ts'

export class ColumnTable {
  readonly #rows: Run[][][] = []

  row(): void {
    this.#rows.push([[]])
  }

  cell(): void {
    this.#rows.at(-1)?.push([])
  }

  /** Adds to the last cell; a tab begins the next one. */
  add(runs: readonly Run[], isJoined: boolean): void {
    if (this.#rows.length === 0) this.row()
    const cell = this.#rows.at(-1)!.at(-1)!
    if (cell.length > 0 && !isJoined) addText(cell, ' ', 'R')
    for (const { text, font } of runs)
      text.split('\t').forEach((part, i) => {
        if (i > 0) this.cell()
        addText(this.#rows.at(-1)!.at(-1)!, part, font)
      })
  }

  toTable(): Table | undefined {
    return tableOf(
      this.#rows.map((row) => row.map(toPhrasing)),
      undefined,
    )
  }
}
