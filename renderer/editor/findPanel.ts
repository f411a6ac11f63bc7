/**
 * Looking for words in a text that is read: CodeMirror's search with a line of our own at the text's head, made so that
 * it stays quick in texts of tens of megabytes.
 */
import {
  closeSearchPanel,
  findNext,
  getSearchQuery,
  openSearchPanel,
  search,
  SearchQuery,
  setSearchQuery,
} from '@codemirror/search'
import { Facet, type EditorState, type Extension } from '@codemirror/state'
import { EditorView, keymap, type Panel, type ViewUpdate } from '@codemirror/view'

/** Not more than this are counted, and for no longer than this many milliseconds. */
const MOST_COUNTED = 999
const COUNTING_MS = 60

/** Says of places that nobody can see them, so that finding passes them by. */
export const unseenPlaces = Facet.define<(state: EditorState, from: number, to: number) => boolean>()

function isSeen(_words: string, state: EditorState, from: number, to: number): boolean {
  return !state.facet(unseenPlaces).some((isUnseen) => isUnseen(state, from, to))
}

/** Finding in a read-only text: Ctrl+F opens the line, F3 and Shift+F3 or Enter and Shift+Enter go on and back. */
export function finding(): Extension {
  return [
    search({ top: true, regexp: true, createPanel: (view) => new FindPanel(view) }),
    keymap.of([
      { key: 'Mod-f', run: openFind, preventDefault: true },
      { key: 'F3', run: findNext, shift: findBefore, preventDefault: true },
      { key: 'Mod-g', run: findNext, shift: findBefore, preventDefault: true },
      { key: 'Escape', run: closeSearchPanel },
    ]),
  ]
}

/**
 * The query for words as they were typed, in any case. It is written as a pattern: plain queries are matched character
 * by character after normalising each, which takes seconds in tens of megabytes; a pattern takes tens of milliseconds.
 */
export function queryFor(words: string): SearchQuery {
  return new SearchQuery({
    search: words.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&'),
    regexp: true,
    test: isSeen,
  })
}

/** The words that a query of ours was made of. */
export function wordsOf(query: SearchQuery): string {
  return query.search.replace(/\\([\\^$.*+?()[\]{}|/])/g, '$1')
}

/** Opens the line for finding, with what is selected where that is a few words of one line. */
export function openFind(view: EditorView): boolean {
  const { from, to } = view.state.selection.main
  const selected = to - from > 100 ? '' : view.state.sliceDoc(from, to)
  const query = selected === '' || selected.includes('\n') ? getSearchQuery(view.state) : queryFor(selected)
  openSearchPanel(view)
  view.dispatch({ effects: setSearchQuery.of(query) })
  return true
}

/**
 * Selects the last place before the selection, or the last of all. The library's own way looks through longer and longer
 * pieces again and again, which never ends in a long text with few places.
 */
export function findBefore(view: EditorView): boolean {
  const query = getSearchQuery(view.state)
  const { from, to } = view.state.selection.main
  if (query.search === '') return openFind(view)
  const place = lastIn(view, query, 0, from) ?? lastIn(view, query, to, view.state.doc.length)
  if (!place) return false
  view.dispatch({
    selection: { anchor: place.from, head: place.to },
    effects: EditorView.scrollIntoView(place.from, { y: 'center' }),
    userEvent: 'select.search',
  })
  return true
}

function lastIn(view: EditorView, query: SearchQuery, from: number, to: number) {
  let last: { from: number; to: number } | null = null
  const cursor = query.getCursor(view.state, from, to)
  for (let next = cursor.next(); !next.done; next = cursor.next()) last = next.value
  return last
}

/** How often the words stand in the text, in words. */
export function countWords(view: EditorView, query: SearchQuery, now = () => performance.now()): string {
  if (query.search === '') return ''
  const until = now() + COUNTING_MS
  const cursor = query.getCursor(view.state)
  let count = 0
  for (let next = cursor.next(); !next.done; next = cursor.next()) {
    count++
    if (count >= MOST_COUNTED || (count % 16 === 0 && now() > until)) return `${count} or more found`
  }
  return count === 0 ? 'Not found' : `${count} found`
}

/** The line with the words, back, forward and close, and how many were found. */
class FindPanel implements Panel {
  readonly dom = make('div', 'st-find')
  readonly top = true
  private readonly field = make('input', 'st-input st-find-words')
  private readonly count = make('span', 'st-find-count')

  constructor(private readonly view: EditorView) {
    const { field } = this
    field.type = 'text'
    field.placeholder = 'Find in this text'
    field.setAttribute('aria-label', 'Find in this text')
    // The library puts the focus on the field that carries this.
    field.setAttribute('main-field', 'true')
    field.addEventListener('input', () => this.look())
    this.count.setAttribute('role', 'status')
    this.dom.append(
      field,
      button('Previous', () => findBefore(view)),
      button('Next', () => findNext(view)),
      button('Close', () => leave(view)),
      this.count,
    )
    this.dom.addEventListener('keydown', (event) => this.onKey(event))
  }

  mount(): void {
    this.show(getSearchQuery(this.view.state))
    this.field.select()
  }

  update(update: ViewUpdate): void {
    for (const effect of update.transactions.flatMap((one) => one.effects))
      if (effect.is(setSearchQuery) && wordsOf(effect.value) !== this.field.value) this.show(effect.value)
  }

  private show(query: SearchQuery): void {
    this.field.value = wordsOf(query)
    this.count.textContent = countWords(this.view, query)
  }

  private look(): void {
    const query = queryFor(this.field.value)
    this.view.dispatch({ effects: setSearchQuery.of(query) })
    this.count.textContent = countWords(this.view, query)
  }

  private onKey(event: KeyboardEvent): void {
    const { view, field } = this
    if (event.key === 'Escape') leave(view)
    else if (event.key === 'F3' || (event.key === 'Enter' && event.target === field)) {
      if (event.shiftKey) findBefore(view)
      else findNext(view)
    } else if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'f') field.select()
    else return
    event.preventDefault()
    event.stopPropagation()
  }
}

function leave(view: EditorView): void {
  closeSearchPanel(view)
  view.focus()
}

function button(word: string, act: () => void): HTMLButtonElement {
  const made = make('button', 'st-button st-button--quiet')
  made.type = 'button'
  made.textContent = word
  made.addEventListener('click', act)
  return made
}

function make<K extends keyof HTMLElementTagNameMap>(tag: K, classes: string): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag)
  element.className = classes
  return element
}
