/** Placeholders in a text that is being typed: the text stays as it is, and they show as what they are. */
import { RangeSetBuilder, type Extension } from '@codemirror/state'
import {
  Decoration,
  ViewPlugin,
  type DecorationSet,
  type EditorView,
  type ViewUpdate,
} from '@codemirror/view'
import { placeholdersIn } from '../../shared/procedure/values/placeholders.ts'
import type { ShownPlaceholder } from '../ui/placeholders.tsx'

/** @param shown asked anew whenever there are placeholders to draw */
export function editorPlaceholders(shown: () => ReadonlyMap<string, ShownPlaceholder>): Extension {
  return ViewPlugin.fromClass(
    class {
      decorations: DecorationSet
      constructor(view: EditorView) {
        this.decorations = decorate(view, shown)
      }
      update(update: ViewUpdate): void {
        if (update.docChanged || update.viewportChanged) this.decorations = decorate(update.view, shown)
      }
    },
    { decorations: (plugin) => plugin.decorations },
  )
}

function decorate(view: EditorView, shown: () => ReadonlyMap<string, ShownPlaceholder>): DecorationSet {
  const builder = new RangeSetBuilder<Decoration>()
  for (const { from, to } of view.visibleRanges) {
    // A placeholder has no line end in it, so the lines that are seen hold it whole.
    const start = view.state.doc.lineAt(from).from
    const text = view.state.doc.sliceString(start, view.state.doc.lineAt(to).to)
    const places = placeholdersIn(text)
    const all = places.length > 0 ? shown() : null
    for (const place of places) {
      const known = all?.get(place.name)
      const decoration = Decoration.mark({
        class: `st-placeholder st-placeholder--typed st-placeholder--${known ? 'quiet' : 'unknown'}`,
        attributes: { title: known?.title ?? 'No parameter has this name.' },
      })
      builder.add(start + place.start, start + place.end, decoration)
    }
  }
  return builder.finish()
}
