/** Markdown as it reads, and the way back from a selection in it to the Markdown source. */
import { toJsxRuntime } from 'hast-util-to-jsx-runtime'
import { memo, useMemo, type ReactElement } from 'react'
import { Fragment, jsx, jsxs } from 'react/jsx-runtime'
import type { Range } from '../../shared/lab/model.ts'
import { markRanges } from '../../shared/markdown/marks.ts'
import { setPlaceholdersApart } from '../../shared/markdown/placeholders.ts'
import { renderMarkdown } from '../../shared/markdown/render.ts'
import { sourceRangeOf, type RunPoint } from '../../shared/markdown/runs.ts'
import { MarkdownPicture } from './blobs.tsx'
import { Fence } from './Fence.tsx'
import { Placeholder } from './placeholders.tsx'
import { MarkdownLink } from './stepLinks.tsx'
import { TickBox } from './ticks.tsx'
import './markdown.css'

type Tree = ReturnType<typeof renderMarkdown>

interface MarkdownProps {
  readonly text: string
  /** Ranges of the source whose words are marked, in UTF-16 code units of `text`. */
  readonly marks?: readonly Range[]
}

const noMarks: readonly Range[] = []
const components = { a: MarkdownLink, data: Placeholder, img: MarkdownPicture, input: TickBox, pre: Fence }

/**
 * Shows a Markdown text. Nothing in it runs, loads or navigates: a link is an `a.address` without `href` whose address
 * stands in `data-address`.
 */
export const Markdown = memo(function Markdown({ text, marks = noMarks }: MarkdownProps): ReactElement {
  const shown = useMemo(() => {
    const kept = keptOf(text)
    return marks.length === 0 ? kept.plain() : toElement(markRanges(kept.tree, marks))
  }, [text, marks])
  return <div className="markdown">{shown}</div>
})

/** Reads a text that will soon be shown, while there is time for it. */
export function prepareMarkdown(text: string): void {
  if (text.length <= keptTextLimit && !keptTexts.has(text)) keptOf(text).plain()
}

interface Kept {
  readonly tree: Tree
  /** The text without marks; made once. */
  readonly plain: () => ReactElement
}

const keptTexts = new Map<string, Kept>()
const keptTextsLimit = 500
const keptTextLimit = 20_000

/** Entries never change and come back into view as the journal scrolls, so the last few hundred texts are kept. */
function keptOf(text: string): Kept {
  const kept = keptTexts.get(text) ?? readText(text)
  if (text.length > keptTextLimit) return kept
  keptTexts.delete(text)
  keptTexts.set(text, kept)
  const oldest = keptTexts.keys().next()
  if (keptTexts.size > keptTextsLimit && !oldest.done) keptTexts.delete(oldest.value)
  return kept
}

function readText(text: string): Kept {
  const tree = setPlaceholdersApart(renderMarkdown(text), text)
  let plain: ReactElement | undefined
  return { tree, plain: () => (plain ??= toElement(tree)) }
}

function toElement(tree: Tree): ReactElement {
  return toJsxRuntime(tree, { Fragment, jsx, jsxs, components, passNode: true }) as ReactElement
}

/**
 * The range of the Markdown source that a selection covers.
 * @param root an element in which one text is shown by `Markdown`; what is selected outside of it is left out
 * @returns null when nothing of the text is selected
 */
export function selectionToSourceRange(root: Element, selection: Selection): Range | null {
  if (selection.rangeCount === 0 || selection.isCollapsed) return null
  const range = selection.getRangeAt(0)
  const runs = Array.from(root.querySelectorAll('[data-from][data-to]')).filter((run) => touches(range, run))
  const [first, last] = [runs[0], runs[runs.length - 1]]
  if (!first || !last) return null
  const start = isWhole(first) ? 0 : offsetIn(first, range.startContainer, range.startOffset, 0)
  const end = isWhole(last)
    ? textLength(last)
    : offsetIn(last, range.endContainer, range.endOffset, textLength(last))
  return sourceRangeOf(pointOf(first, start), pointOf(last, end))
}

/** What is shown as something other than its text: a selection that touches it takes its whole source. */
const isWhole = (run: Element): boolean => run.hasAttribute('data-whole')

const textLength = (run: Element): number =>
  isWhole(run) ? lengthOfSource(run) : (run.textContent?.length ?? 0)

const lengthOfSource = (run: Element): number =>
  Number(run.getAttribute('data-to')) - Number(run.getAttribute('data-from'))

/** Says whether at least one character of a run is selected; a range that ends right before a run still meets its node. */
function touches(range: globalThis.Range, run: Element): boolean {
  if (!range.intersectsNode(run)) return false
  if (isWhole(run)) return true
  const start = offsetIn(run, range.startContainer, range.startOffset, 0)
  const end = offsetIn(run, range.endContainer, range.endOffset, textLength(run))
  return start < end
}

/** Where a range's boundary lies within a run's text; `outside` where it lies in another place. */
function offsetIn(run: Element, container: Node, offset: number, outside: number): number {
  if (container === run) return offset === 0 ? 0 : textLength(run)
  return run.contains(container) ? offset : outside
}

function pointOf(run: Element, offset: number): RunPoint {
  const from = Number(run.getAttribute('data-from'))
  const to = Number(run.getAttribute('data-to'))
  return { from, to, length: textLength(run), offset }
}
