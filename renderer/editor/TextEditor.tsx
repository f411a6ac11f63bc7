/** A text that is being typed: CodeMirror on one side, a TextSession on the other. */
import { Annotation, EditorState, Transaction, type ChangeSet, type Extension } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import { useEffect, useLayoutEffect, useRef, useState } from 'react'
import type { Fragment } from '../../shared/distil/fragment.ts'
import type { Range, TextNode } from '../../shared/lab/model.ts'
import { redo, undo } from '../store/gestures.ts'
import { useWorkspace } from '../store/useWorkspace.ts'
import type { Workspace } from '../store/workspace.ts'
import type { CutWords } from '../../shared/procedure/moving/cut.ts'
import { movingWords } from './cutting.ts'
import { leaveToNext, maybeLeft } from './drawnAnew.ts'
import { EarlyKeys } from './earlyKeys.ts'
import { arriving, forgetHistory, leaving, showMarks, typingExtensions } from './extensions.ts'
import { giveBack } from './givingBack.ts'
import { TextSession, type SessionState } from './textSession.ts'

export interface TextEditorProps {
  readonly node: TextNode
  /** What the text is, for those who do not see the screen: "Do of step 3". */
  readonly label: string
  readonly hint?: string
  /** Whether Enter is no line end of the text but has a meaning in `keys`. */
  readonly isOneLine?: boolean
  readonly autoFocus?: boolean
  /** An amendment is cut only when the person says so; a part of a procedure by itself. */
  readonly cutsByItself?: boolean
  readonly marks?: readonly Range[]
  readonly keys?: Extension
  /** A fragment was dropped or pasted at an offset of the text. Left out where none may land. */
  readonly onArrive?: (fragment: Fragment, offset: number, way: 'drag' | 'copy') => void
  /** Whether a fragment may land with its link; else its bare words go the way of any text. All may where left out. */
  readonly takes?: (fragment: Fragment) => boolean
  /** The fragment for ranges of this text, for carrying it elsewhere. */
  readonly pick?: (ranges: readonly Range[], text: string) => Fragment | null
  /** How words are cut out and put in with all that is linked to them. Left out where they go as bare words. */
  readonly moving?: MovingWords
  readonly onBlur?: () => void
  /** Gives the running session and view to whoever needs them, null at the end. */
  readonly onOpen?: (opened: { readonly session: TextSession; readonly view: EditorView } | null) => void
  /** The text went out of use in another window. */
  readonly onGone?: () => void
}

/** How cut words leave a text and come into it. */
export interface MovingWords {
  readonly cut: (range: Range, session: TextSession) => CutWords | null
  readonly takes: (cut: CutWords) => boolean
  readonly onArrive: (cut: CutWords, offset: number) => void
}

/** Marks transactions that came from the session and so are not told to it. */
const fromSession = Annotation.define<boolean>()

export function TextEditor(props: TextEditorProps) {
  const workspace = useWorkspace()
  const parent = useRef<HTMLDivElement>(null)
  const latest = useRef(props)
  const early = useRef<EarlyKeys | null>(null)
  /** What takes the keys at this moment. */
  const taker = useRef<EarlyKeys | EditorView | null>(null)
  const [view, setView] = useState<EditorView | null>(null)
  useEffect(() => {
    latest.current = props
  })
  const { id, kind } = props.node
  // Before the page is drawn, so that no key falls between what was there and the editor.
  useLayoutEffect(() => {
    const { autoFocus, label, isOneLine = false } = latest.current
    const left = maybeLeft(id)
    if (autoFocus) {
      const standing = left instanceof EarlyKeys ? undefined : left
      const text = workspace.state.view?.texts.get(id) ?? ''
      early.current =
        EarlyKeys.maybeFor(id) ??
        (left instanceof EarlyKeys
          ? left.moveTo(parent.current!)
          : new EarlyKeys(parent.current!, { label, text, isOneLine, ...standing }, (words) =>
              giveBack(workspace, words),
            ))
    }
    return () => {
      const from = taker.current
      if (from instanceof EarlyKeys) leaveToNext(id, from)
      else if (from)
        leaveToNext(id, { text: from.state.doc.toString(), selection: from.state.selection.main })
    }
  }, [workspace, id])
  useEffect(() => {
    let isOver = false
    let close = (): void => undefined
    const node = { id, kind } as TextNode
    const keys = early.current
    const turn = keys?.turn
    early.current = null
    taker.current = keys
    // Drawn anew at another place, the text takes the keys along.
    const haveGone = (): boolean => keys?.turn !== turn
    const endKeys = (): void => {
      if (!haveGone()) keys?.end()
    }
    const take = (opened: OpenedEditor): void => {
      if (haveGone()) return opened.close()
      // Who has gone on to something else meanwhile stays there; the text has the keys all the same.
      const isHere = keys !== null && !keys.isLeft
      if (isHere && !isOver) opened.view.focus()
      keys?.handOver(opened.view)
      endKeys()
      if (isOver) return opened.close()
      close = opened.close
      taker.current = opened.view
      setView(opened.view)
      latest.current.onOpen?.(opened)
      if (isHere) keys.pressHeld(opened.view)
      else if (keys) latest.current.onBlur?.()
    }
    void openEditor(workspace, node, parent.current!, latest)
      .catch((error: unknown) => {
        endKeys()
        throw error
      })
      .then((opened) => {
        if (opened) return take(opened)
        endKeys()
        latest.current.onGone?.()
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
  return <div ref={parent} className="st-editor" data-node={id} />
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
  // A fragment that was pasted comes back as a change of the text, a moment later. The cursor goes behind it then.
  const pasting = { isAwaited: false }
  const listener = {
    onRemote: (changes: ChangeSet) => {
      const annotations = [fromSession.of(true), Transaction.addToHistory.of(false)]
      const selection = pasting.isAwaited ? view?.state.selection.map(changes, 1) : undefined
      pasting.isAwaited = false
      view?.dispatch({ changes, annotations, ...(selection ? { selection } : {}) })
    },
    onState: (state: SessionState) => tellState(workspace, node, latest, state),
    onCut: () => {
      if (view) forgetHistory(view)
    },
  }
  const { cutsByItself = true } = latest.current
  await workspace.settleText(node.id)
  const session = await TextSession.open(
    workspace.requireLab(),
    node,
    { window: workspace.window, cutsByItself },
    listener,
  )
  if (!session) return null
  view = new EditorView({
    parent,
    state: EditorState.create({
      doc: session.text,
      extensions: extensionsFor(workspace, latest, session, pasting),
    }),
  })
  const removeSession = workspace.addSession(session)
  const close = (): void => {
    view?.destroy()
    void session.close().finally(() => {
      removeSession()
      workspace.setUnsaved(node.id, null)
    })
  }
  return { session, view, close }
}

function extensionsFor(
  workspace: Workspace,
  latest: Latest,
  session: TextSession,
  pasting: { isAwaited: boolean },
): Extension {
  const { label, hint = '', keys = [] } = latest.current
  const program = { undo: () => void undo(workspace), redo: () => void redo(workspace) }
  return [
    typingExtensions(label, hint, program, keys),
    movingWords({
      cut: (range) => latest.current.moving?.cut(range, session) ?? null,
      takes: (cut) => latest.current.moving?.takes(cut) ?? false,
      onArrive: (cut, offset) => {
        pasting.isAwaited = true
        latest.current.moving?.onArrive(cut, offset)
      },
    }),
    arriving({
      takes: (fragment) => {
        const { onArrive, takes = () => true, node } = latest.current
        // Words copied within one text are its own words still; they came from nowhere else.
        return onArrive !== undefined && fragment.node.id !== node.id && takes(fragment)
      },
      onArrive: (fragment, offset, way) => {
        pasting.isAwaited = way === 'copy'
        latest.current.onArrive?.(fragment, offset, way)
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
    EditorView.domEventHandlers({
      // A text that is moved on the page, as its step is, loses the focus and is given it again at once.
      blur: (_event, view) =>
        queueMicrotask(() => {
          if (!view.hasFocus) latest.current.onBlur?.()
        }),
    }),
  ]
}

function tellState(workspace: Workspace, node: TextNode, latest: Latest, state: SessionState): void {
  if (state.kind === 'unsaved') workspace.setUnsaved(node.id, state.sentence)
  else if (workspace.state.unsaved.has(node.id)) workspace.setUnsaved(node.id, null)
  if (state.kind !== 'gone') return
  if (state.typed !== '') giveBack(workspace, state.typed)
  latest.current.onGone?.()
}
