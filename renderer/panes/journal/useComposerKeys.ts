/** Keys that lead to the composer from anywhere in the window. */
import { useEffect } from 'react'
import { unfoldPane } from '../../frame/index.ts'
import { kindOfKey } from '../../ui/index.ts'
import { isAltLetter } from '../../ui/keys.ts'
import type { ComposerModel } from './composerModel.ts'

export function useComposerKeys(model: ComposerModel): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      const kind = kindOfKey(event)
      if (!kind && !isAltLetter(event, 'J')) return
      // A question that must be answered first keeps the keyboard.
      if (document.querySelector('dialog:modal')) return
      event.preventDefault()
      if (kind) model.choose(kind)
      unfoldPane('journal')
      model.focus()
    }
    // Before anything else that listens: they lead here from every place.
    window.addEventListener('keydown', onKeyDown, true)
    return () => window.removeEventListener('keydown', onKeyDown, true)
  }, [model])
}
