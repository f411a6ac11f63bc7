/**
 * Keys that are pressed before the editor they are meant for is there. A plain field, out of sight, holds the text as it
 * stood and takes them; so Backspace, arrows and pasted words do what they would have done. The editor then takes over.
 */
import { ChangeSet } from '@codemirror/state'
import type { EditorView } from '@codemirror/view'
import { insertedBy, toChangeSetJson } from '../../shared/lab/text.ts'
import { bringsOrigin, copyOfPasted } from './fragments.ts'

export interface EarlyText {
  /** What the text is, for those who do not see the screen. */
  readonly label: string
  /** The text as it is known on the screen; the editor may yet find a newer one. */
  readonly text: string
  /** Enter ends a title; it is no line end of it. */
  readonly isOneLine?: boolean
  /** Whether typing begins before the text, whatever it comes to be; else behind it. */
  readonly isAtStart?: boolean
  /** Where the cursor is, in UTF-16 code units; behind the text where left out. */
  readonly selection?: { readonly anchor: number; readonly head: number }
}

/** How long keys wait for the editor of a text that was made for them, in milliseconds. */
const LONGEST_WAIT = 5000

const waiting = new Map<string, EarlyKeys>()

export class EarlyKeys {
  private readonly field = document.createElement('textarea')
  private readonly text: string
  private readonly isAtStart: boolean
  private readonly held: (() => Event)[] = []
  private readonly before = document.activeElement
  private moves = 0
  private isTaken = false

  /**
   * Begins to take keys.
   * @param parent where the field stands; it goes with its parent at the latest
   * @param giveBack called at the end with what was typed where no editor has taken it over
   */
  constructor(
    parent: HTMLElement,
    { label, text, isOneLine = false, isAtStart = false, selection }: EarlyText,
    private readonly giveBack: (words: string) => void,
  ) {
    const { field } = this
    this.isAtStart = isAtStart
    field.className = 'st-early st-unseen'
    field.setAttribute('aria-label', label)
    field.wrap = 'off'
    field.value = text
    // A field has line ends of its own kind.
    this.text = field.value
    field.addEventListener('keydown', (event) => {
      if (!isCommand(event, isOneLine)) return
      event.preventDefault()
      event.stopPropagation()
      if (!event.repeat) this.held.push(() => pressedAgain(event))
    })
    // Words with an origin are pasted by the editor, which keeps it; the field would keep the bare words alone.
    field.addEventListener('paste', (event) => {
      if (!event.clipboardData || !bringsOrigin(event.clipboardData)) return
      event.preventDefault()
      // What an event brings can be read while it lasts, and no longer.
      const clipboardData = copyOfPasted(event.clipboardData)
      this.held.push(() => new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
    })
    parent.append(field)
    field.focus({ preventScroll: true })
    const { anchor, head } = selection ?? { anchor: this.text.length, head: this.text.length }
    const way = head < anchor ? 'backward' : 'forward'
    field.setSelectionRange(Math.min(anchor, head), Math.max(anchor, head), way)
  }

  /** Grows when the field is moved: whoever waited before has no claim to the keys any more. */
  get turn(): number {
    return this.moves
  }

  /** Goes on taking keys after the person was elsewhere. */
  goOn(): void {
    this.field.focus({ preventScroll: true })
  }

  /** Goes on taking keys at another place of the page. */
  moveTo(parent: HTMLElement): this {
    this.moves += 1
    parent.append(this.field)
    this.field.focus({ preventScroll: true })
    return this
  }

  /** The keys that were taken for a text before its editor was begun; null where there were none. */
  static maybeFor(node: string): EarlyKeys | null {
    const keys = waiting.get(node) ?? null
    waiting.delete(node)
    return keys
  }

  /** Leaves the keys to the editor of a text that is about to be begun. */
  leaveTo(node: string): void {
    waiting.set(node, this)
    setTimeout(() => {
      if (waiting.get(node) !== this) return
      waiting.delete(node)
      this.end()
    }, LONGEST_WAIT)
  }

  /** Whether the person has gone on to something else. Nothing must then bring them back. */
  get isLeft(): boolean {
    const { activeElement } = document
    return activeElement !== null && activeElement !== document.body && activeElement !== this.field
  }

  /** Does to the editor's text what was done to the field's, and puts the cursor where it was there. */
  handOver(view: EditorView): void {
    const { value, selectionStart, selectionEnd, selectionDirection } = this.field
    const typed = changesBetween(this.text, value)
    const newer = changesBetween(this.text, view.state.doc.toString())
    const place = newer.map(typed, !this.isAtStart)
    const side = this.isAtStart ? -1 : 1
    const [from, to] = [place.mapPos(selectionStart, side), place.mapPos(selectionEnd, side)]
    const [anchor, head] = selectionDirection === 'backward' ? [to, from] : [from, to]
    const changes = typed.map(newer, this.isAtStart)
    const cursor = { selection: { anchor, head }, scrollIntoView: true }
    view.dispatch(changes.empty ? cursor : { ...cursor, changes, userEvent: 'input.type' })
    this.isTaken = true
  }

  /** Presses in the editor what it alone has an answer for, in the order in which it was pressed. */
  pressHeld(view: EditorView): void {
    for (const again of this.held.splice(0)) view.contentDOM.dispatchEvent(again())
  }

  /** Takes no more keys. Where the focus is still here, it goes back to where it was. */
  end(): void {
    const isHere = document.activeElement === this.field
    this.field.remove()
    if (isHere && this.before instanceof HTMLElement && this.before.isConnected) this.before.focus()
    if (this.isTaken) return
    this.isTaken = true
    const words = insertedBy(toChangeSetJson(changesBetween(this.text, this.field.value)))
    if (words !== '') this.giveBack(words)
  }
}

/** Keys that mean something to a text's editor and nothing to a plain field. */
function isCommand(event: KeyboardEvent, isOneLine: boolean): boolean {
  if (event.isComposing) return false
  const hasControl = event.ctrlKey || event.metaKey
  if (event.key === 'Escape') return true
  if (event.key === 'Enter') return isOneLine || hasControl
  return event.altKey && !hasControl && event.code.startsWith('Key')
}

function pressedAgain(event: KeyboardEvent): KeyboardEvent {
  const { key, code, keyCode, ctrlKey, metaKey, altKey, shiftKey } = event
  const modifiers = { ctrlKey, metaKey, altKey, shiftKey }
  return new KeyboardEvent('keydown', { key, code, keyCode, ...modifiers, bubbles: true, cancelable: true })
}

/** What makes one text of another: what lies between the ends that they share. */
export function changesBetween(before: string, after: string): ChangeSet {
  const most = Math.min(before.length, after.length)
  let start = 0
  while (start < most && before[start] === after[start]) start++
  // Half a character outside the basic plane is none.
  if (start > 0 && isHigh(before.charCodeAt(start - 1))) start--
  let end = 0
  while (end < most - start && before.at(-1 - end) === after.at(-1 - end)) end++
  if (end > 0 && isLow(before.charCodeAt(before.length - end))) end--
  if (start === before.length && start === after.length) return ChangeSet.empty(before.length)
  const change = { from: start, to: before.length - end, insert: after.slice(start, after.length - end) }
  return ChangeSet.of(change, before.length)
}

const isHigh = (unit: number): boolean => unit >= 0xd800 && unit <= 0xdbff
const isLow = (unit: number): boolean => unit >= 0xdc00 && unit <= 0xdfff
