/** Fragments of entries: whole ones, and words selected in their rendered text. */
import { pickFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import type { Entry, Range } from '../../../shared/lab/model.ts'
import { balancedRange } from '../../../shared/markdown/balance.ts'
import { selectionToSourceRange } from '../../ui/Markdown.tsx'
import type { Workspace } from '../../store/workspace.ts'

/** Marks the element that holds an entry's rendered text. */
export const TEXT_ATTRIBUTE = 'data-entry-text'

/** The fragment for ranges of an entry's Markdown; null where nothing but white space lies in them. */
export function fragmentOfEntry(
  workspace: Workspace,
  { id, kind }: Entry,
  text: string,
  ranges: readonly Range[],
): Fragment | null {
  const from = {
    lab: workspace.requireLab().id,
    node: { kind: 'entry', id },
    // Settled when it is carried: by then the entry may have been amended.
    revision: null,
    origin: { kind: 'entry', entryKind: kind },
    title: '',
    address: null,
    text,
  } as const
  return pickFragment(from, ranges)
}

/** The fragment for an entry as a whole. */
export function wholeEntry(workspace: Workspace, entry: Entry): Fragment | null {
  const text = workspace.requireView().texts.get(entry.id) ?? ''
  return fragmentOfEntry(workspace, entry, text, [{ start: 0, end: text.length }])
}

/** Words selected in the journal. */
export interface EntrySelection {
  readonly entry: Entry
  readonly range: Range
  readonly fragment: Fragment
  /** The selection goes on beyond the entry that it begins in; only the words within that one are meant. */
  readonly isCut: boolean
}

/** What is selected in the rendered text of an entry within `root`; null where there is no such thing. */
export function findSelection(workspace: Workspace, root: Element): EntrySelection | null {
  const selection = root.ownerDocument.getSelection()
  if (!selection || selection.isCollapsed || selection.rangeCount === 0) return null
  const selected = selection.getRangeAt(0)
  const holder = firstTextIn(root, selected)
  const entry = holder && workspace.state.view?.entries.get(holder.getAttribute(TEXT_ATTRIBUTE)!)
  if (!holder || !entry) return null
  const text = workspace.requireView().texts.get(entry.id) ?? ''
  const words = selectionToSourceRange(holder, selection)
  const range = words && balancedRange(text, words)
  const fragment = range && fragmentOfEntry(workspace, entry, text, [range])
  if (!range || !fragment) return null
  return { entry, range, fragment, isCut: !holder.contains(selected.endContainer) && endsInText(selected) }
}

function firstTextIn(root: Element, selected: globalThis.Range): Element | null {
  const start = elementOf(selected.startContainer)
  if (!root.contains(start) && !root.contains(elementOf(selected.endContainer))) return null
  const around = start?.closest(`[${TEXT_ATTRIBUTE}]`)
  if (around) return around
  return (
    [...root.querySelectorAll(`[${TEXT_ATTRIBUTE}]`)].find((text) => selected.intersectsNode(text)) ?? null
  )
}

/** A selection of a whole paragraph ends before the first character of what follows: that is not another entry's word. */
function endsInText(selected: globalThis.Range): boolean {
  const end = elementOf(selected.endContainer)?.closest(`[${TEXT_ATTRIBUTE}]`)
  if (!end) return false
  const inEnd = selected.cloneRange()
  inEnd.setStart(end, 0)
  return inEnd.toString().trim() !== ''
}

function elementOf(node: Node): Element | null {
  return node instanceof Element ? node : node.parentElement
}

/** Said when a selection reaches over several entries. */
export const CUT_SENTENCE =
  'A fragment comes from one entry: the words within the first one were taken. Carry the others after it.'

/** Said when something is to be carried from an entry that was withdrawn. */
export const WITHDRAWN_SENTENCE = 'This entry was withdrawn. Bring it back first, then carry from it.'

/** Why nothing can be carried from an entry now, as a sentence; null where it can. */
export function refusalToCarry(workspace: Workspace, { id }: Entry): string | null {
  const view = workspace.requireView()
  if (view.withdrawn.has(id)) return WITHDRAWN_SENTENCE
  return view.texts.get(id)?.trim() ? null : 'This entry holds no words to carry.'
}

/** Offers the places that a fragment of an entry can be carried to, or says why it cannot be. */
export function offerToCarry(workspace: Workspace, entry: Entry, fragment: Fragment | null): void {
  const refusal = refusalToCarry(workspace, entry)
  if (refusal) workspace.say('notice', refusal)
  else if (fragment) workspace.set({ carrying: fragment })
}
