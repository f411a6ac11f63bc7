/** Offers a kept picture as a file. */
import type { NamedPicture } from '../../../../shared/journal/pictures/named.ts'
import { toFileName } from '../../../../shared/host.ts'
import { maybePicture } from '../../../../shared/intake/picture.ts'
import { letFileOut } from '../../../leaving/index.ts'
import type { Workspace } from '../../../store/workspace.ts'

const endings = { png: 'png', jpeg: 'jpg', gif: 'gif', webp: 'webp' } as const

export async function savePicture(workspace: Workspace, named: NamedPicture): Promise<void> {
  const blob = await workspace.requireLab().queries.findBlob(named.sha256)
  const picture = blob && maybePicture(blob.bytes)
  if (!picture)
    return workspace.say('problem', 'The picture’s bytes are not in this lab any more. Nothing was saved.')
  const stem = named.name.replace(/\.[A-Za-z0-9]{1,5}$/, '') || named.description
  const result = await letFileOut(workspace, 'original', {
    suggestedName: `${toFileName(stem, 'picture')}.${endings[picture.format]}`,
    mediaType: picture.mediaType,
    bytes: blob.bytes,
  })
  if (!result.ok) workspace.say('problem', result.sentence)
  else if (result.value.kind === 'saved')
    workspace.say('done', `The picture was saved as “${result.value.name}”.`)
}
