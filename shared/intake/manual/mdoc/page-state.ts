/** What the macros of an mdoc(7) page have said so far. */
import type { Machine } from '../roff/machine.ts'
import type { Run } from '../roff/style.ts'
import type { ColumnTable } from './columns.ts'

export interface OpenList {
  readonly type: string
  /** Items so far. */
  count: number
  readonly table: ColumnTable | null
}

export interface State {
  readonly machine: Machine
  /** The page's own name, as `.Nm` first says it. */
  name: string
  section: string
  isSpaced: boolean
  /** A line ended in a way that the next goes on without a space. */
  isTight: boolean
  readonly lists: OpenList[]
  /** Whether lines are filled outside of each display that is open. */
  readonly displays: boolean[]
  /** An item's head that goes on over several lines (`.It Xo` to `.Xc`), with how deep it is. */
  head: { readonly runs: Run[]; depth: number } | null
  /** A function's arguments so far, between `.Fo` and `.Fc`. */
  fnArgs: number | null
  /** The fields of a reference, between `.Rs` and `.Re`. */
  fields: Map<string, string[]> | null
  readonly authors: string[]
  /** The line begins with `.An`. */
  isAuthorLine: boolean
}

export function newState(machine: Machine): State {
  return {
    machine,
    name: '',
    section: '',
    isSpaced: true,
    isTight: false,
    lists: [],
    displays: [],
    head: null,
    fnArgs: null,
    fields: null,
    authors: [],
    isAuthorLine: false,
  }
}

export const isSynopsis = ({ section }: State): boolean => section === 'SYNOPSIS'
