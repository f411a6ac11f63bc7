/** What happens to a drop or a paste on the composer: a source's words become an entry, all else goes into the text. */
import type { Extension } from '@codemirror/state'
import { dropCursor, EditorView } from '@codemirror/view'
import { wordsOfFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import { canLand } from '../../../shared/distil/landing.ts'
import { bringsFragment, takeFragment, takePasted } from '../../editor/fragments.ts'
import type { Workspace } from '../../store/workspace.ts'
import { pictureChips } from './pictures/pictureChips.ts'
import { isCalledPicture } from './pictures/pictureFiles.ts'
import { takePictures } from './pictures/takePictures.ts'
import { parseApart } from '../parseApart.ts'
import {
  fencedBlock,
  infoOfFile,
  markdownOfDrop,
  megabytes,
  MOST_FILE_BYTES,
  textOfBytes,
} from './dropped.ts'

/** Where drops end up. */
export interface DropTaker {
  /** @param cursor where the cursor goes, from the start of the text; behind it where nothing is said */
  insert(text: string, isBlock: boolean, at?: number, cursor?: number): void
  carry(fragment: Fragment, way: 'drag' | 'copy'): void
}

/** Whether a fragment becomes an entry: it comes from a source of the open lab. Any other is taken for plain words. */
export function makesEntry(workspace: Workspace, fragment: Fragment): boolean {
  return fragment.lab === workspace.state.lab?.id && canLand(fragment, { at: 'journal' })
}

/** Takes whatever was dropped. @returns false where there was nothing to take */
export function takeDrop(
  workspace: Workspace,
  taker: DropTaker,
  from: DataTransfer | null,
  at?: number,
): boolean {
  if (!from) return false
  const fragment = takeFragment(from)
  if (fragment && makesEntry(workspace, fragment)) {
    taker.carry(fragment, 'drag')
    return true
  }
  const words = fragment ? wordsOfFragment(fragment) : ''
  if (words === '' && from.files.length > 0) {
    void takeFiles(workspace, taker, [...from.files], at)
    return true
  }
  const text = words || markdownOfDrop((type) => from.getData(type), titleIn)
  if (text === null) return false
  taker.insert(text, false, at)
  return true
}

/** Whether a drag brings something for the composer; what exactly can only be read once it is dropped. */
export function bringsSomething(from: DataTransfer | null): boolean {
  const types = from?.types ?? []
  return bringsFragment(from) || ['Files', 'text/uri-list', 'text/plain'].some((type) => types.includes(type))
}

/** The composer's text takes drops at the place that they are dropped on. */
export function takingDrops(workspace: Workspace, taker: DropTaker): Extension {
  return [
    dropCursor(),
    pictureChips(() => workspace.requireLab()),
    EditorView.domEventHandlers({
      dragover(event) {
        if (!bringsSomething(event.dataTransfer)) return false
        event.dataTransfer!.dropEffect = 'copy'
        return true
      },
      drop(event, view) {
        const at = view.posAtCoords({ x: event.clientX, y: event.clientY }, false)
        if (!takeDrop(workspace, taker, event.dataTransfer, at)) return false
        event.stopPropagation()
        return true
      },
      paste(event) {
        const from = event.clipboardData
        const fragment = takePasted(from)
        if (fragment && makesEntry(workspace, fragment)) {
          taker.carry(fragment, 'copy')
          return true
        }
        // A picture that is copied out of a page brings its address as HTML, which says less.
        if (!from || from.files.length === 0 || from.getData('text/plain') !== '') return false
        void takeFiles(workspace, taker, [...from.files])
        return true
      },
    }),
  ]
}

async function takeFiles(
  workspace: Workspace,
  taker: DropTaker,
  files: readonly File[],
  at?: number,
): Promise<void> {
  const pictures = files.filter(isCalledPicture)
  // The words of a picture are written between its brackets, so the cursor goes there.
  await takePictures(workspace, pictures, (markdown) => taker.insert(markdown, false, at, '!['.length))
  for (const file of files.filter((one) => !pictures.includes(one))) {
    const text = file.size > MOST_FILE_BYTES ? null : await readText(file)
    if (text !== null) taker.insert(fencedBlock(text, infoOfFile(file.name)), true, at)
    else workspace.say('problem', refusalOf(file))
  }
}

async function readText(file: File): Promise<string | null> {
  try {
    return textOfBytes(new Uint8Array(await file.arrayBuffer()))
  } catch {
    return null
  }
}

function refusalOf({ name, size }: File): string {
  const why =
    size > MOST_FILE_BYTES
      ? `“${name}” holds ${megabytes(size)}, and an entry takes files of up to ${megabytes(MOST_FILE_BYTES)}.`
      : `“${name}” is no text that can be read as UTF-8.`
  return `${why} The entry is as it was, and so is the file. Add it as a source, and carry from there what matters.`
}

/** HTML is looked through for a link's words only up to this length, in code units. */
const MOST_TITLE_HTML = 20_000

/** The words of the first link in a piece of HTML. */
function titleIn(html: string): string | null {
  if (html === '' || html.length > MOST_TITLE_HTML) return null
  return parseApart(html).querySelector('a')?.textContent ?? null
}
