/** Parts of a step that set down a file. */
import { maybeFileDiffs } from '../../../shared/journal/files/apply.ts'
import { diffOf, fileText } from '../../../shared/journal/files/content.ts'
import type { FileState, Part, Step } from '../../../shared/lab/model.ts'
import { beginPartWith, setPartFile } from '../../store/gestures.ts'
import type { Workspace } from '../../store/workspace.ts'
import { activate } from './acts.ts'
import { setPane } from './paneStore.ts'

/** A file of which nothing is said yet. */
export const unnamedFile: FileState = {
  path: '',
  owner: null,
  group: null,
  mode: null,
  form: 'content',
  endsWithNewline: true,
  lineEnds: 'lf',
  blob: null,
}

/** A new part that sets down a file, ready for its content. */
export async function beginFilePart(workspace: Workspace, step: Step, file: FileState): Promise<void> {
  await workspace.flushTexts()
  const part = await beginPartWith(workspace, step, 'file', fileText('\n', file.path), file)
  setPane({ naming: null })
  if (part) await activate(workspace, part.id)
}

/** Whether the text of a file part holds a unified diff or a whole content. */
export function formOf(text: string): FileState['form'] {
  const diff = diffOf(text)
  return diff !== undefined && maybeFileDiffs(diff) !== undefined ? 'diff' : 'content'
}

/** A content that was replaced by a unified diff, or the other way round, is said to be what it is. */
export async function settleForm(workspace: Workspace, id: Part['id']): Promise<void> {
  const { parts, texts } = workspace.requireView()
  const part = parts.get(id)
  if (!part?.file) return
  const form = formOf(texts.get(id) ?? '')
  if (form !== part.file.form) await setPartFile(workspace, part, { ...part.file, form })
}
