/** The ribbons, in a picture over the panes. */
import { useEffect, useLayoutEffect, useMemo, useRef } from 'react'
import { RibbonPicture, type FrameGeometry } from '../frame/index.ts'
import { useWorkspace, useWorkspaceState } from '../store/useWorkspace.ts'
import { Collector } from './collector.ts'
import { goToEnd } from './going.ts'
import { LiveRibbons, type Shown } from './live.ts'
import type { RibbonLink } from './links.ts'
import { shadesOf } from './drawing/shades.ts'
import { listenInGaps } from './pointing.ts'
import { rowOrderOf } from './rowOrder.ts'
import { setRibbons, useRibbons } from './state.ts'
import type { Subject } from './subject.ts'
import { goneWords } from './words.ts'

export interface RibbonsProps {
  readonly geometry: FrameGeometry
}

const none: readonly RibbonLink[] = []

/** Draws the ribbons of what the person is at, or of all that is in view. While there are none, nothing is in the page or watched. */
export function Ribbons({ geometry }: RibbonsProps) {
  const isAll = useRibbons((state) => state.isAll)
  const pointed = useRibbons((state) => state.pointed)
  const focused = useRibbons((state) => state.focused)
  const isDragging = useWorkspaceState((state) => state.dragging !== null)
  const collector = useCollector(!isDragging && (isAll || pointed !== null || focused !== null))
  const ofPointed = useChains(collector, pointed)
  const ofFocused = useChains(collector, focused)
  // What the pointer rests on comes first, as long as it has any.
  const [subject, own] = ofPointed.length > 0 ? [pointed, ofPointed] : [focused, ofFocused]
  const shown = useMemo((): Shown | null => {
    if (!collector || (!isAll && own.length === 0)) return null
    return {
      geometry,
      collect: isAll ? (things) => withOwn(collector.at(things), own) : () => own,
      own: new Set(own.map(({ link }) => link.id)),
      things: new Set(subject?.nodes),
      isAll,
      order: collector.order,
    }
  }, [collector, isAll, own, subject, geometry])
  if (!shown) return null
  return <Drawn key={isAll ? 'all' : (subject?.key ?? '')} shown={shown} />
}

/** Reads the project's links; null while none are wanted. */
function useCollector(isWanted: boolean): Collector | null {
  const view = useWorkspaceState((state) => (isWanted ? state.view : null))
  const procedure = useWorkspaceState((state) => state.procedure)
  const sources = useWorkspaceState((state) => state.labSources?.sources)
  const heads = useWorkspaceState((state) => state.labSources?.heads)
  return useMemo(
    () =>
      view && sources && heads ? new Collector(view, { sources, heads }, rowOrderOf(view, procedure)) : null,
    [view, procedure, sources, heads],
  )
}

function useChains(collector: Collector | null, subject: Subject | null): readonly RibbonLink[] {
  return useMemo(() => (collector && subject ? collector.chains(subject) : none), [collector, subject])
}

/** What the person is at may be far from view, and its chain too. */
function withOwn(links: readonly RibbonLink[], own: readonly RibbonLink[]): readonly RibbonLink[] {
  return own.length === 0 ? links : [...new Set([...links, ...own])]
}

function Drawn({ shown }: { readonly shown: Shown }) {
  const workspace = useWorkspace()
  const root = useRef<SVGGElement>(null)
  const live = useRef<LiveRibbons>(null)
  useLayoutEffect(() => {
    const group = root.current!
    const frame = group.closest<HTMLElement>('.st-frame')!
    const made = new LiveRibbons(group, frame)
    live.current = made
    const stopListening = listenInGaps(frame, made, ({ node, ranges }) => {
      setRibbons({ pointed: null })
      void goToEnd(workspace, node, ranges).then((isThere) => {
        if (!isThere) workspace.say('notice', goneWords)
      })
    })
    return () => {
      stopListening()
      made.stop()
      group.replaceChildren()
    }
  }, [workspace])
  // What else is drawn anew with it is in the page by then.
  useEffect(() => live.current?.show(shown), [shown])
  return (
    <RibbonPicture geometry={shown.geometry}>
      <Shades geometry={shown.geometry} />
      <g ref={root} className="st-ribbons-drawn" />
    </RibbonPicture>
  )
}

function Shades({ geometry }: RibbonsProps) {
  return (
    <defs>
      {shadesOf(geometry).map(({ id, from, to, bands }) => (
        <linearGradient key={id} id={id} gradientUnits="userSpaceOnUse" x1={from} x2={to} y1={0} y2={0}>
          {bands.map((band, i) => (
            <stop key={band} offset={i} className={`st-ribbon-stop--${band}`} />
          ))}
        </linearGradient>
      ))}
    </defs>
  )
}
