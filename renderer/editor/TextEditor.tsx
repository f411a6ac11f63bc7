/** A text that is being typed: CodeMirror on one side, a TextSession on the other. */
import { Annotation, EditorState, Transaction, type ChangeSet, type Extension } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import { useEffect, useRef, useState } from 'react'
import type { Fragment } from '../../shared/distil/fragment.ts'
import type { Range, TextNode } from '../../shared/lab/model.ts'
import { redo, undo } from '../store/gestures.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import { arriving, forgetHistory, leaving, showMarks, typingExtensions } from './extensions.ts'
import { TextSession, type SessionState } from './textSession.ts'

export interface TextEditorProps {
  readonly node: TextNode
  /** What the text is, for those who do not see the screen: "Do of step 3". */
  readonly label: string
  readonly hint?: string
  readonly autoFocus?: boolean
  /** An amendment is cut only when the person says so; a part of a procedure by itself. */
  readonly cutsByItself?: boolean
  readonly marks?: readonly Range[]
  readonly keys?: Extension
  /** A fragment was dropped or pasted at an offset of the text. Left out where none may land. */
  readonly onArrive?: (fragment: Fragment, offset: number, way: 'drag' | 'copy') => void
  /** The fragment for ranges of this text, for carrying it elsewhere. */
  readonly pick?: (ranges: readonly Range[], text: string) => Fragment | null
  readonly onBlur?: () => void
  /** Gives the running session and view to whoever needs them, null at the end. */
  readonly onOpen?: (opened: { readonly session: TextSession; readonly view: EditorView } | null) => void
  /** The text went out of use in another window. */
  readonly onGone?: () => void
}

/** Marks transactions that came from the session and so are not told to it. */
const fromSession = Annotation.define<boolean>()

export function TextEditor(props: TextEditorProps) {
  const workspace = useWorkspace()
  const parent = useRef<HTMLDivElement>(null)
  const latest = useRef(props)
  const waiting = useRef<HTMLTextAreaElement>(null)
  const leavesAtOnce = useRef(false)
  const [view, setView] = useState<EditorView | null>(null)
  useEffect(() => {
    latest.current = props
  })
  const { id, kind } = props.node
  useEffect(() => {
    let isOver = false
    let close = (): void => undefined
    const node = { id, kind } as TextNode
    void openEditor(workspace, node, parent.current!, latest).then((opened) => {
      if (!opened) return latest.current.onGone?.()
      if (isOver) return opened.close()
      close = opened.close
      takeEarlyKeys(opened.view, waiting.current)
      setView(opened.view)
      latest.current.onOpen?.(opened)
      // Escape was pressed before there was an editor to hear it: it is heard now.
      if (leavesAtOnce.current) pressEscape(opened.view)
    })
    return () => {
      isOver = true
      latest.current.onOpen?.(null)
      close()
    }
  }, [workspace, id, kind])
  const { marks } = props
  useEffect(() => {
    if (view && marks) showMarks(view, marks)
  }, [view, marks])
  const takesKeysNow = props.autoFocus === true && view === null
  return (
    <div ref={parent} className="st-editor" data-node={id}>
      {takesKeysNow ? (
        <textarea
          ref={waiting}
          className="st-unseen"
          aria-label={props.label}
          autoFocus
          onKeyDown={(event) => {
            if (event.key === 'Escape') leavesAtOnce.current = true
          }}
        />
      ) : null}
    </div>
  )
}

/** What was typed while the text was being opened joins it at the end, where the cursor will be. */
function takeEarlyKeys(view: EditorView, waiting: HTMLTextAreaElement | null): void {
  const typed = waiting?.value ?? ''
  if (waiting) waiting.value = ''
  if (typed !== '') view.dispatch(view.state.replaceSelection(typed))
}

function pressEscape(view: EditorView): void {
  view.contentDOM.dispatchEvent(
    new KeyboardEvent('keydown', {
      key: 'Escape',
      code: 'Escape',
      keyCode: 27,
      bubbles: true,
      cancelable: true,
    }),
  )
}

interface OpenedEditor {
  readonly session: TextSession
  readonly view: EditorView
  readonly close: () => void
}

type Latest = { readonly current: TextEditorProps }

async function openEditor(
  workspace: Workspace,
  node: TextNode,
  parent: HTMLElement,
  latest: Latest,
): Promise<OpenedEditor | null> {
  let view: EditorView | null = null
  const listener = {
    onRemote: (changes: ChangeSet) =>
      view?.dispatch({ changes, annotations: [fromSession.of(true), Transaction.addToHistory.of(false)] }),
    onState: (state: SessionState) => tellState(workspace, node, latest, state),
    onCut: () => {
      if (view) forgetHistory(view)
    },
  }
  const { cutsByItself = true } = latest.current
  const session = await TextSession.open(
    workspace.requireLab(),
    node,
    { window: workspace.window, cutsByItself },
    listener,
  )
  if (!session) return null
  view = new EditorView({
    parent,
    state: EditorState.create({ doc: session.text, extensions: extensionsFor(workspace, latest, session) }),
  })
  const removeSession = workspace.addSession(session)
  if (latest.current.autoFocus) focusAtEnd(view)
  const close = (): void => {
    view?.destroy()
    void session.close().finally(() => {
      removeSession()
      workspace.setUnsaved(node.id, null)
    })
  }
  return { session, view, close }
}

function extensionsFor(workspace: Workspace, latest: Latest, session: TextSession): Extension {
  const { label, hint = '', keys = [] } = latest.current
  const program = { undo: () => void undo(workspace), redo: () => void redo(workspace) }
  return [
    typingExtensions(label, hint, program, keys),
    arriving({
      onArrive: (fragment, offset, way) => {
        const { onArrive, node } = latest.current
        // Words copied within one text are its own words still; they came from nowhere else.
        if (fragment.node.id === node.id) return false
        onArrive?.(fragment, offset, way)
        return onArrive !== undefined
      },
    }),
    leaving({
      pick: (ranges) => latest.current.pick?.(ranges, session.text) ?? null,
      onDragStart: (dragging) => workspace.set({ dragging }),
      onDragEnd: () => workspace.set({ dragging: null }),
    }),
    EditorView.updateListener.of((update) => {
      for (const transaction of update.transactions)
        if (transaction.docChanged && !transaction.annotation(fromSession)) session.type(transaction.changes)
    }),
    EditorView.domEventHandlers({ blur: () => void latest.current.onBlur?.() }),
  ]
}

function focusAtEnd(view: EditorView): void {
  view.focus()
  view.dispatch({ selection: { anchor: view.state.doc.length }, scrollIntoView: true })
}

function tellState(workspace: Workspace, node: TextNode, latest: Latest, state: SessionState): void {
  if (state.kind === 'unsaved') workspace.setUnsaved(node.id, state.sentence)
  else if (workspace.state.unsaved.has(node.id)) workspace.setUnsaved(node.id, null)
  if (state.kind === 'gone') latest.current.onGone?.()
}
