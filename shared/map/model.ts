/** What a project looks like as a map: things in three bands, joined by what was carried. Plain values. */
import type { EntryKind, LinkNode, SourceKind } from '../lab/model.ts'

export const bands = ['sources', 'journal', 'procedure'] as const
export type MapBand = (typeof bands)[number]

export type MapKind =
  | SourceKind
  | EntryKind
  | 'step'
  | 'section'
  | 'procedure'
  /** Several things drawn as one. */
  | 'group'

/** A thing of the project that the map can show. */
export interface MapThing {
  /** Its own within the project: that of the source, entry, step or procedure. */
  readonly key: string
  /** Where going to it leads; null for a row without words. */
  readonly node: LinkNode | null
  readonly band: MapBand
  readonly kind: Exclude<MapKind, 'group'>
  /** What stands before its words: the number of a step; empty for none. */
  readonly title: string
  /** The words that it is called by: Markdown, but of a source plain. Read only for what is shown (`nameOfThing`). */
  readonly words: string
  /** The local day, `2026-11-14`; null for what has no time of its own. */
  readonly day: string | null
  readonly tags: readonly string[]
  /** The key of its procedure; null for sources and entries. */
  readonly procedure: string | null
  /** The groups that it lies in, from the widest to the narrowest. */
  readonly groups: readonly { readonly key: string; readonly name: string }[]
  readonly isWithdrawn: boolean
}

/** That one thing came from another, by one link. */
export interface MapRelation {
  readonly newer: string
  readonly older: string
  readonly isLoose: boolean
}

/** The things of a project in the order in which each band shows them, and how they are joined. */
export interface MapMatter {
  readonly things: readonly MapThing[]
  readonly relations: readonly MapRelation[]
  /** Links that lead to a thing of another project. */
  readonly outside: number
}

export interface MapFilter {
  /** First and last local day, both included; null for no bound. */
  readonly from: string | null
  readonly to: string | null
  readonly tag: string | null
  /** A procedure's key. */
  readonly procedure: string | null
}

export const noFilter: MapFilter = { from: null, to: null, tag: null, procedure: null }

/** One sign of the map: a thing, or a group of them. */
export interface MapNode {
  readonly key: string
  readonly band: MapBand
  readonly kind: MapKind
  readonly name: string
  readonly node: LinkNode | null
  /** The things that it stands for, in order. */
  readonly members: readonly string[]
  /** Links that begin or end at its things. */
  readonly uses: number
  /** Such links that are loose. */
  readonly loose: number
  /** How many of its things have no link at all. */
  readonly unused: number
  readonly isWithdrawn: boolean
  /** The opened group that it came out of; null where there is none. */
  readonly parent: string | null
}

/** All links that lead from the things of one sign to those of another. */
export interface MapEdge {
  readonly newer: string
  readonly older: string
  readonly links: number
  readonly loose: number
}

export interface MapGraph {
  readonly nodes: readonly MapNode[]
  readonly edges: readonly MapEdge[]
}
