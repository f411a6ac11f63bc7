/** Which files of a folder are taken in, told by names alone. The same rules for the shell and for a browser. */

/** How much of a chosen folder is looked at: files in all, and folders within each other. */
export const folderBounds = { files: 5000, depth: 20 } as const

/** Says whether a file or a folder is hidden by a leading dot, which is a rule of Unix and kept everywhere. */
export function isHiddenName(name: string): boolean {
  return name.startsWith('.')
}

const unfinished = /\.(?:crdownload|part|partial|download|tmp|temp|opdownload)$/iu

/** Says whether a name is one that browsers and copying programs give to a file that they are still writing. */
export function isUnfinishedName(name: string): boolean {
  return isHiddenName(name) || unfinished.test(name) || name.endsWith('~')
}

const pageName = /\.(?:html?|xhtml|xht)$/iu

/** What browsers put behind a page's name for that folder: `files` mostly, or the word of the browser's own language. */
const companionWord =
  /^[_-](?:files?|dateien|fichiers|archivos|arquivos|ficheiros|bestanden|filer|filerna|pliki|soubory|tiedostot|fajlok|fajlovi)$/iu

/**
 * Says whether a folder holds the pictures and style sheets that a browser saved beside a page: it is named like the page
 * with such a word behind it. With `_files` it counts also before the page is there.
 *
 * @param files the names of the files beside the folder
 */
export function isCompanionFolder(folder: string, files: readonly string[]): boolean {
  if (/_files$/iu.test(folder)) return true
  const pages = files.filter((name) => pageName.test(name)).map((name) => name.replace(pageName, ''))
  return pages.some((page) => folder.startsWith(page) && companionWord.test(folder.slice(page.length)))
}

/**
 * The segments of a relative name, undefined when it could lead anywhere but down: absolute, with empty segments, `.` or
 * `..`, or with a sign that some system reads as a separator, a drive or a second stream of a file.
 */
export function maybeSegments(name: string): readonly string[] | undefined {
  const segments = name.split('/')
  // eslint-disable-next-line no-control-regex -- control characters are what is looked for
  const isPlain = !/[\\:\u0000-\u001f]/.test(name)
  return isPlain && segments.every((part) => part !== '' && part !== '.' && part !== '..')
    ? segments
    : undefined
}

/** Orders names as people do, so that `part 2` stands before `part 10`; names that differ never count as equal. */
export function compareNames(one: string, other: string): number {
  return byNumber.compare(one, other) || (one < other ? -1 : one > other ? 1 : 0)
}

const byNumber = new Intl.Collator('en', { numeric: true })

/** Says in a sentence that a folder holds more than is looked at; none when it does not. */
export function boundNotes(reached: { readonly files: boolean; readonly depth: boolean }): readonly string[] {
  const safe = 'The rest was left out and is unchanged; choose a folder further in to take it.'
  return [
    ...(reached.files ? [`The folder holds more than ${folderBounds.files} files. ${safe}`] : []),
    ...(reached.depth ? [`The folder is more than ${folderBounds.depth} folders deep. ${safe}`] : []),
  ]
}
