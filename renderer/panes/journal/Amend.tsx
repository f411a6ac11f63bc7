/** An entry while it is being amended, in its own place. What stood before stays readable. */
import { Prec } from '@codemirror/state'
import { keymap, type EditorView } from '@codemirror/view'
import { useEffect, useMemo, useRef, useState, type ReactNode } from 'react'
import { wordsOfFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import type { Entry } from '../../../shared/lab/model.ts'
import { TextEditor } from '../../editor/TextEditor.tsx'
import type { TextSession } from '../../editor/textSession.ts'
import { useWorkspace, useWorkspaceState } from '../../store/useWorkspace.ts'
import { Button, Kbd } from '../../ui/index.ts'
import { isTypingOutside } from '../typing.ts'
import { pictureChips } from './pictures/pictureChips.ts'
import { focusEntry, setIn, type JournalStore } from './journalState.ts'

export interface AmendProps {
  readonly entry: Entry
  readonly store: JournalStore
}

export function Amend({ entry, store }: AmendProps): ReactNode {
  const workspace = useWorkspace()
  const session = useRef<TextSession | null>(null)
  const view = useRef<EditorView | null>(null)
  const root = useRef<HTMLDivElement>(null)
  const [isSure, setSure] = useState(false)
  // An amendment that was brought back at the start takes no focus.
  const [wasAsked] = useState(() => store.getState().asked === entry.id)
  useEffect(() => store.setState({ asked: null }), [store])
  const unsaved = useWorkspaceState((state) => state.unsaved.get(entry.id))
  const acts = useMemo(() => {
    const close = (): void => {
      // Saving takes a moment; who has begun to type elsewhere meanwhile is left there.
      const isElsewhere = root.current !== null && isTypingOutside(root.current)
      setIn(store, 'amending', entry.id, false)
      if (!isElsewhere) focusEntry(store, entry.id)
    }
    const save = async (): Promise<void> => {
      await session.current?.cut()
      if (session.current?.hasUnsaved) return
      await workspace.catchUp()
      close()
    }
    const cancel = async (isSureNow: boolean): Promise<void> => {
      if (session.current?.hasUnsaved && !isSureNow) return setSure(true)
      await session.current?.discard()
      close()
    }
    return { save, cancel }
  }, [entry.id, store, workspace])
  const sure = useRef(isSure)
  useEffect(() => {
    sure.current = isSure
  }, [isSure])
  const keys = useMemo(
    () => [
      Prec.highest(
        keymap.of([
          { key: 'Mod-Enter', run: () => (void acts.save(), true) },
          { key: 'Escape', run: () => (void acts.cancel(sure.current), true) },
        ]),
      ),
      pictureChips(() => workspace.requireLab()),
    ],
    [acts, workspace],
  )
  return (
    <div ref={root} className="st-amend">
      <div className={`st-amend-text st-kind--${entry.kind}`}>
        <TextEditor
          node={{ kind: 'entry', id: entry.id }}
          label={`Amendment of ${entry.kind}`}
          autoFocus={wasAsked}
          cutsByItself={false}
          keys={keys}
          onOpen={(opened) => {
            session.current = opened?.session ?? null
            view.current = opened?.view ?? null
          }}
          onArrive={(fragment, offset, way) =>
            view.current && insertWords(view.current, fragment, offset, way)
          }
        />
      </div>
      <div className="st-amend-foot">
        <p className="st-amend-words" role="status">
          {unsaved ??
            (isSure
              ? 'Cancel once more, and what you changed here is gone.'
              : 'What stood before stays readable.')}
        </p>
        <span className="st-button-row">
          <Button keys="Escape" onClick={() => void acts.cancel(isSure)}>
            Cancel
          </Button>
          <Button look="strong" onClick={() => void acts.save()}>
            Save
          </Button>
          <Kbd keys="Ctrl+Enter" />
        </span>
      </div>
    </div>
  )
}

/** An entry says what its writer says: words that arrive in an amendment are plain words, without a link. */
function insertWords(view: EditorView, fragment: Fragment, offset: number, way: 'drag' | 'copy'): void {
  const { from, to } = view.state.selection.main
  const place = way === 'copy' ? { from, to } : { from: offset, to: offset }
  const insert = view.state.toText(wordsOfFragment(fragment))
  view.dispatch({ changes: { ...place, insert }, selection: { anchor: place.from + insert.length } })
  view.focus()
}
