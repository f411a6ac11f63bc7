/**
 * The composer of one project in one window: its text, its kind and its draft. It lives as long as the project is shown,
 * also while its pane is folded, so that nothing that is given back to it can miss it.
 */
import { isolateHistory } from '@codemirror/commands'
import { ChangeSet, EditorState, Prec, Transaction, type TransactionSpec } from '@codemirror/state'
import { EditorView, keymap } from '@codemirror/view'
import { createStore } from 'zustand/vanilla'
import { insertInto } from '../../../shared/distil/distil.ts'
import type { Fragment } from '../../../shared/distil/fragment.ts'
import type { EntryId, ProjectId } from '../../../shared/lab/ids.ts'
import { noFile, typedFile } from '../../../shared/journal/files/typed.ts'
import { canAnswer } from '../../../shared/journal/problems.ts'
import { noFacts, type EntryInput } from '../../../shared/lab/acts.ts'
import type { EntryFacts, EntryKind } from '../../../shared/lab/model.ts'
import { toLines, toStorableText } from '../../../shared/lab/text.ts'
import type { OpenLab } from '../../db/lab.ts'
import { forgetHistory, typingExtensions } from '../../editor/extensions.ts'
import { carryFragment, redo, undo, writeEntry } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'
import { DraftKeeper, joinTexts } from './composerDraft.ts'
import { COMPOSER_KEYS } from './composerKeys.ts'
import { offeringSplit } from './offerSplit.ts'
import { takingDrops, type DropTaker } from './composerDrops.ts'

/** The name under which the lab keeps whether Enter alone writes the entry. */
export const ENTER_WRITES = 'enter writes'

/** Stands in the empty composer, where it takes no room from the journal. */
const HINT = `What did you do, see or decide? ${COMPOSER_KEYS} leads here, Alt+1 to 8 with a kind.`

export interface ComposerState {
  readonly kind: EntryKind
  /** What the entry will say of itself beside its text. */
  readonly facts: EntryFacts
  /** The problem that the entry will answer; null for none. */
  readonly answers: EntryId | null
  readonly enterWrites: boolean
  /** Why the entry was not written; null when there is nothing to say. */
  readonly refusal: string | null
  /** What was done last, for those who do not see the screen. */
  readonly done: string
}

export class ComposerModel implements DropTaker {
  readonly store = createStore<ComposerState>(() => ({
    kind: 'action',
    facts: noFacts,
    answers: null,
    enterWrites: false,
    refusal: null,
    done: '',
  }))
  private readonly keeper: DraftKeeper
  private readonly loaded: Promise<void>
  private state: EditorState
  private view: EditorView | null = null
  private wantsFocus = false
  private isKindChosen = false
  /** What was typed since the entry that is being written left; null while none is being written. */
  private sinceWriting: ChangeSet | null = null

  constructor(
    private readonly workspace: Workspace,
    private readonly lab: OpenLab,
    private readonly project: ProjectId,
  ) {
    const { window } = workspace
    this.keeper = new DraftKeeper(lab, {
      project,
      window,
      onUnsaved: (sentence) => workspace.setUnsaved('composer', sentence),
    })
    this.state = EditorState.create({ extensions: this.extensions() })
    this.loaded = this.load()
  }

  /** Begins to take back what is withdrawn. @returns how to end it; what was typed is kept as a draft */
  open(): () => void {
    const { workspace } = this
    const flush = (): Promise<void> => this.loaded.then(() => this.keeper.flush())
    const stops = [
      workspace.composerReturns.on(({ kind, text }) => this.takeBack(kind, text)),
      workspace.textsStruck.on(() => void this.takeStruck()),
      workspace.addFlush(flush),
    ]
    return () => {
      stops.forEach((stop) => stop())
      void flush()
    }
  }

  get text(): string {
    return this.state.doc.toString()
  }

  get facts(): EntryFacts {
    return this.store.getState().facts
  }

  /** Takes a text out again, where it still stands once. */
  takeOut(text: string): void {
    const at = this.text.indexOf(text)
    if (at < 0 || this.text.includes(text, at + 1)) return
    this.dispatch({ changes: { from: at, to: at + text.length } })
  }

  /** Shows the composer in an element. @returns how to take it away again */
  attach(parent: HTMLElement): () => void {
    const view = new EditorView({
      parent,
      state: this.state,
      dispatchTransactions: (transactions, shown) => {
        shown.update(transactions)
        this.state = shown.state
        for (const transaction of transactions) this.note(transaction)
      },
    })
    this.view = view
    if (this.wantsFocus) this.focus()
    return () => {
      this.view = null
      view.destroy()
    }
  }

  focus(): void {
    this.wantsFocus = !this.view
    this.view?.focus()
  }

  choose(kind: EntryKind): void {
    this.isKindChosen = true
    this.store.setState({ kind })
    this.keep()
  }

  /** The entry that is written next is added to another one, in the conversation under it. */
  addTo(entry: EntryId): void {
    const { kind } = this.store.getState()
    // A file or a list is rarely what is added later.
    if (this.text.trim() === '' && (kind === 'file' || kind === 'list'))
      this.store.setState({ kind: 'observation' })
    this.say({ under: entry })
    this.focus()
  }

  /** The fix or decision that is written next answers a problem; null for none. */
  answer(problem: EntryId | null): void {
    const { kind } = this.store.getState()
    this.store.setState({ answers: problem, kind: problem && !canAnswer({ kind }) ? 'fix' : kind })
    this.keep()
    this.focus()
  }

  /** Sets what the entry will say of itself beside its text. */
  say(facts: Partial<EntryFacts>): void {
    this.store.setState((state) => ({ facts: { ...state.facts, ...facts } }))
    this.keep()
  }

  setEnterWrites(enterWrites: boolean): void {
    this.store.setState({ enterWrites })
    void this.lab.keepSetting(ENTER_WRITES, enterWrites)
  }

  /** Writes the entry. The composer is emptied only once it stands; what was typed meanwhile stays. */
  async write(): Promise<void> {
    const { text } = this
    if (this.sinceWriting || text.trim() === '') return this.focus()
    const { kind, facts, answers } = this.store.getState()
    const file = kind === 'file' ? typedFile(text, facts.file ?? noFile) : null
    if (file === undefined) return this.askForPath()
    this.sinceWriting = ChangeSet.empty(text.length)
    this.store.setState({ refusal: null })
    await this.keeper.flush()
    const isWritten = await this.commit(
      { kind, text, ...facts, file: null, ...file },
      canAnswer({ kind }) ? answers : null,
    )
    const since: ChangeSet = this.sinceWriting
    this.sinceWriting = null
    if (!isWritten) return this.refuse()
    const written = ChangeSet.of({ from: 0, to: text.length }, text.length)
    this.dispatch({ changes: written.map(since), annotations: Transaction.addToHistory.of(false) })
    if (this.view) forgetHistory(this.view)
    // The place goes on; what was said of this one entry alone does not.
    this.store.setState({
      done: `Written as ${kind}.`,
      facts: { ...noFacts, place: facts.place },
      answers: null,
    })
  }

  private async commit(input: Omit<EntryInput, 'project'>, answers: EntryId | null): Promise<boolean> {
    if (this.workspace.state.view?.project !== this.project) return false
    return writeEntry(this.workspace, input, this.keeper.key, answers).catch((error: unknown) => {
      console.error(error)
      return false
    })
  }

  private askForPath(): void {
    this.store.setState({ refusal: 'Say which file it is: press “Which file” and write its path.' })
  }

  private refuse(): void {
    this.keep()
    this.store.setState({
      refusal: 'The entry was not written. Your text is still here and kept as a draft; try again.',
    })
  }

  /** Puts a text where the cursor is, or at a place; a block behind the line there, with blank lines around it. */
  insert(text: string, isBlock: boolean, place = this.state.selection.main.head, cursor?: number): void {
    // A file is read after it was dropped; the text may have become shorter meanwhile.
    const inside = Math.min(place, this.state.doc.length)
    const at = isBlock ? this.state.doc.lineAt(inside).to : inside
    const whole = isBlock ? insertInto(this.text, at, { text, ranges: [] }).text : text
    const lines = toLines(toStorableText(whole))
    this.dispatch({
      changes: { from: at, insert: lines },
      selection: { anchor: at + (cursor ?? lines.length) },
      scrollIntoView: true,
      userEvent: 'input.drop',
    })
    this.focus()
  }

  /** Changes the text by one step of its undo. @returns false where the text is another one by now */
  change(expected: string, changes: ChangeSet): boolean {
    if (this.text !== expected) return false
    this.dispatch({ changes, annotations: isolateHistory.of('full'), userEvent: 'input.tidy' })
    return true
  }

  /** Makes an entry of a fragment from a source. */
  carry(fragment: Fragment, way: 'drag' | 'copy', kind?: EntryKind): void {
    const place = kind ? ({ at: 'journal', kind } as const) : ({ at: 'journal' } as const)
    this.workspace.set({ dragging: null })
    void carryFragment(this.workspace, fragment, place, way)
  }

  /** A withdrawn entry's text comes back. */
  private takeBack(kind: EntryKind, text: string): void {
    const before = this.text
    if (before.trim() === '') this.store.setState({ kind })
    this.replaceAll(joinTexts(before, text))
    this.focus()
  }

  /** Something was struck out of the draft: it must go out of what is on the screen too. */
  private async takeStruck(): Promise<void> {
    const text = await this.keeper.findStruck(this.text)
    if (text === null) return
    this.replaceAll(text)
    if (this.view) forgetHistory(this.view)
  }

  private async load(): Promise<void> {
    const [draft, enterWrites] = await Promise.all([this.keeper.find(), this.lab.findSetting(ENTER_WRITES)])
    this.store.setState({ enterWrites: enterWrites === true })
    if (!draft) return
    if (!this.isKindChosen) this.store.setState({ kind: draft.kind })
    if (this.store.getState().facts === noFacts)
      this.store.setState({ facts: draft.facts, answers: draft.answers })
    const typed = this.text
    if (typed === draft.text) return
    // What was typed before the draft was read stands behind it.
    const insert = typed.trim() === '' ? draft.text : joinTexts(draft.text, typed).slice(0, -typed.length)
    const changes = { from: 0, insert: toLines(insert) }
    this.dispatch({ changes, annotations: Transaction.addToHistory.of(false) })
  }

  private replaceAll(text: string): void {
    this.dispatch({
      changes: { from: 0, to: this.state.doc.length, insert: toLines(text) },
      selection: { anchor: toLines(text).length },
      annotations: Transaction.addToHistory.of(false),
      scrollIntoView: true,
    })
  }

  private dispatch(spec: TransactionSpec): void {
    if (this.view) return this.view.dispatch(spec)
    const transaction = this.state.update(spec)
    this.state = transaction.state
    this.note(transaction)
  }

  private note(transaction: Transaction): void {
    if (!transaction.docChanged) return
    this.sinceWriting = this.sinceWriting?.compose(transaction.changes) ?? null
    if (this.store.getState().refusal) this.store.setState({ refusal: null })
    this.keep()
  }

  /** Not before the draft that was left here has been read: it would be overwritten. */
  private keep(): void {
    void this.loaded.then(() => {
      const { kind, facts, answers } = this.store.getState()
      this.keeper.keep({ kind, text: this.text, facts, answers })
    })
  }

  private extensions() {
    const program = { undo: () => void undo(this.workspace), redo: () => void redo(this.workspace) }
    const write = (): boolean => {
      void this.write()
      return true
    }
    const keys = keymap.of([
      { key: 'Mod-Enter', run: write },
      { key: 'Enter', run: () => this.store.getState().enterWrites && write() },
    ])
    return [
      // Before Markdown's own keys for Enter, which are of high precedence.
      Prec.highest(keys),
      typingExtensions('New entry', HINT, program),
      takingDrops(this.workspace, this),
      offeringSplit(this.workspace, this),
    ]
  }
}
