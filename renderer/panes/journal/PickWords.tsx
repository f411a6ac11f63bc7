/** An entry's Markdown in a reading editor, so that words can be picked by keyboard alone. */
import { EditorState, Prec } from '@codemirror/state'
import { EditorView, keymap } from '@codemirror/view'
import { useEffect, useRef } from 'react'
import type { Entry } from '../../../shared/lab/model.ts'
import { leaving, readingExtensions, selectedRanges } from '../../editor/extensions.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button } from '../../ui/index.ts'
import { CarryIcon, StrikeOutIcon } from '../../ui/icons.tsx'
import { fragmentOfEntry } from './entryFragment.ts'
import { focusEntry, setIn, type JournalStore } from './journalState.ts'

export interface PickWordsProps {
  readonly entry: Entry
  readonly store: JournalStore
  readonly text: string
}

export function PickWords({ entry, store, text }: PickWordsProps) {
  const workspace = useWorkspace()
  const parent = useRef<HTMLDivElement>(null)
  const view = useRef<EditorView | null>(null)
  useEffect(() => {
    const opened = openPicker(workspace, entry, store, text, parent.current!)
    view.current = opened
    return () => opened.destroy()
  }, [workspace, entry, store, text])
  return (
    <div className="st-amend">
      <div ref={parent} className={`st-amend-text st-kind--${entry.kind}`} />
      <div className="st-amend-foot">
        <p className="st-amend-words">Select with Shift and the arrow keys, then carry or strike out.</p>
        <span className="st-button-row">
          <Button keys="Escape" onClick={() => close(store, entry)}>
            Done
          </Button>
          <Button
            look="quiet"
            icon={StrikeOutIcon}
            onClick={() => view.current && strike(workspace, entry, store, view.current)}
          >
            Strike out…
          </Button>
          <Button
            look="strong"
            icon={CarryIcon}
            keys="Alt+C"
            onClick={() => view.current && carry(workspace, entry, view.current)}
          >
            Carry…
          </Button>
        </span>
      </div>
    </div>
  )
}

const NOTHING_SELECTED = 'Select some words first, with Shift and the arrow keys.'

function close(store: JournalStore, { id }: Entry): void {
  setIn(store, 'picking', id, false)
  focusEntry(store, id)
}

function carry(workspace: Workspace, entry: Entry, view: EditorView): void {
  const carrying = fragmentOfEntry(workspace, entry, view.state.doc.toString(), selectedRanges(view))
  if (carrying) workspace.set({ carrying })
  else workspace.say('notice', NOTHING_SELECTED)
}

function strike(workspace: Workspace, { id }: Entry, store: JournalStore, view: EditorView): void {
  const [range] = selectedRanges(view)
  if (!range) return workspace.say('notice', NOTHING_SELECTED)
  store.setState({ striking: { id, text: view.state.sliceDoc(range.start, range.end) } })
}

function openPicker(
  workspace: Workspace,
  entry: Entry,
  store: JournalStore,
  text: string,
  parent: HTMLElement,
): EditorView {
  const keys = keymap.of([
    { key: 'Alt-c', run: (shown) => (carry(workspace, entry, shown), true) },
    { key: 'Escape', run: () => (close(store, entry), true) },
  ])
  const extensions = [
    Prec.highest(keys),
    readingExtensions(`Words of ${entry.kind}`),
    leaving({
      pick: (ranges) => fragmentOfEntry(workspace, entry, text, ranges),
      onDragStart: (dragging) => {
        store.setState({ dragged: entry.id })
        workspace.set({ dragging })
      },
      onDragEnd: () => {
        store.setState({ dragged: null })
        workspace.set({ dragging: null })
      },
    }),
  ]
  const view = new EditorView({ parent, state: EditorState.create({ doc: text, extensions }) })
  view.focus()
  return view
}
