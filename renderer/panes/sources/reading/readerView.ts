/** The reader view as an extension of the editor that shows a capture: its looks, its links, and where the reader is. */
import { cursorLineEnd, cursorLineStart, selectLineEnd, selectLineStart } from '@codemirror/commands'
import { Prec, RangeSet, StateEffect, StateField, type Extension } from '@codemirror/state'
import { EditorView, keymap, ViewPlugin, type Command } from '@codemirror/view'
import { unseenPlaces } from '../../../editor/findPanel.ts'
import type { Looks, TextLink } from './drawing.ts'

const setLooks = StateEffect.define<Looks>()

const looksField = StateField.define<Looks | null>({
  create: () => null,
  update: (looks, { effects }) => effects.find((effect) => effect.is(setLooks))?.value ?? looks,
  provide: (field) => [
    EditorView.decorations.from(field, (looks) => looks?.decorations ?? RangeSet.empty),
    EditorView.outerDecorations.from(field, (looks) => looks?.outer ?? RangeSet.empty),
    EditorView.blockWrappers.from(field, (looks) => looks?.wrappers ?? RangeSet.empty),
    EditorView.atomicRanges.of((view) => view.state.field(field)?.hidden ?? RangeSet.empty),
    unseenPlaces.of((state, from, to) => isUnseen(state.field(field), from, to)),
  ],
})

/** Whether all of a range is hidden, so that nobody can see what stands there. */
function isUnseen(looks: Looks | null, from: number, to: number): boolean {
  let isFound = false
  looks?.hidden.between(from, to, (start, end) => {
    if (start <= from && end >= to) isFound = true
  })
  return isFound
}

/** A link that the person pressed, with the box of its words on the screen. */
export interface PressedLink {
  readonly address: string
  readonly words: string
  readonly box: { left: number; top: number; right: number; bottom: number }
}

export interface ReaderParts {
  readonly onLink: (link: PressedLink) => void
  /** The place in the text that stands at the head of the window changed. */
  readonly onPlace: (position: number) => void
}

export function readerView({ onLink, onPlace }: ReaderParts): Extension {
  return [
    looksField,
    Prec.high(
      keymap.of([
        { key: 'Enter', run: (view) => pressAtCursor(view, onLink) },
        { key: 'Home', run: inTables(cursorLineStart), shift: inTables(selectLineStart) },
        { key: 'End', run: inTables(cursorLineEnd), shift: inTables(selectLineEnd) },
      ]),
    ),
    EditorView.domEventHandlers({
      click: (event, view) => pressAt(event, view, onLink),
    }),
    EditorView.domEventObservers({
      scroll: (event, view) => {
        if (event.target === view.scrollDOM) onPlace(placeOf(view))
      },
    }),
    sidewaysScrolls,
  ]
}

/** A row may be wider than what is seen of it, so that its ends are not where the sight ends. */
function inTables(run: Command): Command {
  return (view) => {
    const { head } = view.state.selection.main
    let isWithin = false
    view.state.field(looksField)?.wrappers.between(head, head, () => {
      isWithin = true
    })
    return isWithin && run(view)
  }
}

/** Gives a text its looks once they are known. */
export function showLooks(view: EditorView, looks: Looks): void {
  view.dispatch({ effects: setLooks.of(looks) })
}

/** The blocks of a text that was given its looks; none where its signs are seen. */
export function blocksIn(view: EditorView): Looks['blocks'] {
  return view.state.field(looksField)?.blocks ?? []
}

/** The first place that is wholly in view. */
export function placeOf(view: EditorView): number {
  const { scrollTop } = view.scrollDOM
  return view.lineBlockAtHeight(scrollTop + HEAD).from
}

/** So far below the upper edge something still counts as standing at it, in CSS pixels. */
const HEAD = 40

/** Goes to a place and puts the cursor there. */
export function jumpTo(view: EditorView, position: number): void {
  view.dispatch({
    selection: { anchor: position },
    effects: EditorView.scrollIntoView(position, { y: 'start', yMargin: 12 }),
  })
  view.focus()
}

function pressAt(event: MouseEvent, view: EditorView, onLink: ReaderParts['onLink']): boolean {
  const target = event.target instanceof Element ? event.target.closest<HTMLElement>('[data-address]') : null
  // Whoever drags over a link's words wants to select them.
  if (!target || event.button !== 0 || !view.state.selection.main.empty) return false
  const address = target.dataset.address!
  const link = linkAt(view, view.posAtDOM(target)) ?? null
  const words = link?.address === address ? wordsOf(view, link) : (target.textContent ?? '')
  onLink({ address, words, box: target.getBoundingClientRect() })
  return true
}

function pressAtCursor(view: EditorView, onLink: ReaderParts['onLink']): boolean {
  const { head, empty } = view.state.selection.main
  const link = empty ? linkAt(view, head) : undefined
  const box = link && view.coordsAtPos(head)
  if (!link || !box) return false
  onLink({ address: link.address, words: wordsOf(view, link), box })
  return true
}

function linkAt(view: EditorView, position: number): TextLink | undefined {
  return view.state.field(looksField)?.links.find(({ from, to }) => from <= position && position <= to)
}

/** The words of a link without the signs in them. */
function wordsOf(view: EditorView, { from, to }: TextLink): string {
  return view.state
    .sliceDoc(from, to)
    .replace(/\\([!-/:-@[-`{-~])/gu, '$1')
    .replace(/^[*_`]+|[*_`]+$/gu, '')
}

/**
 * Tables scroll sideways in boxes of their own, which the editor does not know of. The drawn selection follows them, and
 * they follow the cursor.
 */
const sidewaysScrolls: Extension = [
  ViewPlugin.define((view) => {
    let isAsked = false
    const follow = (event: Event): void => {
      if (isAsked || !(event.target instanceof Element) || !event.target.matches('.st-r-table')) return
      isAsked = true
      requestAnimationFrame(() => {
        isAsked = false
        if (view.dom.isConnected) view.dispatch({ selection: view.state.selection })
      })
    }
    view.contentDOM.addEventListener('scroll', follow, true)
    return { destroy: () => view.contentDOM.removeEventListener('scroll', follow, true) }
  }),
  EditorView.updateListener.of(({ view, selectionSet, startState, state }) => {
    if (selectionSet && !startState.selection.eq(state.selection))
      requestAnimationFrame(() => revealSideways(view))
  }),
]

function revealSideways(view: EditorView): void {
  if (!view.dom.isConnected) return
  const { node } = view.domAtPos(view.state.selection.main.head)
  const element = node instanceof Element ? node : node.parentElement
  const table = element?.closest('.st-r-table')
  const place = table && view.coordsAtPos(view.state.selection.main.head)
  if (!table || !place) return
  const { left, right } = table.getBoundingClientRect()
  if (place.left < left + EDGE) table.scrollLeft -= left + EDGE - place.left
  else if (place.right > right - EDGE) table.scrollLeft += place.right - right + EDGE
}

/** How near to a table's edge the cursor may come, in CSS pixels. */
const EDGE = 24
