import { useLayoutEffect, useState } from 'react'
import { RibbonPicture, type FrameGeometry } from '../../renderer/frame/index.ts'
import '../../renderer/ribbons/ribbons.css'

interface Pair {
  readonly from: string
  readonly to: string
  readonly gap: 0 | 1
  readonly look: 'quotes' | 'derives'
}

const pairs: readonly Pair[] = [
  { from: 'source-1', to: 'entry-5', gap: 0, look: 'quotes' },
  { from: 'entry-5', to: 'part-4-do', gap: 1, look: 'quotes' },
  { from: 'source-2', to: 'entry-3', gap: 0, look: 'derives' },
  { from: 'entry-3', to: 'part-4-why', gap: 1, look: 'derives' },
]

/** Ribbons of step 4, between the things that carry its names; the height is measured once. */
export function MockRibbons({ geometry }: { readonly geometry: FrameGeometry }) {
  const [heights, setHeights] = useState<ReadonlyMap<string, number>>(new Map())
  useLayoutEffect(() => {
    const frame = document.querySelector('.st-frame')?.getBoundingClientRect().top ?? 0
    const found = [...document.querySelectorAll<HTMLElement>('[data-end]')].map(
      (element): [string, number] => {
        const body = element.closest('.st-pane-body')!.getBoundingClientRect()
        const box = element.getBoundingClientRect()
        const middle = box.top + Math.min(box.height / 2, 22)
        return [element.dataset['end']!, Math.max(body.top + 6, Math.min(middle, body.bottom - 6)) - frame]
      },
    )
    setHeights(new Map(found))
  }, [geometry.width, geometry.height])
  const drawn = pairs.map(({ from, to, gap, look }) => {
    const { left, right } = geometry.gaps[gap]
    const start = heights.get(from)
    const end = heights.get(to)
    if (start === undefined || end === undefined) return null
    const middle = (left + right) / 2
    return (
      <g
        key={from + to}
        className={`st-ribbon st-ribbon--${look}`}
        stroke={`var(--accent-${gap === 0 ? 'sources' : 'journal'})`}
      >
        <path
          className="st-ribbon-line"
          strokeWidth={1.75}
          d={`M${left + 5} ${start} C${middle} ${start} ${middle} ${end} ${right - 5} ${end}`}
        />
        <path className="st-ribbon-marks" d={`M${left + 4} ${start - 9} v18 M${right - 4} ${end - 9} v18`} />
      </g>
    )
  })
  return <RibbonPicture geometry={geometry}>{drawn}</RibbonPicture>
}
