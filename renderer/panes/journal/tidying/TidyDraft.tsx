/** Tidying what is being typed in the composer: one step of its own undo. */
import { useState, type ReactNode } from 'react'
import type { ComposerModel } from '../composerModel.ts'
import { TidyPanel } from './TidyPanel.tsx'
import { toChanges } from './proposals.ts'

export interface TidyDraftProps {
  readonly model: ComposerModel
  readonly onClose: () => void
}

export function TidyDraft({ model, onClose }: TidyDraftProps): ReactNode {
  const [text, setText] = useState(model.text)
  const [notice, setNotice] = useState<string | null>(null)
  const close = (): void => {
    onClose()
    model.focus()
  }
  return (
    <TidyPanel
      text={text}
      promise="Undo brings back what stands now."
      notice={notice}
      onLeave={close}
      onTake={(replacements) => {
        if (model.change(text, toChanges(replacements, text.length))) return close()
        // The entry was written meanwhile.
        if (model.text.trim() === '') return close()
        setText(model.text)
        setNotice('You typed meanwhile, so nothing was tidied yet. This is what tidying would do now.')
      }}
    />
  )
}
