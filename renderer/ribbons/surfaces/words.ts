/** Where words stand on the screen, in rendered Markdown and in an editor. Heights are the window's CSS pixels. */
import { EditorView } from '@codemirror/view'
import type { Range } from '../../../shared/lab/model.ts'
import type { Extent } from '../geometry.ts'

interface Measured {
  readonly width: number
  readonly height: number
  /** Heights from the upper edge of the text; by the end's key. */
  readonly extents: Map<string, Extent>
}

/** Remembers where words stand in texts, as long as neither the text nor its size changes: measuring them is dear. */
export class WordPlaces {
  private readonly known = new WeakMap<Element, Measured>()

  /**
   * @param root shows one text by `Markdown`, or in an editor
   * @param box of the root, now
   * @param key stands for the places
   */
  extentOf(root: Element, box: DOMRect, places: readonly Range[], key: string): Extent {
    const editor = root.classList.contains('st-editor') ? editorIn(root) : null
    if (editor) return extentInEditor(editor, places)
    const { extents } = this.measuredOf(root, box)
    let extent = extents.get(key)
    if (!extent) {
      extent = relative(extentInMarkdown(root, places) ?? firstLine(box), box.top)
      extents.set(key, extent)
    }
    return { top: box.top + extent.top, bottom: box.top + extent.bottom }
  }

  /** Forgets what is known of a text, since something in it changed. */
  forget(root: Element): void {
    this.known.delete(root)
  }

  private measuredOf(root: Element, { width, height }: DOMRect): Measured {
    const known = this.known.get(root)
    if (known && known.width === width && known.height === height) return known
    const fresh = { width, height, extents: new Map<string, Extent>() }
    this.known.set(root, fresh)
    return fresh
  }
}

const relative = ({ top, bottom }: Extent, from: number): Extent => ({
  top: top - from,
  bottom: bottom - from,
})

/** A thing as a whole is met at its first line, in CSS pixels. */
const LINE = 24

/** Where a thing as a whole is met. */
export function firstLine({ top, bottom }: Extent): Extent {
  return { top, bottom: Math.min(bottom, top + LINE) }
}

/** From the upper edge of the first word to the lower edge of the last; null where none of it is shown. */
function extentInMarkdown(root: Element, places: readonly Range[]): Extent | null {
  const [start, end] = [
    Math.min(...places.map((one) => one.start)),
    Math.max(...places.map((one) => one.end)),
  ]
  const runs = [...root.querySelectorAll('[data-from][data-to]')].filter(
    (run) => Number(run.getAttribute('data-from')) < end && Number(run.getAttribute('data-to')) > start,
  )
  const [first, last] = [runs[0], runs.at(-1)]
  if (!first || !last) return null
  const range = root.ownerDocument.createRange()
  setStart(range, first, start)
  setEnd(range, last, end)
  const { top, bottom } = range.getBoundingClientRect()
  return bottom > top ? { top, bottom } : null
}

function setStart(range: globalThis.Range, run: Element, at: number): void {
  const node = linearTextOf(run)
  if (node) range.setStart(node, Math.max(0, at - Number(run.getAttribute('data-from'))))
  else range.setStartBefore(run)
}

function setEnd(range: globalThis.Range, run: Element, at: number): void {
  const node = linearTextOf(run)
  if (node) range.setEnd(node, Math.min(node.length, at - Number(run.getAttribute('data-from'))))
  else range.setEndAfter(run)
}

/** The text of a run whose n-th character shows the n-th one of its source; null of any other. */
function linearTextOf(run: Element): Text | null {
  const node = run.childNodes.length === 1 ? run.firstChild : null
  const length = Number(run.getAttribute('data-to')) - Number(run.getAttribute('data-from'))
  return node instanceof Text && node.length === length ? node : null
}

/** The editor that is shown in an element. */
export function editorIn(root: Element): EditorView | null {
  const dom = root.querySelector<HTMLElement>('.cm-editor')
  return dom && EditorView.findFromDOM(dom)
}

/** Where words begin and end within their lines, and what the lines measured then. */
interface InBlock {
  readonly heights: string
  readonly below: Extent
}

const inBlocks = new WeakMap<EditorView, Map<string, InBlock>>()

/**
 * Where words stand in an editor, also those that are not drawn: of these, where their lines are expected. What was
 * measured within lines is remembered as long as the lines keep their heights.
 */
export function extentInEditor(editor: EditorView, places: readonly Range[]): Extent {
  const { length } = editor.state.doc
  const start = Math.min(length, ...places.map((one) => one.start))
  const end = Math.min(length, Math.max(...places.map((one) => one.end)))
  const [first, last] = [editor.lineBlockAt(start), editor.lineBlockAt(end)]
  const begin = editor.documentTop
  const heights = `${first.height} ${last.height} ${editor.contentDOM.clientWidth}`
  const known = inBlocks.get(editor) ?? new Map<string, InBlock>()
  inBlocks.set(editor, known)
  const key = `${start}-${end}`
  const held = known.get(key)
  if (held?.heights === heights)
    return { top: begin + first.top + held.below.top, bottom: begin + last.top + held.below.bottom }
  const [head, foot] = [editor.coordsAtPos(start, 1), editor.coordsAtPos(end, -1)]
  if (!head || !foot || foot.bottom <= head.top)
    return { top: begin + first.top, bottom: begin + last.bottom }
  const below = { top: head.top - begin - first.top, bottom: foot.bottom - begin - last.top }
  known.set(key, { heights, below })
  return { top: head.top, bottom: foot.bottom }
}
