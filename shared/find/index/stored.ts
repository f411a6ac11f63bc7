/**
 * The index as it is kept between starts: a head that changes with every Change, and segments that are written once. A Change
 * writes one small segment and the head; the large segments are not touched.
 */
import type { Bits } from './bits.ts'
import type { LabIndex } from './lab-index.ts'
import { isSegment, Segment, SEGMENT_FORMAT } from './segment.ts'

/** A plain value that structured cloning keeps. */
export interface StoredHead {
  readonly format: number
  readonly sequence: number
  readonly nextName: number
  readonly segments: readonly { readonly name: number; readonly gone: Bits | null; readonly left: number }[]
}

/** What is written so that the index is kept. Segments that the head does not name are not needed any more. */
export interface StoredStep {
  readonly head: StoredHead
  readonly put: readonly { readonly name: number; readonly bytes: Uint8Array }[]
}

/** What has to be written after the index was last kept. @param kept as it was then; `emptyIndex` for never */
export function toStored(kept: LabIndex, index: LabIndex): StoredStep {
  const before = new Set(kept.segments.map(({ name }) => name))
  return {
    head: {
      format: SEGMENT_FORMAT,
      sequence: index.sequence,
      nextName: index.nextName,
      segments: index.segments.map(({ name, gone, left }) => ({ name, gone, left })),
    },
    put: index.segments
      .filter(({ name }) => !before.has(name))
      .map(({ name, segment }) => ({ name, bytes: segment.bytes })),
  }
}

/**
 * The index as it was kept.
 *
 * @param head null where none was found
 * @param segments by name, as they were found
 * @returns null where something is missing, of another format or damaged: the index is then built anew
 */
export function fromStored(
  head: StoredHead | null,
  segments: ReadonlyMap<number, Uint8Array>,
): LabIndex | null {
  if (head?.format !== SEGMENT_FORMAT) return null
  const live = []
  let [documents, weight] = [0, 0]
  for (const { name, gone, left } of head.segments) {
    const bytes = segments.get(name)
    if (!bytes || !isSegment(bytes)) return null
    const segment = new Segment(bytes)
    live.push({ name, segment, gone, left })
    documents += left
    for (let at = 0; at < segment.length; at++)
      if (gone === null || (gone[at >> 3]! & (1 << (at & 7))) === 0) weight += segment.weights[at]!
  }
  return { segments: live, nextName: head.nextName, documents, weight, sequence: head.sequence }
}
