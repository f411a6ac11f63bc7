import { useLayoutEffect, useMemo, useRef, useState, type ReactNode } from 'react'
import { geometryOf, type FrameGeometry } from './geometry.ts'
import {
  bands,
  canFold,
  frameSizesFor,
  paneWidths,
  resizeAt,
  splitterReach,
  toggleFold,
  type Band,
  type PaneLayout,
  type Splitter,
} from './layout.ts'
import type { PaneContent } from './content.ts'
import { Pane, Spine } from './Pane.tsx'
import { PaneSplitter } from './PaneSplitter.tsx'

export interface ThreePanesProps {
  readonly layout: PaneLayout
  /** Called with every change, also while a splitter is being dragged. */
  readonly onLayout: (layout: PaneLayout) => void
  readonly sources: PaneContent
  readonly journal: PaneContent
  readonly procedure: PaneContent
  /** Drawn over the panes, in a `RibbonPicture`. */
  readonly ribbons?: (geometry: FrameGeometry) => ReactNode
}

/** The three panes, always in the same order, with a gap on either side of the journal that is left to the ribbons. */
export function ThreePanes({ layout, onLayout, ribbons, ...contents }: ThreePanesProps) {
  const frame = useRef<HTMLDivElement>(null)
  const { width, height, rootFont } = useSize(frame)
  const sizes = useMemo(() => frameSizesFor(rootFont), [rootFont])
  const widths = useMemo(() => paneWidths(layout, width, sizes), [layout, width, sizes])
  // The same object as long as nothing of it changes: ribbons are drawn anew for another one.
  const geometry = useMemo(
    () => geometryOf(widths, layout.folded, sizes.gap, { width, height }),
    [widths, layout.folded, sizes.gap, width, height],
  )
  const columns = `${widths.sources}px ${sizes.gap}px ${widths.journal}px ${sizes.gap}px ${widths.procedure}px`

  const splitter = (place: Splitter) => (
    <PaneSplitter
      place={place}
      reach={splitterReach(layout, place, width, sizes)}
      step={rootFont}
      onWidth={(wanted) => onLayout(resizeAt(layout, place, wanted, width, sizes))}
      onFold={() => onLayout(toggleFold(layout, place === 0 ? 'sources' : 'procedure'))}
    />
  )
  const followFold = useFocusAfterFold(frame, layout)
  const pane = (band: Band) => {
    const fold = () => {
      followFold(band)
      onLayout(toggleFold(layout, band))
    }
    if (layout.folded.includes(band)) return <Spine band={band} content={contents[band]} onUnfold={fold} />
    return <Pane band={band} content={contents[band]} onFold={canFold(layout, band) ? fold : null} />
  }

  return (
    <div ref={frame} className="st-frame" style={{ gridTemplateColumns: columns }} data-measured={width > 0}>
      {pane(bands[0])}
      {splitter(0)}
      {pane(bands[1])}
      {splitter(1)}
      {pane(bands[2])}
      {ribbons?.(geometry)}
    </div>
  )
}

/**
 * Folding replaces the pressed button by another one; focus goes over to that, so that the keyboard does not lose
 * its place. Returns what to call before a fold by button.
 */
function useFocusAfterFold(
  frame: { readonly current: HTMLElement | null },
  layout: PaneLayout,
): (band: Band) => void {
  const pressed = useRef<Band | null>(null)
  useLayoutEffect(() => {
    if (pressed.current === null) return
    const pane = frame.current?.querySelector(`[data-band="${pressed.current}"]`)
    pane?.querySelector<HTMLElement>('[data-fold]')?.focus()
    pressed.current = null
  }, [frame, layout])
  return (band) => {
    pressed.current = band
  }
}

function useSize(frame: { readonly current: HTMLElement | null }) {
  const [size, setSize] = useState({ width: 0, height: 0, rootFont: 15 })
  useLayoutEffect(() => {
    const element = frame.current
    if (element === null) return undefined
    const measure = () => {
      const rootFont = Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 15
      const next = { width: element.clientWidth, height: element.clientHeight, rootFont }
      setSize((last) =>
        last.width === next.width && last.height === next.height && last.rootFont === next.rootFont
          ? last
          : next,
      )
    }
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    // The text size changes the root's font, not the frame's own size.
    const face = new MutationObserver(measure)
    face.observe(document.documentElement, { attributes: true, attributeFilter: ['data-size', 'style'] })
    return () => {
      observer.disconnect()
      face.disconnect()
    }
  }, [frame])
  return size
}
