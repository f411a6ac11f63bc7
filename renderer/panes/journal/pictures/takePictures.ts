/** Pictures that are pasted or dropped on the composer: one goes into the text, several are placed by their times. */
import { toPictureMarkdown } from '../../../../shared/journal/pictures/named.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { openPhotos } from './photos.ts'
import { keepAtOnce, readPicture, toKeptBytes } from './pictureFiles.ts'

/** @param insert puts the Markdown of the picture into the text that is being written */
export async function takePictures(
  workspace: Workspace,
  files: readonly File[],
  insert: (markdown: string) => void,
): Promise<void> {
  const [file] = files
  if (!file) return
  if (files.length > 1) return openPhotos(workspace, files)
  const read = await readPicture(file)
  if (!read.ok) return workspace.say('problem', read.sentence)
  const { withoutPlace } = await import('../../../../shared/journal/pictures/without-place.ts')
  const bytes = withoutPlace(read.bytes)
  if (!bytes)
    return workspace.say(
      'problem',
      `“${file.name}” is damaged, so that nobody can say whether it holds the place where it was taken. It was not added. “Add photos…” takes it as it is, if you want that.`,
    )
  const blob = await toKeptBytes(bytes, read.picture.mediaType)
  if (!(await keepAtOnce(workspace, blob))) return
  insert(toPictureMarkdown({ sha256: blob.sha256, description: '', name: nameOf(file) }))
}

/** What browsers call a picture that was pasted without a file says nothing. */
function nameOf({ name }: File): string {
  return /^image\.(?:png|jpe?g|gif|webp)$/i.test(name) ? '' : name
}
