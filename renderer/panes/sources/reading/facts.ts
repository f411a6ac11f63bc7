/** What is known of a source and its captures, in words. Pure. */
import type { CaptureHead, Folder, Source } from '../../../../shared/lab/model.ts'
import { wayInWords } from '../../../../shared/sources/waysIn.ts'
import { sourceKindFaces } from '../../../ui/kinds.ts'
import { dayAndTimeOf, dayOf } from '../rows.ts'

export { datedWords } from '../rows.ts'
export { wayInWords }

/** One line: 'Page, dropped, 14 Nov 2026, 18:31, saved by the browser on 12 Nov 2026'. */
export function factsLine(
  source: Source,
  capture: Pick<CaptureHead, 'taken' | 'wayIn' | 'saved'> | null,
): string {
  const { word } = sourceKindFaces[source.kind]
  const came = capture
    ? `${wayInWords[capture.wayIn]}, ${dayAndTimeOf(capture.taken)}`
    : `${wayInWords[source.wayIn]}, ${dayAndTimeOf(source.added)}`
  const saved = capture?.saved ? `, saved by the browser on ${dayOf(capture.saved)}` : ''
  return `${word}, ${came}${saved}`
}

/** A folder with those around it: 'Rack, Cooling'. A circle ends where it closes. */
export function folderPath(folders: ReadonlyMap<string, Folder>, id: string): string {
  const names: string[] = []
  const seen = new Set<string>()
  for (
    let folder = folders.get(id);
    folder && !seen.has(folder.id);
    folder = folders.get(folder.parent ?? '')
  ) {
    seen.add(folder.id)
    names.unshift(folder.name)
  }
  return names.join(' / ')
}
