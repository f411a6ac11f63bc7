/** Keeps an editor that grows with its text in a box of its own, so that a key is laid out within it and nowhere else. */
import type { Extension } from '@codemirror/state'
import { ViewPlugin, type EditorView } from '@codemirror/view'

/**
 * With every key the browser lays out again whatever the text could push about: in a long procedure its step, the steps
 * around it, the pane. An element with size and layout containment (CSS Containment Module Level 2, 3.1 and 3.2) ends
 * that search, but has to be told its height. It is told whenever the editor's own height changes, which the browser
 * says after layout and before the page is painted, so that no frame shows a text that is cut off.
 */
export function ownBox(): Extension {
  return ViewPlugin.define((view) => new Box(view))
}

class Box {
  private readonly heights: ResizeObserver
  private host: HTMLElement | null = null

  constructor(view: EditorView) {
    this.heights = new ResizeObserver(() => this.fit(view))
    this.heights.observe(view.dom)
  }

  private fit(view: EditorView): void {
    const host = view.dom.parentElement
    const { height } = view.dom.getBoundingClientRect()
    // Hidden as a whole, say in a pane that is folded: what it takes is known once it is shown again.
    if (!host || height === 0) return
    this.host = host
    host.style.height = `${height}px`
    host.style.contain = 'strict'
  }

  destroy(): void {
    this.heights.disconnect()
    this.host?.style.removeProperty('height')
    this.host?.style.removeProperty('contain')
  }
}
