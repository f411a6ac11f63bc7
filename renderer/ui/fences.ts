/** Fenced blocks that are shown as something other than their text, by the language that they name. */
import { createContext, type ComponentType, type ReactNode } from 'react'
import type { Range } from '../../shared/lab/model.ts'

export interface FenceProps {
  /** What stands between the fences. */
  readonly source: string
  /** Where the whole block stands in the Markdown, fences included. */
  readonly place: Range
  /** Whether words of it are marked. */
  readonly isMarked: boolean
  /** The block as text, with the marks on it. */
  readonly children: ReactNode
}

/** Provided by the screen; without it every block is shown as text. */
export const FenceContext = createContext<Readonly<Record<string, ComponentType<FenceProps>>>>({})
