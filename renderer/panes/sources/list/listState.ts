/** What the list of sources is at: how it is ordered and what is chosen in it. One for each open lab; bound in useListed.ts. */
import { createStore, type StoreApi } from 'zustand/vanilla'
import type { SourceId } from '../../../../shared/lab/ids.ts'
import {
  toChosenOrder,
  toKeptApart,
  usualOrder,
  type ChosenOrder,
} from '../../../../shared/sources/chosen-order.ts'
import { noFilter, type SourceFilter } from '../../../../shared/sources/filter.ts'
import type { SourceSort } from '../../../../shared/sources/sort.ts'

/** What a row is opened for, within the list. */
export type RowPart = 'fields' | 'tags' | 'folders'

export interface ListState {
  /** What was kept with the lab is known. Nothing is drawn before, so that no row jumps. */
  readonly isRead: boolean
  readonly order: ChosenOrder
  /** Sets of sources that a person said are different. */
  readonly apart: readonly (readonly string[])[]
  /** The row that the keyboard is at, or was at last. */
  readonly current: SourceId | null
  /** Rises whenever the keyboard is to go to `current`. */
  readonly calls: number
  readonly isChoosing: boolean
  readonly chosen: ReadonlySet<SourceId>
  /** Where a stretch of chosen rows begins. */
  readonly anchor: SourceId | null
  readonly opened: ReadonlyMap<SourceId, RowPart>
  readonly isFilterShown: boolean
  /** What is being done with all that are chosen. */
  readonly bulk: 'tags' | 'folders' | null
  /** Those that may be made one. */
  readonly merging: readonly SourceId[] | null
}

const begun: ListState = {
  isRead: false,
  order: usualOrder,
  apart: [],
  current: null,
  calls: 0,
  isChoosing: false,
  chosen: new Set(),
  anchor: null,
  opened: new Map(),
  isFilterShown: false,
  bulk: null,
  merging: null,
}

/** The part of an open lab that is needed here. */
export interface KeepsSettings {
  findSetting(key: string): Promise<unknown>
  keepSetting(key: string, value: unknown): Promise<void>
}

const ORDER = 'order of sources'
const APART = 'sources kept apart'

export type ListStore = StoreApi<ListState>

const stores = new WeakMap<KeepsSettings, ListStore>()

export function listStoreOf(lab: KeepsSettings): ListStore {
  const known = stores.get(lab)
  if (known) return known
  const store = createStore<ListState>(() => begun)
  stores.set(lab, store)
  void readKept(lab, store)
  return store
}

async function readKept(lab: KeepsSettings, store: ListStore): Promise<void> {
  // A lab that is being closed answers nothing more; then the usual order is as good.
  const [order, apart] = await Promise.all([lab.findSetting(ORDER), lab.findSetting(APART)]).catch(() => [
    null,
    null,
  ])
  store.setState({ isRead: true, order: toChosenOrder(order), apart: toKeptApart(apart) })
  store.subscribe((now, before) => {
    if (now.order !== before.order) void lab.keepSetting(ORDER, now.order)
    if (now.apart !== before.apart) void lab.keepSetting(APART, now.apart)
  })
}

export function changeFilter(store: ListStore, fields: Partial<SourceFilter>): void {
  store.setState(({ order }) => ({ order: { ...order, filter: { ...order.filter, ...fields } } }))
}

/** Shows all of the same scope again. */
export function clearFilter(store: ListStore): void {
  changeFilter(store, { ...noFilter, scope: store.getState().order.filter.scope })
}

export function changeSort(store: ListStore, sort: SourceSort): void {
  store.setState(({ order }) => ({ order: { ...order, sort } }))
}

/** With a thing in a list where it was not, and without it where it was. */
export function toggled<T>(list: readonly T[], one: T): readonly T[] {
  return list.includes(one) ? list.filter((other) => other !== one) : [...list, one]
}

/** Brings the keyboard to a row. */
export function goToRow(store: ListStore, id: SourceId): void {
  store.setState(({ calls }) => ({ current: id, calls: calls + 1 }))
}

export function openRow(store: ListStore, id: SourceId, part: RowPart): void {
  store.setState(({ opened }) => ({ opened: new Map(opened).set(id, part) }))
}

export function closeRow(store: ListStore, id: SourceId): void {
  const opened = new Map(store.getState().opened)
  opened.delete(id)
  store.setState({ opened })
  goToRow(store, id)
}

/** Chooses a row or lets go of it; further stretches begin there. */
export function toggleChosen(store: ListStore, id: SourceId): void {
  const chosen = new Set(store.getState().chosen)
  if (!chosen.delete(id)) chosen.add(id)
  store.setState({ isChoosing: true, chosen, anchor: id })
}

/** Chooses all from the last chosen row to this one. @param rows the rows that are shown, in order */
export function chooseTo(store: ListStore, rows: readonly SourceId[], id: SourceId): void {
  const { anchor, current, chosen, isChoosing } = store.getState()
  const start = [anchor, current, id].find((one) => one !== null && rows.includes(one))!
  const [from, to] = [rows.indexOf(start), rows.indexOf(id)].sort((a, b) => a - b) as [number, number]
  const stretch = rows.slice(from, to + 1)
  store.setState({
    isChoosing: true,
    anchor: start,
    chosen: isChoosing ? new Set([...chosen, ...stretch]) : new Set(stretch),
  })
}

export function chooseAll(store: ListStore, rows: readonly SourceId[]): void {
  store.setState({ isChoosing: true, chosen: new Set(rows) })
}

export function endChoosing(store: ListStore): void {
  store.setState({ isChoosing: false, chosen: new Set(), anchor: null, bulk: null })
}

/** What belongs to the rows of one project is let go when another one opens. */
export function beginAnew(store: ListStore): void {
  const { isRead, order, apart } = store.getState()
  store.setState({ ...begun, isRead, order, apart })
}
