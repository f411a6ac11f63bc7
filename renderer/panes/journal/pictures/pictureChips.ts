/** In a text that is being written, a kept picture's address is shown as the picture itself, so that its description is written before it. */
import { RangeSetBuilder, type Extension } from '@codemirror/state'
import {
  Decoration,
  EditorView,
  ViewPlugin,
  WidgetType,
  type DecorationSet,
  type ViewUpdate,
} from '@codemirror/view'
import type { OpenLab } from '../../../db/lab.ts'
import { pictureUrlsOf } from './pictureUrls.ts'
import './pictures.css'

const address = /(?<=\]\()sha256:([0-9a-f]{64})(?: "(?:[^"\\\n]|\\.)*")?(?=\))/g

class Chip extends WidgetType {
  constructor(
    private readonly lab: OpenLab,
    private readonly sha256: string,
  ) {
    super()
  }

  override eq(other: Chip): boolean {
    return other.sha256 === this.sha256 && other.lab === this.lab
  }

  override toDOM(): HTMLElement {
    const chip = document.createElement('span')
    chip.className = 'st-picture-chip'
    const { found, release } = pictureUrlsOf(this.lab).take(this.sha256)
    releases.set(chip, release)
    void found.then((picture) => {
      if (picture.kind !== 'picture') {
        chip.textContent = 'picture not here'
        return
      }
      const image = document.createElement('img')
      image.src = picture.url
      image.alt = 'picture'
      image.draggable = false
      chip.append(image)
    })
    return chip
  }

  override destroy(chip: HTMLElement): void {
    releases.get(chip)?.()
    releases.delete(chip)
  }
}

const releases = new WeakMap<HTMLElement, () => void>()

/** Shows the pictures of a lab in the text. */
export function pictureChips(lab: () => OpenLab): Extension {
  const decorate = (view: EditorView): DecorationSet => {
    const builder = new RangeSetBuilder<Decoration>()
    for (const { from, to } of view.visibleRanges)
      for (const match of view.state.sliceDoc(from, to).matchAll(address)) {
        const start = from + match.index
        const widget = new Chip(lab(), match[1]!)
        builder.add(start, start + match[0].length, Decoration.replace({ widget }))
      }
    return builder.finish()
  }
  return ViewPlugin.fromClass(
    class {
      shown: DecorationSet
      constructor(view: EditorView) {
        this.shown = decorate(view)
      }
      update({ view, docChanged, viewportChanged }: ViewUpdate): void {
        if (docChanged || viewportChanged) this.shown = decorate(view)
      }
    },
    {
      decorations: ({ shown }) => shown,
      provide: (plugin) =>
        EditorView.atomicRanges.of((view) => view.plugin(plugin)?.shown ?? Decoration.none),
    },
  )
}
