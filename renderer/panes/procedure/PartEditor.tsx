/** A part's text while it is being typed. */
import { EditorState, Prec, type Extension, type TransactionSpec } from '@codemirror/state'
import { keymap, type EditorView } from '@codemirror/view'
import { useLayoutEffect, useRef } from 'react'
import { wordsOfFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import type { Part, Range } from '../../../shared/lab/model.ts'
import { editorPlaceholders, makeParameterOfSelection, toShownPlaceholders } from '../../parameters/index.ts'
import { insertBlock, SketchMenu } from '../../sketch/index.ts'
import { carryFragment } from '../../store/gestures.ts'
import { useWorkspace } from '../../store/useWorkspace.ts'
import { parametersOf } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import { Button, Menu } from '../../ui/index.ts'
import { selectedRanges } from '../../editor/extensions.ts'
import { ownBox } from '../../editor/ownBox.ts'
import { TextEditor, type MovingWords } from '../../editor/TextEditor.tsx'
import type { TextSession } from '../../editor/textSession.ts'
import { isOneLine, leave } from './acts.ts'
import { useAfterPress } from './afterPress.ts'
import { cutWordsOf, putWords } from './cutting.ts'
import { settleForm } from './fileParts.ts'
import { pickFromPart } from './pick.ts'
import { setPane, usePane, type WantedFocus } from './paneStore.ts'
import { hiddenMarks } from './hiddenMarks.ts'
import { linesOfStepLinks, wordsOfStepIn } from './stepLinks.ts'
import { hintOfPart } from './words.ts'
import { linesOfWords, splitHere } from './wordLines.ts'

export interface PartEditorProps {
  readonly part: Part
  readonly name: string
  /** The procedure's title, for what is carried out of the text. */
  readonly title: string
  readonly marks: readonly Range[] | undefined
}

export function PartEditor({ part, name, title, marks }: PartEditorProps) {
  const workspace = useWorkspace()
  const session = useRef<TextSession | null>(null)
  const afterPress = useAfterPress()
  const close = (wanted: WantedFocus | null): void =>
    void leave(workspace, part.id, session.current, wanted).then(() => settleForm(workspace, part.id))
  const pick = (ranges: readonly Range[], text: string) =>
    pickFromPart(workspace.requireLab().id, part, text, title, ranges)
  const carry = (ranges: readonly Range[], text: string): boolean => {
    const carrying = pick(ranges, text)
    if (carrying) workspace.set({ carrying })
    return carrying !== null
  }
  const { step } = part
  const moving: MovingWords = {
    cut: (range, from) => cutWordsOf(workspace, part, range, from),
    takes: ({ lab, words }) =>
      lab === workspace.requireLab().id && !(isOneLine(part) && words.includes('\n')),
    onArrive: (cut, offset) => {
      void putWords(workspace, cut, part, offset).then((isKnown) => {
        if (!isKnown && view.current) insertWords(view.current, cut.words)
      })
    },
  }
  const view = useRef<EditorView | null>(null)
  const around = useRef<HTMLDivElement>(null)
  // A row that moves far is drawn anew, and the text opens again there: leaving the page is then no end of the typing.
  const isGone = useRef(false)
  useLayoutEffect(() => {
    isGone.current = false
    return () => {
      isGone.current = true
    }
  }, [])
  const closeUnlessWithin = (): void => {
    if (isGone.current) return
    const isHere = (): boolean =>
      around.current?.contains(document.activeElement) ||
      // The box for finding gives the keyboard back, or says when it does not.
      (document.activeElement?.closest('.st-finder') ?? null) !== null
    // Going to another window is no reason to stop typing here, nor is going to the part's own tools.
    if (!document.hasFocus() || isHere()) return
    if (document.activeElement !== document.body) return close(null)
    // The keyboard is on its way; where to is known once it is there.
    setTimeout(() => {
      if (!isGone.current && !isHere()) close(null)
    })
  }
  const text = (
    <TextEditor
      node={{ kind: 'part', id: part.id }}
      label={name}
      hint={hintOfPart[part.kind]}
      autoFocus
      isOneLine={isOneLine(part)}
      {...(marks ? { marks } : {})}
      keys={[
        ownBox(),
        keysOf(workspace, part, () => close({ kind: 'part', id: part.id }), carry),
        usePane.getState().marksShow === 'always' ? [] : hiddenMarks(wordsOfStepIn(workspace, part)),
      ]}
      pick={pick}
      takes={(fragment) => !isOneLine(part) || isLine(fragment)}
      onArrive={(fragment, offset, way) => {
        const place = { at: 'text', part: part.id, step, kind: part.kind, offset } as const
        void carryFragment(workspace, fragment, place, way).then((result) => {
          // What was copied from is gone. Its words are pasted all the same, as they would be from anywhere.
          if (!result.ok && result.code === 'moved' && way === 'copy' && view.current)
            insertWords(view.current, wordsOfFragment(fragment))
        })
      }}
      moving={moving}
      onBlur={() => {
        if (document.hasFocus()) afterPress(closeUnlessWithin)
      }}
      onOpen={(opened) => {
        view.current = opened?.view ?? null
        session.current = opened?.session ?? session.current
      }}
      onGone={() => {
        if (usePane.getState().editing === part.id) setPane({ editing: null })
      }}
    />
  )
  if (isOneLine(part)) return text
  return (
    <div ref={around}>
      {text}
      <div className="st-sketch-tools st-typing-tools" onBlur={() => afterPress(closeUnlessWithin)}>
        {part.kind === 'file' ? null : (
          <SketchMenu onInsert={(block) => view.current && insertBlock(view.current, block)} />
        )}
        <Menu
          label="Steps to go to"
          lines={() =>
            linesOfStepLinks(workspace, part, (words) => view.current && insertWords(view.current, words))
          }
          trigger={(attributes) => (
            <Button look="quiet" {...attributes}>
              Go to step…
            </Button>
          )}
        />
        <Menu
          label="Words to move"
          lines={() => (view.current ? linesOfWords(workspace, part, view.current, moving) : [])}
          trigger={(attributes) => (
            <Button look="quiet" {...attributes}>
              Move words…
            </Button>
          )}
        />
      </div>
    </div>
  )
}

/** Whether words fit into a title or a heading. */
const isLine = (fragment: Fragment): boolean =>
  fragment.selectors.length > 0 && fragment.fence === null && !wordsOfFragment(fragment).includes('\n')

/** Puts words where the cursor is, and goes on behind them. */
function insertWords(view: EditorView, words: string): void {
  view.dispatch({ ...view.state.replaceSelection(words), scrollIntoView: true, userEvent: 'input.paste' })
  view.focus()
}

function keysOf(
  workspace: Workspace,
  part: Part,
  onLeave: () => void,
  carry: (ranges: readonly Range[], text: string) => boolean,
): Extension {
  const leaving = (): boolean => {
    onLeave()
    return true
  }
  const common = [
    { key: 'Escape', run: leaving },
    { key: 'Mod-Enter', run: leaving },
    {
      key: 'Alt-t',
      run: (view: EditorView) => {
        const ranges = selectedRanges(view)
        const traced = { kind: 'part', id: part.id, ...(ranges.length > 0 ? { ranges } : {}) } as const
        void workspace.flushTexts().then(() => workspace.set({ traced }))
        return true
      },
    },
    { key: 'Alt-Enter', run: (view: EditorView) => splitHere(workspace, part, view) },
    { key: 'Alt-m', run: () => makeParameterOfSelection(workspace) },
  ]
  const carrying = Prec.high(
    keymap.of([{ key: 'Alt-c', run: (view) => carry(selectedRanges(view), view.state.doc.toString()) }]),
  )
  const placeholders = editorPlaceholders(() =>
    toShownPlaceholders(parametersOf(workspace.requireView(), part.procedure)),
  )
  if (!isOneLine(part)) return [keymap.of(common), carrying, placeholders]
  return [
    placeholders,
    keymap.of([...common, { key: 'Enter', shift: leaving, run: leaving }]),
    carrying,
    oneLine,
  ]
}

/** Line ends that are pasted or dropped into a title become spaces. */
const oneLine: Extension = EditorState.transactionFilter.of((transaction) => {
  if (!transaction.docChanged || !transaction.isUserEvent('input')) return transaction
  if (transaction.newDoc.lines <= transaction.startState.doc.lines) return transaction
  const changes: { from: number; to: number; insert: string }[] = []
  transaction.changes.iterChanges((from, to, _fromB, _toB, inserted) => {
    changes.push({ from, to, insert: inserted.toString().replace(/\s*\n\s*/gu, ' ') })
  }, true)
  const last = changes.at(-1)
  const spec: TransactionSpec = { changes, userEvent: 'input', scrollIntoView: true }
  if (!last || changes.length > 1) return spec
  return { ...spec, selection: { anchor: last.from + last.insert.length } }
})
