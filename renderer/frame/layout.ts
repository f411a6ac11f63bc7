/** How wide the three panes are. Pure: a layout and a width in, a layout or widths out. Lengths in CSS pixels. */

export const bands = ['sources', 'journal', 'procedure'] as const
/** One of the three panes, left to right. */
export type Band = (typeof bands)[number]

/** Kept by the caller for each lab. */
export interface PaneLayout {
  /** Shares of the width; they add up to 1. A folded pane keeps its share for when it is unfolded. */
  readonly shares: Readonly<Record<Band, number>>
  /** At least one pane is always open. */
  readonly folded: readonly Band[]
}

export const defaultLayout: PaneLayout = {
  shares: { sources: 0.235, journal: 0.37, procedure: 0.395 },
  folded: [],
}

/** The lengths that a layout is drawn with; they grow with the text size. */
export interface FrameSizes {
  readonly gap: number
  readonly spine: number
  readonly least: Readonly<Record<Band, number>>
}

/** Sizes for a root font size in pixels (15 normally, 20 at the bench). The gap stays 36 px for the ribbons. */
export function frameSizesFor(rootFont: number): FrameSizes {
  const rem = (count: number) => Math.round(count * rootFont)
  return { gap: 36, spine: rem(2.6), least: { sources: rem(12.5), journal: rem(20), procedure: rem(20) } }
}

export type PaneWidths = Readonly<Record<Band, number>>

/** A splitter stands after its pane: the first after sources, the second after journal. */
export type Splitter = 0 | 1

/**
 * Whole widths that, with two gaps, fill `available` exactly. Open panes get their shares of what folded ones leave,
 * but no less than they need; where even that is too much, all shrink alike.
 */
export function paneWidths(layout: PaneLayout, available: number, sizes: FrameSizes): PaneWidths {
  const open = openBands(layout)
  const room = roomFor(layout, available, sizes)
  const ideal = fillRoom(open, layout.shares, sizes.least, room)
  const widths: Record<Band, number> = { sources: sizes.spine, journal: sizes.spine, procedure: sizes.spine }
  let spent = 0
  open.forEach((band, place) => {
    widths[band] = place === open.length - 1 ? Math.max(0, Math.round(room) - spent) : Math.round(ideal[band])
    spent += widths[band]
  })
  return widths
}

/** The panes on either side of a splitter whose widths it changes; null when nothing on one side is open. */
export function panesAt(layout: PaneLayout, splitter: Splitter): { left: Band; right: Band } | null {
  const isOpen = (band: Band) => !layout.folded.includes(band)
  const left = bands
    .slice(0, splitter + 1)
    .reverse()
    .find(isOpen)
  const right = bands.slice(splitter + 1).find(isOpen)
  return left === undefined || right === undefined ? null : { left, right }
}

/** The width of the pane on the splitter's left, and how far that can go. Null for a splitter that cannot move. */
export function splitterReach(
  layout: PaneLayout,
  splitter: Splitter,
  available: number,
  sizes: FrameSizes,
): { now: number; min: number; max: number } | null {
  const sides = panesAt(layout, splitter)
  if (sides === null) return null
  const widths = paneWidths(layout, available, sizes)
  const now = widths[sides.left]
  const min = Math.min(now, sizes.least[sides.left])
  return { now, min, max: Math.max(now, now + widths[sides.right] - sizes.least[sides.right]) }
}

/** The layout after the pane on the splitter's left was given a width, as near as the limits allow. */
export function resizeAt(
  layout: PaneLayout,
  splitter: Splitter,
  width: number,
  available: number,
  sizes: FrameSizes,
): PaneLayout {
  const sides = panesAt(layout, splitter)
  const reach = splitterReach(layout, splitter, available, sizes)
  if (sides === null || reach === null) return layout
  const widths = paneWidths(layout, available, sizes)
  const wanted = Math.max(reach.min, Math.min(width, reach.max))
  const changed = {
    ...widths,
    [sides.left]: wanted,
    [sides.right]: widths[sides.right] - (wanted - reach.now),
  }
  return { ...layout, shares: sharesOf(layout, changed) }
}

/** Says whether a pane may be folded: the last open one may not. */
export function canFold(layout: PaneLayout, band: Band): boolean {
  return !layout.folded.includes(band) && openBands(layout).length > 1
}

/** Folds an open pane, or unfolds a folded one. The last open pane stays open. */
export function toggleFold(layout: PaneLayout, band: Band): PaneLayout {
  if (layout.folded.includes(band))
    return { ...layout, folded: layout.folded.filter((other) => other !== band) }
  if (!canFold(layout, band)) return layout
  return { ...layout, folded: bands.filter((other) => other === band || layout.folded.includes(other)) }
}

/** One pane at full width: the others fold to their spines. Widths stay as they are for when they unfold. */
export function widenOnly(layout: PaneLayout, band: Band): PaneLayout {
  return { ...layout, folded: bands.filter((other) => other !== band) }
}

/** Says whether an unknown value, for instance one kept from an earlier session, is a layout. */
export function isPaneLayout(value: unknown): value is PaneLayout {
  if (typeof value !== 'object' || value === null) return false
  const { shares, folded } = value as Record<string, unknown>
  if (typeof shares !== 'object' || shares === null || !Array.isArray(folded)) return false
  const parts = bands.map((band) => (shares as Record<string, unknown>)[band])
  const areShares = parts.every((part) => typeof part === 'number' && part > 0 && part < 1)
  const sum = parts.reduce<number>((total, part) => total + Number(part), 0)
  const areFolded =
    folded.every((band: unknown) => bands.includes(band as Band)) && new Set(folded).size === folded.length
  return areShares && Math.abs(sum - 1) < 0.001 && areFolded && folded.length < bands.length
}

function openBands(layout: PaneLayout): Band[] {
  return bands.filter((band) => !layout.folded.includes(band))
}

function roomFor(layout: PaneLayout, available: number, sizes: FrameSizes): number {
  return Math.max(0, available - 2 * sizes.gap - layout.folded.length * sizes.spine)
}

/** Shares the room out; a pane that would fall below its least width is held there and the others share the rest. */
function fillRoom(
  open: readonly Band[],
  shares: PaneLayout['shares'],
  least: FrameSizes['least'],
  room: number,
): Record<Band, number> {
  const widths: Record<Band, number> = { sources: 0, journal: 0, procedure: 0 }
  const needed = sum(open, least)
  if (needed >= room) {
    for (const band of open) widths[band] = (least[band] / needed) * room
    return widths
  }
  const held = new Set<Band>()
  for (;;) {
    const free = open.filter((band) => !held.has(band))
    const freeRoom = room - sum([...held], least)
    const freeShares = sum(free, shares)
    const tooNarrow = free.filter((band) => (shares[band] / freeShares) * freeRoom < least[band])
    if (tooNarrow.length === 0) {
      for (const band of open)
        widths[band] = held.has(band) ? least[band] : (shares[band] / freeShares) * freeRoom
      return widths
    }
    tooNarrow.forEach((band) => held.add(band))
  }
}

/** Shares for open panes of these widths; folded panes keep theirs, open ones divide the rest. */
function sharesOf(layout: PaneLayout, widths: PaneWidths): PaneLayout['shares'] {
  const open = openBands(layout)
  const openShare = sum(open, layout.shares)
  const openWidth = sum(open, widths)
  const shares = { ...layout.shares }
  for (const band of open)
    shares[band] = openWidth === 0 ? layout.shares[band] : (widths[band] / openWidth) * openShare
  return shares
}

function sum(among: readonly Band[], values: Readonly<Record<Band, number>>): number {
  return among.reduce((total, band) => total + values[band], 0)
}
