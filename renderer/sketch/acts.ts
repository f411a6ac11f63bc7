/** What can be done with a drawing. */
import { toFileName } from '../../shared/host.ts'
import { SecretScan } from '../../shared/safety/secrets/scan.ts'
import type { Drawn } from '../../shared/sketch/drawn.ts'
import { toFence } from '../../shared/sketch/patterns.ts'
import { toSvgFile } from '../../shared/sketch/saved.ts'
import { letFileOut } from '../leaving/index.ts'
import type { Workspace } from '../store/workspace.ts'

/** Offers the drawing as an SVG file. */
export async function saveSketch(workspace: Workspace, drawn: Drawn): Promise<void> {
  const words = new SecretScan()
  words.readAll([drawn.title, drawn.labels])
  const result = await letFileOut(
    workspace,
    { found: words.found, what: 'The diagram' },
    {
      suggestedName: `${toFileName(drawn.title ?? drawn.kind, 'diagram')}.svg`,
      mediaType: 'image/svg+xml',
      bytes: new TextEncoder().encode(toSvgFile(drawn)),
    },
  )
  if (!result.ok) workspace.say('problem', result.sentence)
  else if (result.value.kind === 'saved')
    workspace.say('done', `The diagram was saved as “${result.value.name}”.`)
}

/** Copies the diagram as the block of Markdown that it is made of. */
export async function copySketch(workspace: Workspace, source: string): Promise<void> {
  try {
    await navigator.clipboard.writeText(toFence(source))
    workspace.say('done', 'Copied the diagram’s text.')
  } catch {
    workspace.say(
      'problem',
      'The diagram’s text could not be copied. Nothing was changed; show it as text and copy it there.',
    )
  }
}
