/** The source that is read, with the text of one of its captures. */
import { useEffect, useState } from 'react'
import type { CaptureId, SourceId } from '../../../shared/lab/ids.ts'
import type { Capture, Source } from '../../../shared/lab/model.ts'
import type { OpenLab } from '../../db/lab.ts'
import { useWorkspaceState } from '../../store/useWorkspace.ts'

export interface Reading {
  readonly source: Source
  /** null for a link without text. */
  readonly capture: Capture | null
  /** The newest capture's id, which may be another than that which is shown. */
  readonly newest: CaptureId | null
}

export type ReadingState =
  | { readonly kind: 'loading' }
  | { readonly kind: 'missing' }
  | { readonly kind: 'read'; readonly reading: Reading }

/**
 * Reads a source, also one that the open project does not use. Read again when the project was read anew, since striking
 * out may have rewritten its text.
 * @param wanted one of its captures; null for the newest
 */
export function useReading(id: SourceId, wanted: CaptureId | null): ReadingState {
  const lab = useWorkspaceState((state) => state.lab)
  const known = useWorkspaceState((state) => state.view?.sources.get(id))
  const captures = useWorkspaceState((state) => state.view?.captures)
  const heads = [...(captures?.values() ?? [])].filter((head) => head.source === id)
  const head =
    heads.find((one) => one.id === wanted) ??
    heads.reduce<(typeof heads)[number] | null>((last, one) => (last && last.id > one.id ? last : one), null)
  const [state, setState] = useState<ReadingState>({ kind: 'loading' })
  useEffect(() => {
    let isOver = false
    if (lab)
      void read(lab, id, wanted).then((next) => {
        if (!isOver) setState((last) => (isSameReading(last, next) ? last : next))
      })
    return () => {
      isOver = true
    }
    // The head is a new object only when the capture is new or the project was read anew.
  }, [lab, id, wanted, head])
  if (state.kind !== 'read' || state.reading.source.id !== id)
    return state.kind === 'missing' ? state : { kind: 'loading' }
  return known && known !== state.reading.source
    ? { kind: 'read', reading: { ...state.reading, source: known } }
    : state
}

async function read(lab: OpenLab, id: SourceId, wanted: CaptureId | null): Promise<ReadingState> {
  const source = await lab.queries.findSource(id)
  if (!source) return { kind: 'missing' }
  const newest = (await lab.queries.findNewestCapture(id)) ?? null
  const named = wanted !== null && wanted !== newest?.id ? await lab.queries.findCapture(wanted) : undefined
  return { kind: 'read', reading: { source, capture: named ?? newest, newest: newest?.id ?? null } }
}

/** Whether the text may stay where it is on the screen. */
function isSameReading(a: ReadingState, b: ReadingState): boolean {
  if (a.kind !== 'read' || b.kind !== 'read') return a.kind === b.kind
  return (
    a.reading.source.id === b.reading.source.id &&
    a.reading.newest === b.reading.newest &&
    a.reading.capture?.id === b.reading.capture?.id &&
    a.reading.capture?.text === b.reading.capture?.text
  )
}
