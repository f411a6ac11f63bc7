/** Keeps the page's selection where the editor's is, while words around the cursor are drawn anew. */
import type { EditorState, Extension } from '@codemirror/state'
import { EditorView, ViewPlugin, type ViewUpdate } from '@codemirror/view'

/** Milliseconds after the focus, well above those in which CodeMirror looks away. */
const CARE = 1000

/**
 * A mark that is put around the cursor's words moves their nodes, and the browser then takes its selection to the start
 * of the line. CodeMirror 6.43 puts it back, but not within 200 ms of getting the focus: there it takes that start for
 * the browser's own doing at the focus, believes it mended, and reads it as the person's choice soon after. Keys would
 * then work at the start of the text instead of at the cursor. Later it is left alone: to ask where the selection stands
 * makes the browser lay out the text, with every key.
 *
 * The invariant held here: an update after which the two selections differ is one before which they did too. Those are
 * left alone, since the person has moved the browser's selection and the editor is about to hear of it.
 */
export function steadyCursor(): Extension {
  const agreement = ViewPlugin.define(() => new Agreement(), {
    eventObservers: {
      focus() {
        this.focusedAt = performance.now()
      },
    },
  })
  return [
    agreement,
    EditorView.updateListener.of(({ view, state }) => {
      if (!view.hasFocus || view.composing || !view.plugin(agreement)?.stoodBefore) return
      if (!isAgreed(view, state)) placeSelection(view, state)
    }),
  ]
}

/** Whether the selections agreed when the latest update began: plugins hear of an update before it is drawn. */
class Agreement {
  stoodBefore = false
  focusedAt = Number.NEGATIVE_INFINITY

  update({ view, startState }: ViewUpdate): void {
    const isEarly = performance.now() - this.focusedAt < CARE
    this.stoodBefore = isEarly && view.hasFocus && isAgreed(view, startState)
  }
}

function isAgreed(view: EditorView, { selection: { main } }: EditorState): boolean {
  const range = document.getSelection()
  if (!range) return false
  return (
    placeIn(view, range.anchorNode, range.anchorOffset) === main.anchor &&
    placeIn(view, range.focusNode, range.focusOffset) === main.head
  )
}

/** The place in the text of a place on the page; null where that lies outside of the text. */
function placeIn(view: EditorView, node: Node | null, offset: number): number | null {
  return node && view.contentDOM.contains(node) ? view.posAtDOM(node, offset) : null
}

function placeSelection(view: EditorView, { selection: { main } }: EditorState): void {
  const anchor = view.domAtPos(main.anchor)
  const head = view.domAtPos(main.head)
  document.getSelection()?.setBaseAndExtent(anchor.node, anchor.offset, head.node, head.offset)
}
