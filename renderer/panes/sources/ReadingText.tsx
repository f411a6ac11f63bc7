import { EditorState, Prec, type Extension } from '@codemirror/state'
import { EditorView, keymap, showTooltip, tooltips, type Tooltip } from '@codemirror/view'
import { useEffect, useRef, useState, type RefObject } from 'react'
import { createPortal } from 'react-dom'
import type { Capture, Range, Source } from '../../../shared/lab/model.ts'
import { leaving, readingExtensions, selectedRanges, showMarks } from '../../editor/extensions.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import type { Workspace } from '../../store/workspace.ts'
import { isTypingOutside } from '../typing.ts'
import { dressOf, isDressed, isTooMuch, pickFromCapture, wholeRange } from './picking.ts'
import { looksByBlocks, looksOf, plainLooks } from './reading/looks.ts'
import { headingsOf, type Heading } from './reading/outline.ts'
import { PARSED_AT_ONCE, parseInSlices, parseNow, stepInSlices } from './reading/parsing.ts'
import { blocksIn, placeOf, readerView, showLooks, type PressedLink } from './reading/readerView.ts'
import { titleOf } from './rows.ts'
import { SelectionBar } from './SelectionBar.tsx'
import type { Goal } from './useGoal.ts'

export interface ReadingTextProps {
  readonly source: Source
  readonly capture: Capture
  readonly goal: Goal | null
  /** The selected words changed; null where none are. */
  readonly onSelection: (selection: TextSelection | null) => void
  readonly onStrike: (words: string) => void
  /** The text's headings are known. */
  readonly onHeadings: (headings: readonly Heading[]) => void
  /** Another place of the text stands at the head of the window. */
  readonly onPlace: (position: number) => void
  readonly onLink: (link: PressedLink) => void
  /** Holds the editor while there is one, for keys that are pressed beside it. */
  readonly editor: RefObject<EditorView | null>
}

/** What is selected in the text, and what can be done with it. */
export interface TextSelection {
  readonly words: () => string
  readonly carry: () => void
  readonly trace: () => void
}

/** A capture's text, to be read, searched and carried from. */
export function ReadingText(props: ReadingTextProps) {
  const { source, capture, goal, onStrike, editor } = props
  const workspace = useWorkspace()
  const parent = useRef<HTMLDivElement>(null)
  const latest = useRef(props)
  const [view, setView] = useState<EditorView | null>(null)
  const [bar] = useState(() => document.createElement('div'))
  const [selection, setSelection] = useState<TextSelection | null>(null)
  useEffect(() => {
    latest.current = props
  })
  const dress = dressOf(source, capture)
  const isSeenDressed = isDressed(source, capture)
  useEffect(() => {
    const tell = (next: TextSelection | null): void => {
      setSelection(next)
      latest.current.onSelection(next)
    }
    const opened = new EditorView({
      parent: parent.current!,
      state: EditorState.create({
        doc: capture.text,
        extensions: [
          readerView({
            onLink: (link) => latest.current.onLink(link),
            onPlace: (position) => latest.current.onPlace(position),
          }),
          readingExtensions(
            `Text of ${titleOf(latest.current.source)}`,
            keysFor(workspace, latest),
            // What is dressed has its shades from its looks.
            isSeenDressed ? 'text' : dress,
          ),
          leavingFrom(workspace, latest),
          barAtSelection(bar),
          tellingSelection(workspace, latest, tell),
        ],
      }),
    })
    const stopDressing = dressText(opened, latest, isSeenDressed, dress !== 'markdown')
    setView(opened)
    editor.current = opened
    if (!isTypingOutside(parent.current!)) opened.focus()
    return () => {
      stopDressing()
      opened.destroy()
      setView(null)
      editor.current = null
      tell(null)
    }
  }, [workspace, capture.id, capture.text, dress, isSeenDressed, bar, editor])
  useEffect(() => {
    if (view && goal) goTo(view, goal)
  }, [view, goal])
  return (
    <>
      <div
        ref={parent}
        className={`st-reading-text st-editor${dress === 'markdown' ? '' : ' st-mono'}`}
        data-node={capture.id}
      />
      {createPortal(
        selection ? (
          <SelectionBar
            onCarry={selection.carry}
            onTrace={selection.trace}
            onStrike={() => onStrike(selection.words())}
          />
        ) : null,
        bar,
      )}
    </>
  )
}

type Latest = { readonly current: ReadingTextProps }

/**
 * Gives the text its looks and tells its headings: at once where it is short, else as soon as it is parsed.
 * @returns how to stop
 */
function dressText(view: EditorView, latest: Latest, isSeenDressed: boolean, isPlain: boolean): () => void {
  const { text, pages } = latest.current.capture
  if (!isSeenDressed && pages.length > 0) showLooks(view, plainLooks(pages, view.state.doc))
  if (isPlain) return () => undefined
  const { doc } = view.state
  if (text.length <= PARSED_AT_ONCE) {
    const tree = parseNow(text)
    latest.current.onHeadings(headingsOf(text, tree))
    if (isSeenDressed) showLooks(view, looksOf(text, doc, tree, pages))
    return () => undefined
  }
  let stopLooks = (): void => undefined
  const stopParsing = parseInSlices(text, (tree) => {
    latest.current.onHeadings(headingsOf(text, tree))
    if (!isSeenDressed) return
    stopLooks = stepInSlices(looksByBlocks(text, doc, tree, pages), (looks) => {
      showLooks(view, looks)
      // Lines above may have changed their height.
      if (latest.current.goal) goTo(view, latest.current.goal)
      latest.current.onPlace(placeOf(view))
    })
  })
  return () => {
    stopParsing()
    stopLooks()
  }
}

function pickNow(workspace: Workspace, { current }: Latest, view: EditorView, ranges: readonly Range[]) {
  const { source, capture } = current
  const blocks = blocksIn(view)
  const whole =
    blocks.length === 0 || isTooMuch(ranges)
      ? ranges
      : ranges.map((range) => wholeRange(capture.text, range, blocks))
  return pickFromCapture(workspace.requireLab().id, source, capture, whole)
}

function keysFor(workspace: Workspace, latest: Latest): Extension {
  const run = (view: EditorView): boolean => {
    const ranges = selectedRanges(view)
    if (ranges.length === 0) return false
    carryRanges(workspace, latest, view)
    return true
  }
  const trace = (view: EditorView): boolean => {
    traceRanges(workspace, latest, view)
    return true
  }
  return Prec.high(
    keymap.of([
      { key: 'Alt-c', run, stopPropagation: true },
      { key: 'Alt-t', run: trace, stopPropagation: true },
    ]),
  )
}

function carryRanges(workspace: Workspace, latest: Latest, view: EditorView): void {
  const ranges = selectedRanges(view)
  const carrying = pickNow(workspace, latest, view, ranges)
  if (carrying) workspace.set({ carrying })
  else if (isTooMuch(ranges))
    workspace.say(
      'notice',
      'This is too much to carry at once. Select the words that matter, or carry the whole source as a citation.',
    )
  else workspace.say('notice', 'There are no words in what is selected.')
}

/** Traces the selected words, or the capture where none are. */
function traceRanges(workspace: Workspace, { current: { capture } }: Latest, view: EditorView): void {
  const ranges = selectedRanges(view)
  workspace.set({ traced: { kind: 'capture', id: capture.id, ...(ranges.length > 0 ? { ranges } : {}) } })
}

function leavingFrom(workspace: Workspace, latest: Latest): Extension {
  return leaving({
    pick: (ranges) =>
      latest.current.editor.current
        ? pickNow(workspace, latest, latest.current.editor.current, ranges)
        : null,
    onDragStart: (dragging) => workspace.set({ dragging }),
    onDragEnd: () => workspace.set({ dragging: null }),
  })
}

function tellingSelection(
  workspace: Workspace,
  latest: Latest,
  tell: (selection: TextSelection | null) => void,
): Extension {
  let hadSome = false
  return EditorView.updateListener.of(({ view, selectionSet }) => {
    if (!selectionSet) return
    const hasSome = view.state.selection.ranges.some((range) => !range.empty)
    if (hasSome === hadSome) return
    hadSome = hasSome
    tell(
      hasSome
        ? {
            words: () =>
              selectedRanges(view)
                .map(({ start, end }) => view.state.sliceDoc(start, end))
                .join('\n'),
            carry: () => carryRanges(workspace, latest, view),
            trace: () => traceRanges(workspace, latest, view),
          }
        : null,
    )
  })
}

/** Keeps an element beside the end of the selection, as long as there is one and its end is in view. */
function barAtSelection(dom: HTMLElement): Extension {
  const create = () => ({ dom, offset: { x: 0, y: 4 } })
  return [
    tooltips({ position: 'fixed' }),
    showTooltip.compute(['selection'], ({ selection: { main } }): Tooltip | null =>
      main.empty ? null : { pos: main.to, above: false, create },
    ),
  ]
}

function goTo(view: EditorView, goal: Goal): void {
  showMarks(view, goal.ranges)
  const first = goal.ranges[0]
  if (first && first.start <= view.state.doc.length) view.dispatch({ selection: { anchor: first.start } })
  if (!isTypingOutside(view.dom)) view.focus()
}
