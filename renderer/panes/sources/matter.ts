/** What a drop or a paste brings from outside, sorted into things that can become sources. */
import { addressesFromUriList } from '../../../shared/intake/uri-list.ts'
import { titleOfWords } from '../../../shared/intake/text.ts'
import { maybeWebAddress } from '../../../shared/markdown/addresses.ts'

export type Matter =
  | { readonly kind: 'link'; readonly address: string; readonly title: string | null }
  /** `plain` is the same without markup, in case the HTML cannot be read. */
  | { readonly kind: 'html'; readonly html: string; readonly plain: string }
  | { readonly kind: 'text'; readonly text: string; readonly title: string }
  | { readonly kind: 'file'; readonly file: File }

/** The part of a DataTransfer that is needed here. */
export interface Brought {
  getData(type: string): string
  readonly files: ArrayLike<File>
}

/**
 * Sorts what was brought. Links count before files and files before text, since a browser that drags a picture's or
 * page's address adds the other forms of it too.
 * @param wordsOfHtml the words of a piece of HTML without its markup
 */
export function matterOf(brought: Brought, wordsOfHtml: (html: string) => string): Matter[] {
  const html = brought.getData('text/html')
  const plain = brought.getData('text/plain')
  const links = addressesFromUriList(brought.getData('text/uri-list'))
  if (links.length > 0)
    return links.map((address) => toLink(address, links.length === 1 ? html : '', wordsOfHtml))
  const files = Array.from(brought.files)
  if (files.length > 0) return files.map((file) => ({ kind: 'file', file }))
  const typed = soleAddress(plain)
  if (typed !== null) return [toLink(typed, html, wordsOfHtml)]
  if (html.trim() !== '') return [{ kind: 'html', html, plain }]
  return plain.trim() === '' ? [] : [{ kind: 'text', text: plain, title: titleOfWords(plain) }]
}

function toLink(address: string, html: string, wordsOfHtml: (html: string) => string): Matter {
  const words =
    html === '' || html.length > MOST_TITLE_HTML ? '' : wordsOfHtml(html).replace(/\s+/gu, ' ').trim()
  const isName = words !== '' && words.length <= 200 && maybeWebAddress(words) === undefined
  return { kind: 'link', address, title: isName ? words : null }
}

/** The HTML that comes with a link is looked through for its name only up to this length, in code units. */
const MOST_TITLE_HTML = 20_000

/** The web address that a text consists of; null where it holds anything else. */
export function soleAddress(text: string): string | null {
  const words = text.trim()
  return /^https?:\/\/\S+$/iu.test(words) ? (maybeWebAddress(words) ?? null) : null
}

/** A title for a link that has none: its host and path as a person would say them. */
export function titleOfAddress(address: string): string {
  const short = address.replace(/^https?:\/\//iu, '').replace(/[/?#]+$/u, '')
  try {
    return decodeURI(short)
  } catch {
    return short
  }
}

/** What a person typed as an address: absolute http or https; null where it is none. */
export function typedAddress(text: string): string | null {
  return /^https?:\/\/[^\s/]/iu.test(text.trim()) ? (maybeWebAddress(text) ?? null) : null
}
