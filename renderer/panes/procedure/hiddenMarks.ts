/**
 * Markdown's marks, hidden where the cursor is not: the text that is typed reads like the page. Only what is drawn changes;
 * the text itself is the same to the last character, so that it can be shown raw at any time.
 */
import { syntaxTree } from '@codemirror/language'
import type { EditorState, Extension, Range as Placed } from '@codemirror/state'
import type { EditorView } from '@codemirror/view'
import { Decoration, ViewPlugin, WidgetType, type DecorationSet, type ViewUpdate } from '@codemirror/view'
import type { SyntaxNodeRef, Tree } from '@lezer/common'
import { maybeStepNamed } from '../../../shared/markdown/addresses.ts'

/** What is drawn in the place of a range that lies within one line; nothing where `shown` is empty. */
export interface Hidden {
  readonly from: number
  readonly to: number
  readonly shown: string
}

/** A class for a whole line, by where the line begins. */
export interface LineLook {
  readonly at: number
  readonly look: 'code' | 'fence' | 'quote'
}

export interface HiddenMarks {
  readonly hidden: readonly Hidden[]
  readonly lines: readonly LineLook[]
}

/** What a reference to a step reads as. */
export type WordsOfStep = (step: string, typed: string) => string

const stretch = { from: 0, to: Number.POSITIVE_INFINITY }

/**
 * What is hidden of a text as its cursors stand.
 * @param within the part of the text that is looked at
 * @param tree what is known of the text's structure so far
 */
export function hiddenMarksIn(
  state: EditorState,
  wordsOfStep: WordsOfStep,
  within: { readonly from: number; readonly to: number } = stretch,
  tree: Tree = syntaxTree(state),
): HiddenMarks {
  const hidden: Hidden[] = []
  const lines: LineLook[] = []
  const isAtCursor = (from: number, to: number): boolean =>
    state.selection.ranges.some((range) => range.from <= to && range.to >= from)
  const hide = (from: number, to: number, shown = ''): void => {
    if (from < to && to <= state.doc.lineAt(from).to) hidden.push({ from, to, shown })
  }
  const to = Math.min(within.to, state.doc.length)
  tree.iterate({
    from: within.from,
    to,
    enter: (node) => {
      const visit = visitors[node.name]
      return visit ? visit({ node, state, lines, hide, isAtCursor, wordsOfStep }) : undefined
    },
  })
  return { hidden, lines }
}

interface Visit {
  readonly node: SyntaxNodeRef
  readonly state: EditorState
  readonly lines: LineLook[]
  readonly hide: (from: number, to: number, shown?: string) => void
  readonly isAtCursor: (from: number, to: number) => boolean
  readonly wordsOfStep: WordsOfStep
}

/** @returns false where what lies within is not looked at */
type Visitor = (visit: Visit) => boolean | undefined

const visitors: Readonly<Record<string, Visitor>> = {
  Emphasis: hideMarks('EmphasisMark'),
  StrongEmphasis: hideMarks('EmphasisMark'),
  Strikethrough: hideMarks('StrikethroughMark'),
  InlineCode: hideMarks('CodeMark'),
  Link: visitLink,
  Image: () => false,
  FencedCode: visitFence,
  QuoteMark: visitQuote,
  ListMark: visitListMark,
  Escape: ({ node, hide, isAtCursor }) => {
    if (!isAtCursor(node.from, node.to)) hide(node.from, node.from + 1)
    return undefined
  },
  ...Object.fromEntries([1, 2, 3, 4, 5, 6].map((level) => [`ATXHeading${level}`, visitHeading])),
}

function hideMarks(name: string): Visitor {
  return ({ node, hide, isAtCursor }) => {
    if (isAtCursor(node.from, node.to)) return undefined
    for (const mark of node.node.getChildren(name)) hide(mark.from, mark.to)
    return undefined
  }
}

/** The words stay, or for a reference to a step what it reads as; a link without an address is left as it is. */
function visitLink({ node, state, hide, isAtCursor, wordsOfStep }: Visit): boolean | undefined {
  const address = node.node.getChild('URL')
  const [open, close] = node.node.getChildren('LinkMark')
  if (!address || !open || !close || isAtCursor(node.from, node.to)) return undefined
  const words = state.sliceDoc(open.to, close.from)
  const step = maybeStepNamed(state.sliceDoc(address.from, address.to))
  if (step !== undefined) {
    hide(node.from, node.to, wordsOfStep(step, words))
    return false
  }
  hide(open.from, open.to)
  hide(close.from, node.to)
  return undefined
}

function visitHeading({ node, state, hide, isAtCursor }: Visit): undefined {
  const line = state.doc.lineAt(node.from)
  if (isAtCursor(line.from, line.to)) return
  const [open, close] = node.node.getChildren('HeaderMark')
  if (open) hide(open.from, blanksBehind(state, open.to, line.to))
  if (close && close.from > open!.to) hide(close.from, close.to)
}

const blanksBehind = (state: EditorState, from: number, most: number): number =>
  from + (/^[ \t]*/.exec(state.sliceDoc(from, Math.min(most, from + 8)))?.[0].length ?? 0)

function visitFence({ node, state, lines, hide, isAtCursor }: Visit): false {
  const first = state.doc.lineAt(node.from)
  const last = state.doc.lineAt(node.to)
  const isOpen = isAtCursor(first.from, last.to)
  const marks = node.node.getChildren('CodeMark')
  for (let number = first.number; number <= last.number; number += 1) {
    const line = state.doc.line(number)
    const isFence = marks.some(({ from }) => from >= line.from && from <= line.to)
    lines.push({ at: line.from, look: isFence ? 'fence' : 'code' })
    if (isFence && !isOpen) hide(Math.max(line.from, node.from), line.to)
  }
  return false
}

function visitQuote({ node, state, lines, hide, isAtCursor }: Visit): undefined {
  const line = state.doc.lineAt(node.from)
  lines.push({ at: line.from, look: 'quote' })
  if (!isAtCursor(line.from, line.to)) hide(node.from, blanksBehind(state, node.to, node.to + 1))
}

/** A bullet is drawn as one; a number is what it says. */
function visitListMark({ node, state, hide, isAtCursor }: Visit): undefined {
  const isBullet = node.to - node.from === 1
  if (isBullet && !isAtCursor(node.from, state.doc.lineAt(node.from).to)) hide(node.from, node.to, '•')
}

class Shown extends WidgetType {
  constructor(private readonly words: string) {
    super()
  }

  override eq(other: Shown): boolean {
    return other.words === this.words
  }

  override toDOM(): HTMLElement {
    const element = document.createElement('span')
    element.className = this.words === '•' ? 'st-md-bullet' : 'st-md-step'
    element.textContent = this.words
    return element
  }
}

const looks = {
  code: Decoration.line({ class: 'st-md-code' }),
  fence: Decoration.line({ class: 'st-md-fence' }),
  quote: Decoration.line({ class: 'st-md-quote' }),
} as const

function decorationsOf(view: EditorView, wordsOfStep: WordsOfStep): DecorationSet {
  const placed: Placed<Decoration>[] = []
  for (const range of view.visibleRanges) {
    const { hidden, lines } = hiddenMarksIn(view.state, wordsOfStep, range)
    for (const { at, look } of lines) placed.push(looks[look].range(at))
    for (const { from, to, shown } of hidden)
      placed.push(Decoration.replace(shown === '' ? {} : { widget: new Shown(shown) }).range(from, to))
  }
  return Decoration.set(placed, true)
}

/** Hides Markdown's marks where the cursor is not. */
export function hiddenMarks(wordsOfStep: WordsOfStep): Extension {
  return ViewPlugin.fromClass(
    class {
      decorations: DecorationSet

      constructor(view: EditorView) {
        this.decorations = decorationsOf(view, wordsOfStep)
      }

      update(update: ViewUpdate): void {
        const isParsed = syntaxTree(update.startState) !== syntaxTree(update.state)
        if (update.docChanged || update.selectionSet || update.viewportChanged || isParsed)
          this.decorations = decorationsOf(update.view, wordsOfStep)
      }
    },
    { decorations: (plugin) => plugin.decorations },
  )
}
