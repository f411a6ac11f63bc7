/** How much of a thing is taken in at once. What is larger is refused with a sentence, never cut. */

/**
 * Plain text and Markdown, in bytes of the file. The reading view lays out only the lines that are seen, but the text
 * is kept, searched and matched as one string; with more than this a laptop beside a server stops being quick.
 */
export const maxTextBytes = 16 * 1024 * 1024

/** HTML, in bytes of the file. Its tree takes about twenty times as much while it is read. */
export const maxHtmlBytes = 8 * 1024 * 1024

/** A page saved with its pictures and style sheets in one file (MHTML), in bytes; the page in it keeps to the limit of HTML. */
export const maxArchiveBytes = 64 * 1024 * 1024

/** A file of bookmarks, in bytes; most of a large one are icons. */
export const maxBookmarksBytes = 64 * 1024 * 1024

/** A PDF, in bytes; most of a large one are pictures. */
export const maxPdfBytes = 200 * 1024 * 1024

/** Pages of a PDF. The largest manuals in print have some four thousand. */
export const maxPdfPages = 6000

/** Runs of text in a PDF: pieces of a line in one font. A book of a thousand pages has some two hundred thousand. */
export const maxPdfRuns = 3_000_000

/** The same on one page, which is then left unread. A dense page has two thousand. */
export const maxPageRuns = 60_000

/** A picture, in bytes of the file. */
export const maxPictureBytes = 32 * 1024 * 1024

/** No kind of file is taken in that is larger, in bytes, so none such need be read. */
export const maxFileBytes = Math.max(
  maxTextBytes,
  maxHtmlBytes,
  maxArchiveBytes,
  maxBookmarksBytes,
  maxPdfBytes,
  maxPictureBytes,
)

/** Elements in the content of a page. Time to read a page grows with these; so many take some ten seconds. */
export const maxHtmlElements = 60_000

/** Elements within each other. The HTML standard lets a reader set such a limit; browsers draw the line at 512 too. */
export const maxHtmlDepth = 512

/** A picture whose bytes stand in the page's address is kept up to this length, in characters of the address. */
export const maxPictureAddress = 16 * 1024

/** Titles are one line of at most that many code points. */
export const maxTitle = 200

/** A number of bytes for people, in the units of IEC 80000-13. */
export function bytesLabel(bytes: number): string {
  if (bytes < 1024) return `${bytes} bytes`
  const units = ['KiB', 'MiB', 'GiB']
  let value = bytes / 1024
  let unit = 0
  for (; value >= 1024 && unit < units.length - 1; unit += 1) value /= 1024
  return `${value < 10 ? value.toFixed(1).replace(/\.0$/u, '') : Math.round(value)} ${units[unit]}`
}
