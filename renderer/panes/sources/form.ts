/** The form for adding a source by hand. What is typed in it is kept for the project until it is added or given up. */
import { useEffect, useState } from 'react'
import { useStore } from 'zustand'
import { titleOfWords } from '../../../shared/intake/text.ts'
import type { Source } from '../../../shared/lab/model.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { FormDraft, isBlank, noFields, type FormFields } from './formDraft.ts'
import { typedAddress } from './matter.ts'
import { unknownOf, type IntakeItem } from './intakeQueue.ts'
import { takeItems, toLinkItem } from './taking.ts'

/** Why the form cannot be added as it is; null where it can. */
export function maybeFormError(fields: FormFields): string | null {
  if (fields.address.trim() !== '' && typedAddress(fields.address) === null)
    return 'This is not a whole web address. Write it with http:// or https:// at its head.'
  if (fields.address.trim() === '' && fields.text.trim() === '')
    return 'Type an address, or paste a text below.'
  return null
}

/** The form, as the pane holds it. */
export interface SourceForm {
  readonly fields: FormFields
  readonly isOpen: boolean
  readonly isAdding: boolean
  readonly error: string | null
  change(fields: Partial<FormFields>): void
  open(): void
  /** Opens it for the text of a link; what was begun in it before stays. */
  openFor(link: Source): void
  close(): void
  /** Empties and closes it. */
  giveUp(): void
  add(): Promise<void>
}

export function useSourceForm(): SourceForm {
  const workspace = useWorkspace()
  const lab = useWorkspaceState((state) => state.lab)
  const project = useWorkspaceState((state) => state.view?.project)
  const [draft] = useState(() => new FormDraft(lab, `source form ${project ?? ''}`))
  const fields = useStore(draft.store)
  const [isOpen, setOpen] = useState(false)
  const [isAdding, setAdding] = useState(false)
  const [error, setError] = useState<string | null>(null)
  useEffect(() => {
    const stopFlushing = workspace.addFlush(() => draft.write())
    const stopListening = workspace.textsStruck.on(() => void draft.takeStruck())
    void draft.load().then((isFound) => isFound && setOpen(true))
    return () => {
      stopFlushing()
      stopListening()
      void draft.write()
    }
  }, [workspace, draft])
  const end = (): void => {
    draft.change(noFields)
    setError(null)
    setOpen(false)
  }
  return {
    fields,
    isOpen,
    isAdding,
    error,
    change(change) {
      draft.change({ ...fields, ...change })
      setError(null)
    },
    open: () => setOpen(true),
    openFor(link) {
      if (isBlank(fields) || fields.address === link.address)
        draft.change({ ...fields, address: link.address ?? '', title: fields.title || link.title })
      else workspace.say('notice', 'Another source was begun in the form. Add it or give it up first.')
      setOpen(true)
    },
    close: () => setOpen(false),
    giveUp: end,
    async add() {
      const wrong = maybeFormError(fields)
      setError(wrong)
      if (wrong !== null) return
      setAdding(true)
      const isKept = await addFields(workspace, fields).finally(() => setAdding(false))
      if (isKept) end()
    },
  }
}

/** @returns whether the lab has them now */
async function addFields(workspace: Workspace, fields: FormFields): Promise<boolean> {
  const { ends } = await takeItems(workspace, [itemOfFields(fields)])
  return ends.every(({ kind }) => kind !== 'failed' && kind !== 'cancelled')
}

function itemOfFields({ address: typed, title: named, text, html, wasPasted }: FormFields): IntakeItem {
  const address = typedAddress(typed)
  const title = named.trim() || null
  const wayIn = wasPasted ? 'pasted' : 'typed'
  if (text.trim() === '') return toLinkItem(address!, title, wayIn)
  const about = { ...unknownOf, wayIn, address } as const
  if (html === null) {
    const name = 'Typed text'
    return { ...about, name, task: { kind: 'text', name, text }, title: title ?? titleOfWords(text) }
  }
  const name = 'Pasted page'
  return { ...about, name, task: { kind: 'html', name, html, address }, title }
}
