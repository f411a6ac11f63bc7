import { isBookmarksHtml, readBookmarksHtml } from './html.ts'
import { isBookmarksJson, readBookmarksJson } from './json.ts'
import type { BookmarksIntake } from './link.ts'

/** Reads a file of bookmarks by how it begins; undefined for every other file. */
export function maybeBookmarks(name: string, bytes: Uint8Array): BookmarksIntake | undefined {
  const beginning = String.fromCharCode(...bytes.subarray(0, 4096))
  if (isBookmarksHtml(beginning)) return readBookmarksHtml(name, bytes)
  return isBookmarksJson(beginning) ? readBookmarksJson(name, bytes) : undefined
}
