/** CodeMirror as this program uses it: for reading a capture, and for typing a text. */
import {
  defaultKeymap,
  history,
  historyKeymap,
  undoDepth,
  redoDepth,
  indentWithTab,
} from '@codemirror/commands'
import { markdown, markdownLanguage } from '@codemirror/lang-markdown'
import { HighlightStyle, syntaxHighlighting } from '@codemirror/language'
import { highlightSelectionMatches, searchKeymap } from '@codemirror/search'
import {
  Compartment,
  EditorState,
  type EditorSelection,
  StateEffect,
  StateField,
  type Extension,
} from '@codemirror/state'
import { Decoration, dropCursor, EditorView, keymap, placeholder, type DecorationSet } from '@codemirror/view'
import { tags } from '@lezer/highlight'
import { styleNonce } from '../host/host.ts'
import type { Fragment } from '../../shared/distil/fragment.ts'
import type { Range } from '../../shared/lab/model.ts'
import { finding } from './findPanel.ts'
import { bringsFragment, takeFragment, takePasted, writeFragment } from './fragments.ts'
import { selectionBehindWords } from './selectionBehindWords.ts'
import { steadyCursor } from './steadyCursor.ts'

/** Shades of one ink, so that Markdown's marks step back and code stands out without colours of its own. */
const shades = HighlightStyle.define([
  { tag: tags.heading, fontWeight: '600' },
  { tag: tags.strong, fontWeight: '600' },
  { tag: tags.emphasis, fontStyle: 'italic' },
  { tag: [tags.monospace, tags.labelName], fontFamily: 'var(--mono)' },
  { tag: [tags.processingInstruction, tags.contentSeparator, tags.quote], color: 'var(--ink-soft)' },
  { tag: [tags.url, tags.link], color: 'var(--ink-soft)' },
  { tag: tags.strikethrough, textDecoration: 'line-through' },
])

const face = EditorView.theme({
  '&': { backgroundColor: 'transparent', color: 'var(--ink)' },
  '&.cm-focused': { outline: 'none' },
  '.cm-content': { fontFamily: 'inherit', padding: '0', caretColor: 'var(--ink)' },
  '.cm-line': { padding: '0' },
  '.cm-scroller': { fontFamily: 'inherit', lineHeight: 'inherit' },
  // The system's own cursor: the one that the library draws is a layer that is laid out and painted with every key, which
  // doubles the time from key to frame.
  '.cm-content.cm-content': { caretColor: 'var(--ink) !important' },
  '.cm-cursorLayer': { display: 'none' },
  '.cm-dropCursor': { borderLeftColor: 'var(--focus)', borderLeftWidth: '3px' },
  '.cm-placeholder': { color: 'var(--ink-soft)' },
  // The selection is a layer behind the words, so that they keep their ink on it.
  '.cm-line::selection, .cm-line ::selection': { color: 'var(--ink)' },
  '.cm-selectionBackground': { background: 'color-mix(in srgb, var(--focus) 16%, transparent)' },
  '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground': {
    background: 'color-mix(in srgb, var(--focus) 25%, transparent)',
  },
})

function common(label: string): Extension {
  return [
    EditorView.cspNonce.of(styleNonce(document)),
    // A text that is only read is a stop for Tab too, and says so to whoever looks for such stops.
    EditorView.contentAttributes.of({ 'aria-label': label, tabindex: '0' }),
    selectionBehindWords(),
    steadyCursor(),
    marksField,
    face,
  ]
}

/** Lines that wrap, and Markdown's marks in their shades. */
const asMarkdown: Extension = [
  EditorView.lineWrapping,
  markdown({ base: markdownLanguage }),
  syntaxHighlighting(shades),
]

/** How a text is shown. `long`: neither parsed nor wrapped, so that it stays quick at any length. */
export type Dress = 'markdown' | 'text' | 'long'
const dresses: Readonly<Record<Dress, Extension>> = {
  markdown: asMarkdown,
  text: EditorView.lineWrapping,
  long: [],
}

/** Nothing moves out of a text by dragging; it is copied. */
const copiesOnly: Extension = EditorView.dragMovesSelection.of(() => false)

/** How fragments leave a text. */
export interface Leaving {
  /** The fragment for ranges of the text; null where it cannot be carried. */
  readonly pick: (ranges: readonly Range[]) => Fragment | null
  readonly onDragStart: (fragment: Fragment) => void
  readonly onDragEnd: () => void
}

/** Lets a selection be dragged or copied as a fragment. */
export function leaving({ pick, onDragStart, onDragEnd }: Leaving): Extension {
  const picked = (view: EditorView): Fragment | null => pick(selectedRanges(view))
  let pressed: EditorSelection | null = null
  return [
    copiesOnly,
    EditorView.domEventHandlers({
      mousedown(_event, view) {
        pressed = view.state.selection
        return false
      },
      dragstart(event, view) {
        // A quick hand is far away before the browser says that a drag begins, and the editor has then begun a new
        // selection. What is dragged is what was selected when the button went down.
        if (pressed && !pressed.eq(view.state.selection) && isWithin(view, pressed))
          view.dispatch({ selection: pressed })
        const fragment = picked(view)
        if (!fragment || !event.dataTransfer) return false
        writeFragment(event.dataTransfer, fragment)
        onDragStart(fragment)
        return false
      },
      dragend() {
        onDragEnd()
        return false
      },
      copy(event, view) {
        const fragment = picked(view)
        if (!fragment || !event.clipboardData) return false
        writeFragment(event.clipboardData, fragment)
        return true
      },
    }),
  ]
}

const isWithin = (view: EditorView, selection: EditorSelection): boolean =>
  selection.ranges.every(({ to }) => to <= view.state.doc.length)

/** The ranges that are selected, empty ones left out. */
export function selectedRanges(view: EditorView): Range[] {
  return view.state.selection.ranges
    .filter((range) => !range.empty)
    .map(({ from, to }) => ({ start: from, end: to }))
}

/** How fragments arrive in a text: at an offset, by a drop or by pasting. */
export interface Arriving {
  /** Whether a fragment can land here; else its bare words go the way of any text. */
  readonly takes: (fragment: Fragment) => boolean
  readonly onArrive: (fragment: Fragment, offset: number, way: 'drag' | 'copy') => void
}

/** Takes fragments that are dropped or pasted, instead of their bare words. */
export function arriving({ takes, onArrive }: Arriving): Extension {
  return [
    dropCursor(),
    EditorView.domEventHandlers({
      dragover(event) {
        if (!bringsFragment(event.dataTransfer)) return false
        event.dataTransfer!.dropEffect = 'copy'
        return true
      },
      drop(event, view) {
        const fragment = takeFragment(event.dataTransfer)
        if (!fragment || !takes(fragment)) return false
        onArrive(fragment, view.posAtCoords({ x: event.clientX, y: event.clientY }, false), 'drag')
        event.stopPropagation()
        return true
      },
      paste(event, view) {
        const fragment = takePasted(event.clipboardData)
        if (!fragment || !takes(fragment)) return false
        // What is pasted comes in the place of what is selected.
        if (!view.state.selection.main.empty)
          view.dispatch({ ...view.state.replaceSelection(''), userEvent: 'delete.selection' })
        onArrive(fragment, view.state.selection.main.head, 'copy')
        return true
      },
    }),
  ]
}

/** A text to be read: selectable and searchable by keyboard, never changed. */
export function readingExtensions(label: string, keys: Extension = [], dress: Dress = 'markdown'): Extension {
  return [
    common(label),
    dresses[dress],
    keys,
    EditorState.readOnly.of(true),
    finding(),
    highlightSelectionMatches(),
    keymap.of(defaultKeymap),
  ]
}

/** The editor's own history reaches back to the last revision and no further: what lies behind is the program's. */
const ownHistory = new Compartment()

/** What undo and redo do once the editor's own history is at its end. */
export interface ProgramHistory {
  readonly undo: () => void
  readonly redo: () => void
}

/** A text to be typed. `keys` come before the common ones. */
export function typingExtensions(
  label: string,
  hint: string,
  program: ProgramHistory,
  keys: Extension = [],
): Extension {
  const beyond = (depth: (state: EditorState) => number, act: () => void) => (view: EditorView) => {
    if (depth(view.state) > 0) return false
    act()
    return true
  }
  return [
    common(label),
    asMarkdown,
    keys,
    copiesOnly,
    ownHistory.of(history()),
    keymap.of([
      { key: 'Mod-z', run: beyond(undoDepth, program.undo) },
      { key: 'Mod-y', mac: 'Mod-Shift-z', run: beyond(redoDepth, program.redo) },
      { key: 'Mod-Shift-z', run: beyond(redoDepth, program.redo) },
      ...historyKeymap,
      ...searchKeymap,
      ...defaultKeymap,
    ]),
    hint === '' ? [] : placeholder(hint),
  ]
}

/** Tab indents; for editors that are left by Escape. */
export const tabIndents: Extension = keymap.of([indentWithTab])

/** Forgets the editor's own history, since a revision was cut. */
export function forgetHistory(view: EditorView): void {
  view.dispatch({ effects: ownHistory.reconfigure([]) })
  view.dispatch({ effects: ownHistory.reconfigure(history()) })
}

const setMarks = StateEffect.define<readonly Range[]>()
const mark = Decoration.mark({ class: 'st-mark' })

const marksField = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(marks, transaction) {
    const set = transaction.effects.find((effect) => effect.is(setMarks))
    if (!set) return marks.map(transaction.changes)
    const fitting = set.value.filter(({ start, end }) => start < end && end <= transaction.newDoc.length)
    return Decoration.set(
      fitting.map(({ start, end }) => mark.range(start, end)),
      true,
    )
  },
  provide: (field) => EditorView.decorations.from(field),
})

/** Marks ranges of a text and brings the first of them into view. */
export function showMarks(view: EditorView, ranges: readonly Range[]): void {
  const first = ranges[0]
  const effects: StateEffect<unknown>[] = [setMarks.of(ranges)]
  if (first && first.end <= view.state.doc.length)
    effects.push(EditorView.scrollIntoView(first.start, { y: 'center' }))
  view.dispatch({ effects })
}
