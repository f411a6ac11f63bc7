/** What is cut, above the list, with the ways that no row offers. */
import type { ReactNode } from 'react'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { Button } from '../../ui/index.ts'
import { CloseIcon } from '../../ui/icons.tsx'
import { callOffCut, wordsOfCut } from './cutting.ts'
import { usePane } from './paneStore.ts'

/** Drawn anew with the list, whose numbers it tells. */
export function CutBar(): ReactNode {
  const workspace = useWorkspace()
  const cut = usePane((state) => state.cut)
  const words = cut && wordsOfCut(workspace)
  if (!cut || words === null) return null
  const where = cut.kind === 'part' ? 'at the step that it goes into' : 'at the row that it goes behind'
  return (
    <div className="st-picked-rows st-cut-bar" role="group" aria-label="What is cut">
      <span className="st-picked-words">
        {words} cut. Press Ctrl+V {where}, or choose “Put here” in its menu.
      </span>
      <span className="st-button-row">
        <Button
          look="quiet"
          icon={CloseIcon}
          label="Leave it where it is"
          keys="Escape"
          onClick={callOffCut}
        />
      </span>
    </div>
  )
}
