/** Whether Markdown's marks stand in a text that is typed, as the person likes; kept for the lab. */
import { useEffect } from 'react'
import { useWorkspaceState } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { setPane, type MarksShow } from './paneStore.ts'

const MARKS_SHOW = 'marks in the texts of procedures'

/** Takes over what was kept. */
export function useKeptMarks(): void {
  const lab = useWorkspaceState((state) => state.lab)
  useEffect(() => {
    void lab?.findSetting(MARKS_SHOW).then((kept) => {
      setPane({ marksShow: kept === 'always' ? 'always' : 'at the cursor' })
    })
  }, [lab])
}

/** The next text that is opened shows its marks so. */
export function keepMarks(workspace: Workspace, marksShow: MarksShow): void {
  setPane({ marksShow })
  void workspace.requireLab().keepSetting(MARKS_SHOW, marksShow)
}
