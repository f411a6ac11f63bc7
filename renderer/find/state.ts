/**
 * What stands in the box, for as long as the window lives. Nothing of it is ever written down: words that were looked for
 * stay in memory. Created without React.
 */
import { create } from 'zustand'
import type { Range } from '../../shared/lab/model.ts'
import type { FindOrder, GroupName } from './groups.ts'
import { movedRanges } from './typed.ts'
import { nowhere, type WritingPlace } from './writing.ts'

export interface FindState {
  readonly isOpen: boolean
  readonly typed: string
  /** Ranges of it that look like a filter, a time or an exclusion, and that the person wants as words. */
  readonly kept: readonly Range[]
  readonly order: FindOrder
  readonly narrow: GroupName | null
  /** So many rows are asked for where one group, or all in order, are shown. */
  readonly most: number
  /** Where the person was writing when the box was opened. */
  readonly from: WritingPlace
}

/** So many rows are shown at first, and so many more each time. */
export const MORE = 100

const emptyBox = { typed: '', kept: [], order: 'best', narrow: null, most: MORE } as const

export const useFind = create<FindState>(() => ({ isOpen: false, ...emptyBox, from: nowhere }))

/** Puts something into the box. An empty box begins anew: best first, everything. */
export function setTyped(typed: string): void {
  const { typed: before, kept } = useFind.getState()
  if (typed === before) return
  if (typed.trim() === '') return useFind.setState({ ...emptyBox, typed })
  useFind.setState({ typed, kept: movedRanges(before, typed, kept), most: MORE })
}

/** Reads a stretch of what was typed as words, whatever it looks like. */
export function keepAsWords(range: Range): void {
  useFind.setState(({ kept }) => ({ kept: [...kept, range] }))
}

export function narrowTo(narrow: GroupName | null): void {
  useFind.setState({ narrow, most: MORE })
}

export function setOrder(order: FindOrder): void {
  useFind.setState({ order, most: MORE })
}

export function showMore(): void {
  useFind.setState(({ most }) => ({ most: most + MORE }))
}

/** What was looked for is forgotten: another lab was opened, or a text was struck out. */
export function forgetTyped(): void {
  useFind.setState(emptyBox)
}
