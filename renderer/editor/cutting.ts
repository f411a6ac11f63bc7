/** Cutting words out of a text and putting them in, with all that is linked to them. */
import type { Extension } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import type { Range } from '../../shared/lab/model.ts'
import type { CutWords } from '../../shared/procedure/moving/cut.ts'
import { takeCut, writeCut } from './fragments.ts'

export interface Cutting {
  /** The words of a range with where they stand; null where they go as bare words. */
  readonly cut: (range: Range) => CutWords | null
  /** Whether cut words can come in here; else their bare words go the way of any text. */
  readonly takes: (cut: CutWords) => boolean
  readonly onArrive: (cut: CutWords, offset: number) => void
}

/** The words that were cut last in this window, for whoever puts them in by a menu: a page may not read the clipboard. */
let last: CutWords | null = null
export const lastCut = (): CutWords | null => last

export function movingWords(cutting: Cutting): Extension {
  return EditorView.domEventHandlers({
    cut(event, view) {
      const { main } = view.state.selection
      const cut = main.empty ? null : cutting.cut({ start: main.from, end: main.to })
      if (!cut || !event.clipboardData) return false
      writeCut(event.clipboardData, cut)
      last = cut
      view.dispatch({ ...view.state.replaceSelection(''), scrollIntoView: true, userEvent: 'delete.cut' })
      return true
    },
    paste(event, view) {
      const cut = takeCut(event.clipboardData)
      if (!cut || !cutting.takes(cut)) return false
      // What is pasted comes in the place of what is selected.
      if (!view.state.selection.main.empty)
        view.dispatch({ ...view.state.replaceSelection(''), userEvent: 'delete.selection' })
      cutting.onArrive(cut, view.state.selection.main.head)
      return true
    },
  })
}

/** Puts the words that were cut last in, as pasting them would. */
export function putLast(view: EditorView): void {
  if (!last) return
  const clipboardData = new DataTransfer()
  writeCut(clipboardData, last)
  view.contentDOM.dispatchEvent(
    new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
  )
}
