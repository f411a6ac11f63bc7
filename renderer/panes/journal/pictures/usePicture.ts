import { useEffect, useReducer } from 'react'
import { useWorkspace, useWorkspaceState } from '../../../store/useWorkspace.ts'
import { pictureUrlsOf, type FoundPicture } from './pictureUrls.ts'

const next = (count: number): number => count + 1

/** A kept picture, once it is there and for as long as it is wanted; null until it was looked for. */
export function usePicture(sha256: string, isWanted: boolean): FoundPicture | null {
  const workspace = useWorkspace()
  const lab = useWorkspaceState((state) => state.lab)
  const [, redraw] = useReducer(next, 0)
  const [strikes, look] = useReducer(next, 0)
  useEffect(() => {
    if (!lab || !isWanted) return undefined
    let isOver = false
    const { found, release } = pictureUrlsOf(lab).take(sha256)
    void found.then(() => {
      if (!isOver) redraw()
    })
    return () => {
      isOver = true
      release()
    }
  }, [lab, sha256, isWanted, strikes])
  useEffect(
    () =>
      workspace.textsStruck.on(() => {
        if (lab) pictureUrlsOf(lab).forgetAll()
        look()
      }),
    [workspace, lab],
  )
  return lab && isWanted ? pictureUrlsOf(lab).findSettled(sha256) : null
}
