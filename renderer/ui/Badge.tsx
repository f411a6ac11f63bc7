import type { ReactNode } from 'react'
import type { EntryKind, LinkType, StepPartKind } from '../../shared/lab/model.ts'
import { entryKindFaces, stepPartFaces } from './kinds.ts'

/** How a badge's border is drawn: a link's words still stand (solid), were reworded (dashed), or lost their place. */
export type BadgeLine = 'solid' | 'dashed' | 'dotted' | 'none'

export interface BadgeProps {
  readonly line?: BadgeLine
  readonly children: ReactNode
}

/** A small word about a thing. It does nothing when pressed; use a Button for that. */
export function Badge({ line = 'none', children }: BadgeProps) {
  return <span className={`st-badge st-badge--${line}`}>{children}</span>
}

const lineOf = {
  quotes: 'solid',
  derives: 'dashed',
  cites: 'dotted',
  revises: 'none',
  answers: 'none',
  follows: 'none',
} as const satisfies Record<LinkType, BadgeLine>

export interface LinkBadgeProps {
  readonly type: LinkType
  readonly isLoose?: boolean
  /** Words beside the type, for instance where it leads. */
  readonly children?: ReactNode
}

/** The type of a link, by word and by border. */
export function LinkBadge({ type, isLoose = false, children }: LinkBadgeProps) {
  return (
    <Badge line={isLoose ? 'dotted' : lineOf[type]}>
      {isLoose ? `${type}, loose` : type}
      {children === undefined ? null : <> {children}</>}
    </Badge>
  )
}

/** The kind of an entry, by icon, word and colour. */
export function KindTag({ kind }: { readonly kind: EntryKind }) {
  const { word, icon: Picture } = entryKindFaces[kind]
  return (
    <span className={`st-kind-tag st-kind--${kind}`}>
      <Picture />
      {word}
    </span>
  )
}

/** The label above a step's part. A caution may carry its signal word instead (ANSI Z535.6). */
export function PartLabel({ kind, word }: { readonly kind: StepPartKind; readonly word?: string }) {
  const face = stepPartFaces[kind]
  const Picture = face.icon
  return (
    <span className="st-part-label">
      <Picture />
      {word ?? face.word}
    </span>
  )
}
