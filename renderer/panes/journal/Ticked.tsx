/** Lets the boxes of task lists in an entry be ticked. Every tick is a mark of its own; the text stays. */
import { useMemo, type ReactNode } from 'react'
import { itemsOf } from '../../../shared/journal/ticks.ts'
import type { Entry, Piece } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { TicksContext, type TickBoxes } from '../../ui/ticks.tsx'
import { tick } from './entryMarks.ts'
import { useEntryMarks } from './useEntry.ts'

export interface TickedProps {
  readonly entry: Entry
  readonly text: string
  /** Null where nothing can be ticked. */
  readonly tabIndex: number | null
  readonly children: ReactNode
}

const noPieces: readonly Piece[] = []
/** Only texts with such a sign can hold a box; looking is cheaper than parsing. */
const hasBox = /\[[ xX]\]/

export function Ticked({ entry, text, tabIndex, children }: TickedProps): ReactNode {
  return tabIndex === null || !hasBox.test(text) ? (
    children
  ) : (
    <Boxes entry={entry} text={text} tabIndex={tabIndex}>
      {children}
    </Boxes>
  )
}

function Boxes({ entry, text, tabIndex, children }: TickedProps & { readonly tabIndex: number }) {
  const workspace = useWorkspace()
  const marks = useEntryMarks(entry.id)
  const pieces = useWorkspaceState(({ view }) => view?.pieces.get(entry.id) ?? noPieces)
  const boxes = useMemo((): TickBoxes => {
    const items = new Map(itemsOf(text, pieces, marks).map((item) => [item.range.start, item]))
    return {
      isTickedAt: (from) => items.get(from)?.isTicked,
      wordsAt: (from) => items.get(from)?.words ?? '',
      onTick: (from) => {
        const item = items.get(from)
        if (item) void tick(workspace, entry, item)
      },
      tabIndex,
    }
  }, [workspace, entry, text, pieces, marks, tabIndex])
  return <TicksContext value={boxes}>{children}</TicksContext>
}
