import type { EditorView } from '@codemirror/view'
import { insertInto } from '../../shared/distil/distil.ts'

/** Puts a block of Markdown behind the line that is being typed in, with blank lines around it, and goes on there. */
export function insertBlock(view: EditorView, block: string): void {
  const { doc, selection } = view.state
  const at = doc.lineAt(selection.main.head).to
  const { text } = insertInto(doc.toString(), at, { text: block, ranges: [] })
  view.dispatch({
    changes: { from: at, insert: text },
    selection: { anchor: at + text.length },
    scrollIntoView: true,
    userEvent: 'input.paste',
  })
  view.focus()
}
