import { useLayoutEffect, useState } from 'react'
import type { FrameGeometry } from '../../renderer/frame/index.ts'

interface Pair {
  readonly from: string
  readonly to: string
  readonly gap: 0 | 1
  readonly look: string
}

const pairs: readonly Pair[] = [
  { from: 'source-1', to: 'entry-5', gap: 0, look: 'st-ribbon--to-sources' },
  { from: 'entry-5', to: 'part-4-do', gap: 1, look: 'st-ribbon--to-journal' },
  { from: 'source-2', to: 'entry-3', gap: 0, look: 'st-ribbon--to-sources st-ribbon--derives' },
  { from: 'entry-3', to: 'part-4-why', gap: 1, look: 'st-ribbon--to-journal st-ribbon--derives' },
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
  return pairs.map(({ from, to, gap, look }) => {
    const { left, right } = geometry.gaps[gap]
    const start = heights.get(from)
    const end = heights.get(to)
    if (start === undefined || end === undefined) return null
    const middle = (left + right) / 2
    return (
      <g key={from + to}>
        <path
          className={`st-ribbon ${look}`}
          d={`M${left} ${start} C${middle} ${start} ${middle} ${end} ${right} ${end}`}
        />
        <circle
          className={`st-ribbon-end st-ribbon-end--${gap === 0 ? 'sources' : 'journal'}`}
          cx={left}
          cy={start}
          r={3.5}
        />
        <circle
          className={`st-ribbon-end st-ribbon-end--${gap === 0 ? 'journal' : 'procedure'}`}
          cx={right}
          cy={end}
          r={3.5}
        />
      </g>
    )
  })
}
