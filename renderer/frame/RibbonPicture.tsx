import type { ReactNode } from 'react'
import type { FrameGeometry } from './geometry.ts'

export interface RibbonPictureProps {
  readonly geometry: FrameGeometry
  readonly children: ReactNode
}

/** The picture over the whole frame, in its pixels, that ribbons are drawn in. It takes no pointer. */
export function RibbonPicture({ geometry: { width, height }, children }: RibbonPictureProps) {
  return (
    <svg className="st-ribbons" aria-hidden="true" width={width} height={height}>
      {children}
    </svg>
  )
}
