/**
 * The HTML in which browsers export their bookmarks: definition lists, a heading before each folder's list. No standard
 * describes it; Mozilla's and Microsoft's developer documentation do ("Netscape Bookmark File Format").
 */
import type { Element, Nodes } from 'hast'
import { toTags } from '../../lab/tag-acts.ts'
import { decodeHtml } from '../decode.ts'
import { attribute, textOf } from '../elements.ts'
import { toCleanText } from '../clean-text.ts'
import { maxBookmarksBytes } from '../limits.ts'
import { maybePageTree } from '../page-tree.ts'
import { broken, empty, tooLarge } from '../taken.ts'
import { maxFolders, toAdded, toBookmarks, toFolderName, type BookmarksIntake, type RawLink } from './link.ts'

/** Says whether a file begins as such an export does. */
export function isBookmarksHtml(beginning: string): boolean {
  return /^(?:\ufeff|\u00ef\u00bb\u00bf)?\s*<!DOCTYPE\s+NETSCAPE-Bookmark-file-1\s*>/iu.test(beginning)
}

/** Reads the bytes of such an export. Nothing in it is run or fetched. */
export function readBookmarksHtml(name: string, bytes: Uint8Array): BookmarksIntake {
  if (bytes.length > maxBookmarksBytes) return tooLarge(name, bytes.length, maxBookmarksBytes)
  const { text } = toCleanText(decodeHtml(bytes).text)
  const tree = maybePageTree(withEscapedAddresses(text))
  if (!tree) return broken(name, `holds more than ${maxFolders} folders within each other`)
  const reading: Reading = { links: [], folders: [], heading: undefined, last: undefined, isTooDeep: false }
  walk(tree, reading)
  if (reading.isTooDeep) return broken(name, `holds more than ${maxFolders} folders within each other`)
  const bookmarks = toBookmarks(reading.links)
  return reading.links.length === 0 ? empty(name) : bookmarks
}

interface Reading {
  readonly links: RawLink[]
  readonly folders: string[]
  /** The heading that names the list that comes next. */
  heading: string | undefined
  /** The link that a description after it belongs to. */
  last: RawLink | undefined
  isTooDeep: boolean
}

function walk(node: Nodes, reading: Reading): void {
  if (!('children' in node) || reading.isTooDeep) return
  for (const child of node.children) {
    if (child.type !== 'element') continue
    switch (child.tagName) {
      case 'h3':
        reading.heading = toFolderName(textOf(child))
        reading.last = undefined
        break
      case 'a':
        reading.last = toLink(child, reading.folders)
        reading.links.push(reading.last)
        break
      case 'dd':
        if (reading.last) reading.last.note = `${reading.last.note} ${ownText(child)}`
        walk(child, reading)
        break
      case 'dl':
        walkList(child, reading)
        break
      default:
        walk(child, reading)
    }
  }
}

function walkList(list: Element, reading: Reading): void {
  const name = reading.heading
  reading.heading = undefined
  reading.last = undefined
  if (name !== undefined) reading.folders.push(name)
  if (reading.folders.length > maxFolders) reading.isTooDeep = true
  walk(list, reading)
  if (name !== undefined) reading.folders.pop()
  reading.heading = undefined
  reading.last = undefined
}

function toLink(element: Element, folders: readonly string[]): RawLink {
  const says = (name: string): string => attribute(element, name) ?? ''
  return {
    title: textOf(element),
    address: says('href'),
    folders: [...folders],
    tags: toTags(says('tags')),
    added: toAdded(says('add_date') || says('addDate')),
    note: '',
    shortcut: (says('shortcuturl') || says('shortcutUrl')).trim(),
  }
}

/** The words of a description without the list of a folder that it may stand before. */
function ownText(element: Element): string {
  const words = element.children.map((child) => {
    const isOther = child.type === 'element' && ['dl', 'dt', 'h3', 'a', 'hr'].includes(child.tagName)
    return isOther ? '' : child.type === 'element' && child.tagName === 'br' ? '\n' : textOf(child)
  })
  return words.join('').trim()
}

const href = /(\bHREF\s*=\s*")([^"]*)"/giu
const bareAmpersand = /&(?!(?:amp|lt|gt|quot|apos|#\d{1,7}|#x[\da-f]{1,6});)/iu

/**
 * Some browsers escape `&` in addresses and some do not. One that does escapes all of them; so where a single one stands
 * bare, all of the file are taken as they stand, and `&copy=1` or `&lt;` is a parameter and not a character.
 */
function withEscapedAddresses(html: string): string {
  const isBare = [...html.matchAll(href)].some(([, , address]) => bareAmpersand.test(address!))
  if (!isBare) return html
  return html.replace(
    href,
    (_, before: string, address: string) => `${before}${address.replaceAll('&', '&amp;')}"`,
  )
}
