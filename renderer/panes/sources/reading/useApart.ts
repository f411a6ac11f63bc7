/** Asks a worker for something and keeps its answer while what was asked stays the same. */
import { useEffect, useState } from 'react'
import type { ReadingWork } from '../../../workers/reading.ts'

export type Asked<T> =
  { readonly kind: 'waiting' } | { readonly kind: 'broken' } | { readonly kind: 'here'; readonly value: T }

/**
 * @param begin begins the work; a new function asks anew. A late answer to an earlier question is dropped
 */
export function useApart<T>(begin: () => Promise<ReadingWork<T>>): Asked<T> {
  const [asked, setAsked] = useState<{ readonly by: unknown; readonly state: Asked<T> } | null>(null)
  useEffect(() => {
    let isOver = false
    let stop = (): void => undefined
    const tell = (state: Asked<T>): void => {
      if (!isOver) setAsked({ by: begin, state })
    }
    begin()
      .then((work) => {
        stop = () => work.stop()
        if (isOver) stop()
        return work.answer
      })
      .then(
        (value) => tell({ kind: 'here', value }),
        (error: unknown) => {
          console.error(error)
          tell({ kind: 'broken' })
        },
      )
    return () => {
      isOver = true
      stop()
    }
  }, [begin])
  return asked?.by === begin ? asked.state : { kind: 'waiting' }
}
