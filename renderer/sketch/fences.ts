/** The blocks of Markdown that are drawn. */
import type { ComponentType } from 'react'
import type { FenceProps } from '../ui/fences.ts'
import { Sketch } from './Sketch.tsx'

export const drawnFences: Readonly<Record<string, ComponentType<FenceProps>>> = { mermaid: Sketch }
