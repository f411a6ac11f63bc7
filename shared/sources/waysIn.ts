import type { WayIn } from '../lab/model.ts'

/** How something came in, behind a comma: 'Page, dropped, 14 Nov 2026'. */
export const wayInWords: Readonly<Record<WayIn, string>> = {
  typed: 'added by hand',
  dropped: 'dropped',
  pasted: 'pasted',
  file: 'read from a file',
  'drop folder': 'found in the drop folder',
  'handed over': 'handed over by the browser',
  bookmarks: 'from bookmarks',
  sample: 'part of the sample',
}
