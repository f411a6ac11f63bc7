/** The lines of the menu that moves words of a text while it is typed. */
import type { EditorView } from '@codemirror/view'
import type { Part } from '../../../shared/lab/model.ts'
import { whyNotSplit } from '../../../shared/procedure/moving/split.ts'
import { lastCut, putLast } from '../../editor/cutting.ts'
import type { MovingWords } from '../../editor/TextEditor.tsx'
import { partsOfStep } from '../../store/view.ts'
import type { Workspace } from '../../store/workspace.ts'
import type { MenuLine } from '../../ui/index.ts'
import { CutIcon, PasteIcon, SplitIcon } from '../../ui/icons.tsx'
import { splitAt } from './dividing.ts'

/** Splits the step where the cursor is; where words are selected, before them. */
export function splitHere(workspace: Workspace, part: Part, view: EditorView): boolean {
  void splitAt(workspace, part, view.state.doc.toString(), view.state.selection.main.from)
  return true
}

export function linesOfWords(
  workspace: Workspace,
  part: Part,
  view: EditorView,
  moving: MovingWords,
): MenuLine[] {
  const { doc, selection } = view.state
  const parts = part.step ? [...partsOfStep(workspace.requireView(), part.step).values()] : []
  const notSplit = whyNotSplit(part, parts, doc.toString(), selection.main.from)
  const cut = lastCut()
  return [
    {
      id: 'split',
      word: 'Split the step at the cursor',
      icon: SplitIcon,
      hint: 'Alt+Enter',
      ...(notSplit === null ? {} : { disabledBecause: notSplit }),
      onChoose: () => splitHere(workspace, part, view),
    },
    {
      id: 'cut',
      word: 'Cut the selected words',
      icon: CutIcon,
      hint: 'Ctrl+X',
      ...(selection.main.empty ? { disabledBecause: 'No words are selected.' } : {}),
      onChoose: () => {
        view.focus()
        document.execCommand('cut')
      },
    },
    {
      id: 'put',
      word: 'Put the cut words here',
      icon: PasteIcon,
      hint: 'Ctrl+V',
      ...(cut && moving.takes(cut) ? {} : { disabledBecause: 'No words are cut that fit here.' }),
      onChoose: () => {
        view.focus()
        putLast(view)
      },
    },
  ]
}
