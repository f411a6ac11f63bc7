/** The original bytes of a capture: read, made visible, saved, opened in another program. */
import { toFileName } from '../../../../shared/host.ts'
import type { Blob as StoredBlob, Capture, Source } from '../../../../shared/lab/model.ts'
import type { Original } from '../../../../shared/sources/original.ts'
import { styleNonce } from '../../../host/host.ts'
import { letFileOut } from '../../../leaving/index.ts'
import type { Workspace } from '../../../store/workspace.ts'
import { workApart, type ReadingWork } from '../../../workers/reading.ts'
import { titleOf } from '../rows.ts'

/** An original and what can be seen of it; null where its bytes were struck out of the lab. */
export interface OpenedOriginal {
  readonly bytes: Uint8Array
  readonly mediaType: string
  readonly original: Original
}

/** Reads an original and makes of it what can be looked at. */
export async function openOriginal(
  workspace: Workspace,
  capture: Pick<Capture, 'sha256'>,
): Promise<ReadingWork<OpenedOriginal | null>> {
  const blob = await workspace.requireLab().queries.findBlob(capture.sha256)
  if (!blob) return { answer: Promise.resolve(null), stop: () => undefined }
  const { bytes, mediaType } = blob
  const work = workApart({ kind: 'original', bytes, mediaType, nonce: styleNonce(document) })
  return {
    answer: work.answer.then((original) => ({ bytes, mediaType, original })),
    stop: () => work.stop(),
  }
}

const endings: Readonly<Record<string, string>> = {
  'text/html': '.html',
  'application/xhtml+xml': '.xhtml',
  'multipart/related': '.mhtml',
  'application/pdf': '.pdf',
  'image/png': '.png',
  'image/jpeg': '.jpg',
  'image/gif': '.gif',
  'image/webp': '.webp',
  'text/markdown': '.md',
  'text/plain': '.txt',
}

const bare = (mediaType: string): string => mediaType.split(';')[0]!.trim().toLowerCase()

/** The name under which an original is saved: the source's title with the ending of its kind. */
export function fileNameOf(source: Source, mediaType: string): string {
  const title = toFileName(titleOf(source))
  const ending = endings[bare(mediaType)] ?? ''
  return title.toLowerCase().endsWith(ending) ? title : `${title}${ending}`
}

/** Offers the bytes, unchanged, to be kept where the person says. */
export async function saveOriginal(
  workspace: Workspace,
  source: Source,
  { bytes, mediaType }: Pick<StoredBlob, 'bytes' | 'mediaType'>,
): Promise<void> {
  const isPlain = /^[a-z]+\/[a-z0-9.+-]+$/u.test(bare(mediaType))
  const result = await letFileOut(workspace, 'original', {
    suggestedName: fileNameOf(source, mediaType),
    mediaType: isPlain ? bare(mediaType) : 'application/octet-stream',
    bytes,
  })
  if (!result.ok) workspace.say('problem', result.sentence)
  else if (result.value.kind === 'saved')
    workspace.say('done', `The original was saved as “${result.value.name}”.`)
}

/** Shows the bytes in the system's own program for their kind; what could run is refused with a sentence. */
export async function showElsewhere(workspace: Workspace, source: Source, bytes: Uint8Array): Promise<void> {
  const result = await workspace.host.openOriginal({ bytes, name: titleOf(source).slice(0, 1000) })
  if (!result.ok) workspace.say('problem', result.sentence)
  else if (result.value.kind === 'downloaded')
    workspace.say(
      'notice',
      `A browser starts no other program, so the original was handed out as “${result.value.name}”. Open it from where your downloads go.`,
    )
}
