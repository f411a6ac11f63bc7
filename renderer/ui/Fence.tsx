/** A fenced block of Markdown, which something may show as more than its text. */
import type { Element as HastElement } from 'hast'
import { toString } from 'hast-util-to-string'
import { use, type ComponentProps, type ReactElement } from 'react'
import { FenceContext } from './fences.ts'

export function Fence({
  node,
  ...rest
}: ComponentProps<'pre'> & { readonly node?: HastElement }): ReactElement {
  const { dataFence, dataFenceFrom, dataFenceTo } = node?.properties ?? {}
  const Shown = use(FenceContext)[String(dataFence)]
  const text = <pre {...rest} />
  if (!node || !Shown) return text
  return (
    <Shown
      source={toString(node)}
      place={{ start: Number(dataFenceFrom), end: Number(dataFenceTo) }}
      isMarked={holdsMark(node)}
    >
      {text}
    </Shown>
  )
}

const holdsMark = (node: HastElement): boolean =>
  node.children.some((child) => child.type === 'element' && (child.tagName === 'mark' || holdsMark(child)))
