/** What can be done with several chosen rows, above the list while there are some. */
import type { ReactNode } from 'react'
import type { ProcedureId } from '../../../shared/lab/ids.ts'
import type { Step } from '../../../shared/lab/model.ts'
import { neighbourOfRows } from '../../../shared/procedure/rows/order.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { CloseIcon, MoveDownIcon, MoveUpIcon, RemoveIcon } from '../../ui/icons.tsx'
import { movePicked, pickNone, removePicked, wordsOfRows } from './picked.ts'

interface PickedRowsProps {
  readonly procedure: ProcedureId
  readonly steps: readonly Step[]
  readonly rows: readonly Step[]
}

export function PickedRows({ procedure, steps, rows }: PickedRowsProps): ReactNode {
  const workspace = useWorkspace()
  if (rows.length === 0) return null
  const isEnd = (by: -1 | 1): boolean => neighbourOfRows(steps, rows, by) === undefined
  return (
    <div className="st-picked-rows" role="group" aria-label="The chosen rows">
      <span className="st-picked-words">{wordsOfRows(steps, rows)}</span>
      <span className="st-button-row">
        <Button
          look="quiet"
          icon={MoveUpIcon}
          keys="Alt+ArrowUp"
          aria-disabled={isEnd(-1)}
          onClick={() => void movePicked(workspace, procedure, -1)}
        >
          Move up
        </Button>
        <Button
          look="quiet"
          icon={MoveDownIcon}
          keys="Alt+ArrowDown"
          aria-disabled={isEnd(1)}
          onClick={() => void movePicked(workspace, procedure, 1)}
        >
          Move down
        </Button>
        <Button
          look="quiet"
          icon={RemoveIcon}
          keys="Delete"
          onClick={() => void removePicked(workspace, procedure)}
        >
          Remove
        </Button>
        <Button look="quiet" icon={CloseIcon} label="Choose none of them" keys="Escape" onClick={pickNone} />
      </span>
    </div>
  )
}
