/** A bare CodeMirror with one entry in it. */
import { EditorState } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import { markdown } from '@codemirror/lang-markdown'

document.body.style.cssText = 'margin: 0; height: 700px'
const doc = 'The mast stands, the gauge shows 1017 hPa and `upsc` answers.\n\n'.repeat(60)
const view = new EditorView({
  parent: document.body,
  state: EditorState.create({ doc, extensions: [markdown(), EditorView.lineWrapping] }),
})
view.dom.style.height = '700px'
view.scrollDOM.style.overflow = 'auto'
