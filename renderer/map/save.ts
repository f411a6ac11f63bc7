/** The map as files: SVG as it is made, PNG drawn from that by the browser itself. */
import { toFileName } from '../../shared/host.ts'
import { SecretScan } from '../../shared/safety/secrets/scan.ts'
import { letFileOut } from '../leaving/index.ts'
import type { Lit, Palette } from '../../shared/map/drawing.ts'
import type { ShownMap } from '../../shared/map/map.ts'
import { toSvgFile } from '../../shared/map/svg.ts'
import type { Workspace } from '../store/workspace.ts'

/** A PNG has twice the pixels, so that it can be printed, but no side longer than browsers can draw. */
const SCALE = 2
const LONGEST = 16_000

export async function saveMap(
  workspace: Workspace,
  shown: ShownMap,
  lit: Lit | null,
  form: 'svg' | 'png',
): Promise<void> {
  const project = workspace.state.projects.find(({ id }) => id === workspace.state.view?.project)
  const title = `Map of ${project?.title ?? 'the project'}`
  const svg = toSvgFile(shown.map, title, shown.about, colours(), lit)
  // The words as they are: the file writes some signs otherwise.
  const words = new SecretScan()
  words.readAll([shown.map, shown.about])
  try {
    const bytes = form === 'svg' ? new TextEncoder().encode(svg) : await toPng(svg)
    const result = await letFileOut(
      workspace,
      { found: words.found, what: 'The map' },
      {
        suggestedName: `${toFileName(title, 'map')}.${form}`,
        mediaType: form === 'svg' ? 'image/svg+xml' : 'image/png',
        bytes,
      },
    )
    if (!result.ok) workspace.say('problem', result.sentence)
    else if (result.value.kind === 'saved')
      workspace.say('done', `The map was saved as “${result.value.name}”.`)
  } catch (error) {
    console.error(error)
    workspace.say('problem', 'The picture could not be drawn. Nothing was changed; save it as SVG instead.')
  }
}

/** The theme's colours as they are now: a file has no theme. */
function colours(): Palette {
  const style = getComputedStyle(document.documentElement)
  return (paint) => style.getPropertyValue(`--${paint}`).trim()
}

/** @throws Error where the browser cannot draw it */
async function toPng(svg: string): Promise<Uint8Array<ArrayBuffer>> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }))
  try {
    const image = new Image()
    image.src = address
    await image.decode()
    const scale = Math.min(SCALE, LONGEST / Math.max(image.naturalWidth, image.naturalHeight))
    const canvas = document.createElement('canvas')
    canvas.width = Math.round(image.naturalWidth * scale)
    canvas.height = Math.round(image.naturalHeight * scale)
    const context = canvas.getContext('2d')
    if (!context) throw new Error('no canvas')
    context.drawImage(image, 0, 0, canvas.width, canvas.height)
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'))
    if (!blob) throw new Error('no picture came of the canvas')
    return new Uint8Array(await blob.arrayBuffer())
  } finally {
    URL.revokeObjectURL(address)
  }
}
