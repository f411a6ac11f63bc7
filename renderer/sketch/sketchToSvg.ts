import { toSvgFile } from '../../shared/sketch/saved.ts'
import { sketches } from '../workers/sketch.ts'

/** The SVG file of a diagram, for exports that hold files beside the Markdown; null for a text that cannot be drawn. */
export async function sketchToSvg(text: string): Promise<string | null> {
  const result = await sketches.draw(text).answer
  return result.ok ? toSvgFile(result) : null
}
