/** The value that is selected in a part of a procedure, in the text as it is read or as it is typed. */
import { EditorView } from '@codemirror/view'
import type { PartId } from '../../shared/lab/ids.ts'
import type { Range } from '../../shared/lab/model.ts'
import { fillPlaceholders, signsIn } from '../../shared/procedure/values/placeholders.ts'
import { selectionToSourceRange } from '../ui/Markdown.tsx'

export interface SelectedValue extends Range {
  readonly part: PartId
  /** The words themselves: a doubled sign is one. */
  readonly value: string
  /** The text around it, for guessing what it is. */
  readonly before: string
  readonly after: string
}

/** A longer selection is no value. */
const LONGEST = 200

/**
 * What is selected, blanks at its edges left out.
 * @param textOf a part as it stands
 * @returns null where nothing is selected that could be a value: several lines, half a placeholder
 */
export function findSelectedValue(textOf: (part: PartId) => string | undefined): SelectedValue | null {
  const selection = window.getSelection()
  const within = elementOf(selection?.anchorNode ?? null)?.closest<HTMLElement>('.st-procedure [data-node]')
  const part = within?.dataset.node as PartId | undefined
  if (!selection || !within || !part) return null
  const typed = maybeEditor(within)
  if (typed) {
    const { from, to } = typed.state.selection.main
    return toValue(part, typed.state.doc.toString(), { start: from, end: to })
  }
  const text = textOf(part)
  const range = selectionToSourceRange(within, selection)
  return text === undefined || !range ? null : toValue(part, text, range)
}

const elementOf = (node: Node | null): Element | null =>
  node instanceof Element ? node : (node?.parentElement ?? null)

function maybeEditor(within: HTMLElement): EditorView | null {
  const content = within.querySelector<HTMLElement>('.cm-content')
  return content && EditorView.findFromDOM(content)
}

/** A range of a text as a value; null where it cannot be one. */
export function toValue(part: PartId, text: string, range: Range): SelectedValue | null {
  const words = text.slice(range.start, range.end)
  const start = range.start + (words.length - words.trimStart().length)
  const end = range.end - (words.length - words.trimEnd().length)
  if (end <= start || end - start > LONGEST) return null
  const inside = text.slice(start, end)
  if (inside.includes('\n')) return null
  const isCut = signsIn(text).some((sign) =>
    sign.name === null
      ? (sign.start < start && start < sign.end) || (sign.start < end && end < sign.end)
      : sign.start < end && sign.end > start,
  )
  if (isCut) return null
  const { text: value } = fillPlaceholders(inside, new Map())
  return { part, start, end, value, before: text.slice(0, start), after: text.slice(end) }
}

let noted: SelectedValue | null = null

/** A press on a button may end the selection, so what is selected is noted at each press. @returns how to stop */
export function noteSelections(textOf: (part: PartId) => string | undefined): () => void {
  const note = (): void => {
    noted = findSelectedValue(textOf)
  }
  document.addEventListener('pointerdown', note, true)
  return () => {
    noted = null
    document.removeEventListener('pointerdown', note, true)
  }
}

/** What is selected in a part now, or was when the pointer was last pressed. */
export function selectedIn(part: PartId, textOf: (part: PartId) => string | undefined): SelectedValue | null {
  const now = findSelectedValue(textOf)
  const found = now?.part === part ? now : noted
  return found?.part === part ? found : null
}
