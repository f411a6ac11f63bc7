/** The source that is read, with all its captures and the text of one of them. */
import { useEffect, useMemo, useState } from 'react'
import type { CaptureId, SourceId } from '../../../shared/lab/ids.ts'
import type { Capture, CaptureHead, Source } from '../../../shared/lab/model.ts'
import { standingSource } from '../../store/labSources.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'

export interface Reading {
  readonly source: Source
  /** Those of the source and of all that were merged into it, the newest first. Empty for a link without text. */
  readonly captures: readonly CaptureHead[]
  /** The one that is shown; null for a link without text. */
  readonly capture: Capture | null
  /** The ids of the source and of all that were merged into it. */
  readonly all: readonly SourceId[]
}

export type ReadingState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'missing' }
  | { readonly kind: 'read'; readonly reading: Reading }

/**
 * Reads a source, also one that the open project does not use; for one that was merged into another, that other one.
 * @param wanted one of its captures; null for the newest
 */
export function useReading(id: SourceId, wanted: CaptureId | null): ReadingState {
  const sources = useWorkspaceState((state) => state.labSources?.sources)
  const heads = useWorkspaceState((state) => state.labSources?.heads)
  const known = sources?.get(id)
  const source = sources && known ? standingSource({ sources }, known) : null
  const all = useMemo(() => (sources && source ? mergedInto(sources, source) : []), [sources, source])
  const captures = useMemo(() => capturesOf(heads, all), [heads, all])
  const head = captures.find((one) => one.id === wanted) ?? captures[0] ?? null
  const capture = useCapture(head)
  if (!sources || !heads) return { kind: 'loading' }
  if (!source) return { kind: 'missing' }
  if (head && capture?.id !== head.id) return { kind: 'loading' }
  return { kind: 'read', reading: { source, captures, capture, all } }
}

function mergedInto(sources: ReadonlyMap<string, Source>, source: Source): SourceId[] {
  const merged = [...sources.values()].filter(
    (one) => one.mergedInto !== null && standingSource({ sources }, one).id === source.id,
  )
  return [source.id, ...merged.map(({ id }) => id)]
}

function capturesOf(
  heads: ReadonlyMap<string, CaptureHead> | undefined,
  all: readonly SourceId[],
): CaptureHead[] {
  const own = new Set<string>(all)
  // Ids grow with time.
  return [...(heads?.values() ?? [])]
    .filter(({ source }) => own.has(source))
    .sort((a, b) => (a.id < b.id ? 1 : -1))
}

/** A capture with its text. Read again when its head was read anew, since striking out may have rewritten it. */
function useCapture(head: CaptureHead | null): Capture | null {
  const lab = useWorkspaceState((state) => state.lab)
  const [capture, setCapture] = useState<Capture | null>(null)
  useEffect(() => {
    let isOver = false
    if (lab && head)
      void lab.queries.findCapture(head.id).then((found) => {
        // The text may stay where it is on the screen while it is the same.
        if (!isOver) setCapture((last) => (found && isSame(last, found) ? last : (found ?? null)))
      })
    return () => {
      isOver = true
    }
  }, [lab, head])
  return head && capture?.id === head.id ? capture : null
}

const isSame = (last: Capture | null, found: Capture): boolean =>
  last?.id === found.id && last.text === found.text && last.sha256 === found.sha256
