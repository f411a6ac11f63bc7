/** The sources: their list, of which the rows near the view are in the page, or one of them opened to be read. */
import type { EditorView } from '@codemirror/view'
import type { Spot } from '../bundles.ts'
import type { RibbonEnd } from '../links.ts'
import { indexInList } from '../order.ts'
import { sideOf, Surface } from './surface.ts'
import { editorIn, extentInEditor, firstLine } from './words.ts'

export class SourcesSurface extends Surface {
  private rows = new Map<string, HTMLElement>()
  private firstBelowTop = Number.POSITIVE_INFINITY
  /** The source that is opened, and the capture whose text is shown. */
  private opened: HTMLElement | null = null
  private capture: { readonly id: string; readonly editor: EditorView } | null = null

  thingsInPage(): Iterable<string> {
    const opened = this.opened?.dataset.node
    return opened === undefined ? this.rows.keys() : [opened]
  }

  forget(): void {
    // What is measured in an editor is held to the heights of its lines.
  }

  protected findScroller(): HTMLElement | null {
    return this.pane!.querySelector<HTMLElement>('.st-reading-text .cm-scroller, .st-source-scroll')
  }

  protected findThings(): void {
    this.opened = this.pane!.querySelector<HTMLElement>('.st-reading-inside')
    const text = this.opened?.querySelector<HTMLElement>('.st-reading-text[data-node]')
    const editor = text ? editorIn(text) : null
    this.capture = text && editor ? { id: text.dataset.node!, editor } : null
    const rows = this.pane!.querySelectorAll<HTMLElement>('.st-source-list [data-node]')
    this.rows = new Map([...rows].map((row) => [row.dataset.node!, row]))
    const below = [...rows].filter((row) => this.isBelowTop(row.getBoundingClientRect()))
    this.firstBelowTop = Math.min(...below.map((row) => Number(row.dataset.index)))
  }

  protected find(end: RibbonEnd): Spot {
    return this.opened ? this.findInOpened(this.opened, end) : this.findInList(end)
  }

  private findInOpened(opened: HTMLElement, end: RibbonEnd): Spot {
    if (this.capture?.id === end.node.id && end.places.length > 0)
      return this.scrolling(extentInEditor(this.capture.editor, end.places))
    if (opened.dataset.node !== end.source) return { kind: 'elsewhere' }
    const title = opened.querySelector('.st-reading-title') ?? opened
    return this.fixed(firstLine(title.getBoundingClientRect()))
  }

  private findInList({ source }: RibbonEnd): Spot {
    if (source === null) return { kind: 'elsewhere' }
    const row = this.rows.get(source)
    if (!row) return sideOf(indexInList('sources', source), this.firstBelowTop)
    const title = row.querySelector('.st-source-title') ?? row
    return this.scrolling(title.getBoundingClientRect())
  }
}
