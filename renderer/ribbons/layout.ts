/**
 * The strokes of bundles for one frame, from where their ends stand in the panes' texts and how far those are scrolled.
 * Pure. First the heights of the ends, which say what tabs there are; then, with the tabs in place, the strokes.
 */
import type { FrameGeometry, Stretch } from '../frame/geometry.ts'
import { bands, type Band } from '../frame/layout.ts'
import { stands, type Aside, type Bundle, type BundleEnd, type Route } from './bundles.ts'
import { laneOf, seenMiddle, span, type Extent, type Stroke, type Way } from './geometry.ts'
import { ribbonForms, type RibbonForm } from './links.ts'
import { allTabs, placeTabs, tabIndex, trunkOf, type Side, type TabPlace, type TabSize } from './tabs.ts'

/** What a frame is drawn with. As long as nothing but scrolling goes on, geometry and boxes stay the same objects. */
export interface FrameView {
  readonly geometry: FrameGeometry
  /** What is seen of each pane's text. */
  readonly boxes: Readonly<Record<Band, Extent>>
  readonly scrolled: Readonly<Record<Band, number>>
  readonly tabSize: TabSize
  readonly rootFont: number
}

/**
 * The height of an end. -Infinity: it is scrolled away above, Infinity: below. NaN: it stands nowhere in its pane's text,
 * and its spot says where it is instead. Numbers alone, since a frame writes hundreds of them.
 */
type Height = number

/** A bundle as it is drawn; what stands below `tabs` is written anew for each frame in which it moves. */
export interface Drawn {
  readonly bundle: Bundle
  /** The ways of its strokes while both ends are in sight: two under the journal, else one. */
  readonly ways: readonly Way[]
  /** The tabs that its left end and its right one are gathered at while they are out of sight. */
  readonly tabs: { readonly left: TabsOfEnd; readonly right: TabsOfEnd }
  left: Height
  right: Height
  /** The panes whose scrolling moves it, a bit for each. */
  readonly movedBy: number
  /** The index of the tab that gathers it, or one of the two below. */
  form: number
  strokes: readonly Stroke[]
  /** Whether it is otherwise than in the frame before. */
  isMoved: boolean
}

/** By where an end is, the index of its tab. */
type TabsOfEnd = Readonly<Record<Aside, number>>

/** Both ends are in sight. */
const WHOLE = -1
/** Neither end is in sight, so that nothing is drawn. */
const HIDDEN = -2

/** The tabs of a frame. All by `tabIndex`. */
export interface DrawnTabs {
  /** How many links lead to each. */
  readonly counts: readonly number[]
  /** Their middles. */
  readonly heights: readonly number[]
  /** From where to where their trunks stand. */
  readonly trunks: readonly Trunk[]
}

export interface Trunk {
  top: number
  bottom: number
  /** The forms of the ribbons that it gathers, a bit for each. */
  forms: number
  /** Whether one of them belongs to what the person is at. */
  isOwn: boolean
}

/** What was drawn last. */
export interface DrawnFrame {
  readonly view: FrameView
  readonly tabs: DrawnTabs
}

const none: readonly Stroke[] = []

export function toDrawn(bundles: readonly Bundle[], geometry: FrameGeometry): Drawn[] {
  const counts = new Map<Route, number>()
  return bundles.map((bundle) => {
    const index = counts.get(bundle.route) ?? 0
    counts.set(bundle.route, index + 1)
    const ways = waysOf(bundle.route, index, geometry)
    const tabs = { left: tabsOf(bundle.route, 'left'), right: tabsOf(bundle.route, 'right') }
    const movedBy = moverOf(bundle.left) | moverOf(bundle.right)
    const [left, right] = [Number.NaN, Number.NaN]
    return { bundle, ways, tabs, left, right, movedBy, form: HIDDEN, strokes: none, isMoved: true }
  })
}

const bandBit: Readonly<Record<Band, number>> = { sources: 1, journal: 2, procedure: 4 }

/** The bit of the pane that moves an end. */
function moverOf({ band, spot: { kind } }: BundleEnd): number {
  return kind === 'at' || kind === 'rough' ? bandBit[band] : 0
}

/** How far from the edges of the panes strokes begin, so that the marks of their ends have room. */
const INSET = 5

/** @param index of the bundle among those of its route */
function waysOf(route: Route, index: number, { gaps: [first, second] }: FrameGeometry): Way[] {
  const lane = ({ left, right }: Stretch): number => laneOf(index, left, right)
  switch (route) {
    case 'first gap':
      return [{ x1: first.left + INSET, lane: lane(first), x2: first.right - INSET }]
    case 'second gap':
      return [{ x1: second.left + INSET, lane: lane(second), x2: second.right - INSET }]
    case 'across':
      return [
        { x1: first.left + INSET, lane: lane(first), x2: first.right },
        { x1: second.left, lane: lane(second), x2: second.right - INSET },
      ]
    case 'journal':
      return [{ x1: first.right - INSET, lane: first.left, x2: first.right - INSET }]
    case 'procedure':
      return [{ x1: second.right - INSET, lane: second.left, x2: second.right - INSET }]
  }
}

/**
 * Works out the strokes of all bundles, and the tabs.
 * @param before the last frame of the same bundles; what has not moved since stays as it is. Null for the first
 */
export function layOut(drawn: readonly Drawn[], view: FrameView, before: DrawnFrame | null): DrawnFrame {
  const counts = new Array<number>(allTabs.length).fill(0)
  const last = before && isSameFrame(before.view, view) ? before : null
  const moved = last ? movedBands(last.view, view) : 0
  for (const one of drawn) {
    const canBeNew = last === null || (one.movedBy & moved) !== 0
    one.isMoved = (canBeNew && hasNewHeights(one, view)) || last === null
    if (one.form >= 0) counts[one.form]! += one.bundle.strands.length
  }
  const heights = last && isSameTabs(counts, last.tabs) ? last.tabs.heights : placeTabs(counts, view)
  const hasNewTabs = last?.tabs.heights !== heights
  for (const one of drawn) {
    if (hasNewTabs && one.form >= 0) one.isMoved = true
    if (one.isMoved) setHeights(one, heights)
  }
  return { view, tabs: { counts, heights, trunks: trunksOf(drawn, counts, heights) } }
}

/** Each trunk reaches from its tab to the furthest of its elbows. */
function trunksOf(drawn: readonly Drawn[], counts: readonly number[], heights: readonly number[]): Trunk[] {
  const trunks = heights.map((at, i): Trunk => {
    return counts[i] === 0 ? noTrunk : { top: at, bottom: at, forms: 0, isOwn: false }
  })
  for (const { bundle, form, strokes } of drawn) {
    if (form < 0) continue
    const trunk = trunks[form]!
    const { y, over } = strokes[0]!.kind === 'elbow' ? strokes[0]! : strokes[1]!
    trunk.top = Math.min(trunk.top, y + over)
    trunk.bottom = Math.max(trunk.bottom, y + over)
    trunk.forms |= bitOf[bundle.form]
    if (bundle.isOwn) trunk.isOwn = true
  }
  return trunks
}

const noTrunk: Trunk = { top: 0, bottom: 0, forms: 0, isOwn: false }

/** The bit of a form. */
const bitOf: Readonly<Record<RibbonForm, number>> = {
  quotes: 1,
  derives: 2,
  cites: 4,
  revises: 8,
  answers: 16,
  loose: 32,
}

/** How a trunk is drawn: as the ribbons that it gathers where they are of one form, else whole. */
export function formOfTrunk({ forms }: Trunk): RibbonForm {
  const only = ribbonForms.find((form) => bitOf[form] === forms)
  return only ?? 'quotes'
}

function isSameFrame(before: FrameView, view: FrameView): boolean {
  return before.geometry === view.geometry && before.boxes === view.boxes
}

/** The bits of the panes that were scrolled. */
function movedBands({ scrolled: before }: FrameView, { scrolled: now }: FrameView): number {
  return bands.reduce((bits, band) => (before[band] === now[band] ? bits : bits | bandBit[band]), 0)
}

/** Whether there are tabs where there were; their numbers change nothing in their places. */
function isSameTabs(counts: readonly number[], last: DrawnTabs): boolean {
  return counts.every((count, i) => count > 0 === last.counts[i]! > 0)
}

/** Finds the heights of a bundle's ends. @returns whether it is drawn otherwise than before */
function hasNewHeights(one: Drawn, view: FrameView): boolean {
  const { left, right } = one
  one.left = heightOf(one.bundle.left, view)
  one.right = heightOf(one.bundle.right, view)
  const form = formOf(one)
  if (form === one.form) return form !== HIDDEN && (hasMoved(left, one.left) || hasMoved(right, one.right))
  one.form = form
  one.strokes = toStrokes(one, view)
  return true
}

/** An end that stands nowhere has not moved. */
const hasMoved = (before: Height, now: Height): boolean => before !== now && isSeen(now)

const isSeen = (height: Height): boolean => Number.isFinite(height)

function formOf({ bundle, tabs, left, right }: Drawn): number {
  if (isSeen(left)) return isSeen(right) ? WHOLE : tabs.right[asideOf(right, bundle.right)]
  return isSeen(right) ? tabs.left[asideOf(left, bundle.left)] : HIDDEN
}

function asideOf(height: Height, { spot }: BundleEnd): Aside {
  if (stands(spot)) return height < 0 ? 'above' : 'below'
  return spot.kind
}

function heightOf({ band, spot }: BundleEnd, { boxes, scrolled }: FrameView): Height {
  if (!stands(spot)) return Number.NaN
  if (spot.kind === 'fixed') return (spot.top + spot.bottom) / 2
  const off = scrolled[band]
  return seenMiddle(spot.top - off, spot.bottom - off, boxes[band])
}

/** The tabs that an end is gathered at while it is out of sight. */
function tabsOf(route: Route, end: Side): TabsOfEnd {
  const edge = edgeOf(route, end)
  const at = (aside: Aside): number => tabIndex({ ...edge, aside })
  return { above: at('above'), below: at('below'), elsewhere: at('elsewhere'), folded: at('folded') }
}

/** The gap and the side of it that an end stands at. */
export function edgeOf(route: Route, end: Side): Omit<TabPlace, 'aside'> {
  switch (route) {
    case 'first gap':
      return { gap: 0, side: end }
    case 'second gap':
      return { gap: 1, side: end }
    case 'across':
      return { gap: end === 'left' ? 0 : 1, side: end }
    case 'journal':
      return { gap: 0, side: 'right' }
    case 'procedure':
      return { gap: 1, side: 'right' }
  }
}

/** The strokes of a bundle's form, their heights still to be set. */
function toStrokes({ bundle, ways, form, left }: Drawn, view: FrameView): readonly Stroke[] {
  const [way, onward] = ways as [Way, Way?]
  if (form === HIDDEN) return none
  if (form === WHOLE) {
    const isBeside = bundle.route === 'journal' || bundle.route === 'procedure'
    return ways.map((one) => toStroke(isBeside ? 'arc' : 'curve', one))
  }
  const trunk = trunkOf(allTabs[form]!, view)
  const toTab = (x: number): Stroke => toStroke('elbow', { x1: x, lane: trunk, x2: trunk })
  if (!onward) return [toTab(isSeen(left) ? way.x1 : way.x2)]
  if (isSeen(left)) return [toStroke('curve', way), toTab(onward.x1)]
  return [toTab(way.x2), toStroke('curve', onward)]
}

const toStroke = (kind: Stroke['kind'], way: Way): Stroke => ({ kind, way, y: 0, over: 0 })

function setHeights({ left, right, form, strokes }: Drawn, tabs: readonly number[]): void {
  if (form === WHOLE) return setWhole(strokes, left, right)
  const seen = isSeen(left) ? left : right
  for (const stroke of strokes) span(stroke, seen, stroke.kind === 'elbow' ? tabs[form]! : seen)
}

/** Under the sheet of the journal a ribbon runs at one height. */
function setWhole([first, second]: readonly Stroke[], left: number, right: number): void {
  if (!second) return span(first!, left, right)
  const under = (left + right) / 2
  span(first!, left, under)
  span(second, under, right)
}
