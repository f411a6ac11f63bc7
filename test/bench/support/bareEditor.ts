/** A bare CodeMirror with one entry in it, of as many paragraphs as the address says: a short one to type in, a long one to scroll. */
import { EditorState } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import { markdown } from '@codemirror/lang-markdown'

document.body.style.cssText = 'margin: 0; height: 700px'
const doc = 'The mast stands, the gauge shows 1017 hPa and `upsc` answers.\n\n'.repeat(
  Number(location.hash.slice(1)),
)
const view = new EditorView({
  parent: document.body,
  state: EditorState.create({ doc, extensions: [markdown(), EditorView.lineWrapping] }),
})
view.dom.style.height = '700px'
view.scrollDOM.style.overflow = 'auto'
view.scrollDOM.scrollTop = view.scrollDOM.scrollHeight
