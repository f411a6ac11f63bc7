/** Where the panes and the gaps between them are, for whoever draws ribbons. Pixels from the frame's top left corner. */
import type { Band, PaneWidths } from './layout.ts'

export interface Stretch {
  readonly left: number
  readonly right: number
}

export interface FrameGeometry {
  readonly width: number
  readonly height: number
  readonly panes: Readonly<Record<Band, Stretch & { readonly isFolded: boolean }>>
  /** Between sources and journal, and between journal and procedure. */
  readonly gaps: readonly [Stretch, Stretch]
}

/** Lays widths out left to right with a gap after the first and the second pane. */
export function geometryOf(
  widths: PaneWidths,
  folded: readonly Band[],
  gap: number,
  size: { readonly width: number; readonly height: number },
): FrameGeometry {
  const journalLeft = widths.sources + gap
  const procedureLeft = journalLeft + widths.journal + gap
  const pane = (band: Band, left: number) => ({
    left,
    right: left + widths[band],
    isFolded: folded.includes(band),
  })
  return {
    ...size,
    panes: {
      sources: pane('sources', 0),
      journal: pane('journal', journalLeft),
      procedure: pane('procedure', procedureLeft),
    },
    gaps: [
      { left: widths.sources, right: journalLeft },
      { left: journalLeft + widths.journal, right: procedureLeft },
    ],
  }
}
