/** What a drop or a paste brings from outside, sorted into things that can become sources. */
import { addressesFromUriList } from '../../../shared/intake/uri-list.ts'
import { titleOfWords } from '../../../shared/intake/text.ts'
import { maybeWebAddress } from '../../../shared/markdown/addresses.ts'

export type Matter =
  | { readonly kind: 'link'; readonly address: string; readonly title: string | null }
  /**
   * `plain` is the same without markup, in case the HTML cannot be read. `address` is the page that it is from, where the
   * clipboard says so beside the HTML: Chromium tells no page of it (seen in Chromium 156), so the shell reads it.
   */
  | { readonly kind: 'html'; readonly html: string; readonly plain: string; readonly address: string | null }
  | { readonly kind: 'text'; readonly text: string; readonly title: string }
  /** `address`: where a picture that was dragged out of a page stands. */
  | { readonly kind: 'file'; readonly file: File; readonly name: string; readonly address: string | null }

/** The part of a DataTransfer that is needed here. */
export interface Brought {
  getData(type: string): string
  readonly files: ArrayLike<File>
}

/**
 * Sorts what was brought. A picture that is dragged out of a page comes as a file together with its address and is that
 * picture. Otherwise links count before files and files before text, since a browser adds the other forms of what it
 * drags too.
 * @param wordsOfHtml the words of a piece of HTML without its markup
 * @param nameOfPicture a name for a picture that has none of its own
 */
export function matterOf(
  brought: Brought,
  wordsOfHtml: (html: string) => string,
  nameOfPicture: () => string = () => 'Picture',
): Matter[] {
  const html = brought.getData('text/html')
  const plain = brought.getData('text/plain')
  const links = linksOf(brought)
  const files = Array.from(brought.files)
  const toFile = (file: File, address: string | null): Matter => {
    const isUnnamed = isPicture(file) && /^image\.[a-z]+$/iu.test(file.name)
    const name = isUnnamed ? `${nameOfPicture()}${file.name.slice(5)}` : file.name
    return { kind: 'file', file, name, address }
  }
  if (files.length === 1 && links.length === 1 && isPicture(files[0]!))
    return [toFile(files[0]!, links[0]!.address)]
  if (links.length > 0)
    return links.map(({ address, title }) =>
      toLink(address, title, links.length === 1 ? html : '', wordsOfHtml),
    )
  if (files.length > 0) return files.map((file) => toFile(file, null))
  const typed = soleAddress(plain)
  if (typed !== null) return [toLink(typed, null, html, wordsOfHtml)]
  if (html.trim() !== '') return [{ kind: 'html', html, plain, address: null }]
  return plain.trim() === '' ? [] : [{ kind: 'text', text: plain, title: titleOfWords(plain) }]
}

const isPicture = ({ type }: File): boolean => type.startsWith('image/')

/** The addresses of a drag, each once. Firefox's own form has lines that alternate between an address and its title. */
function linksOf(brought: Brought): readonly { readonly address: string; readonly title: string | null }[] {
  const lines = brought.getData('text/x-moz-url').split(/\r?\n/u)
  const titles = new Map<string, string>()
  for (let at = 0; at < lines.length; at += 2) {
    const address = maybeWebAddress(lines[at]!)
    if (address !== undefined) titles.set(address, (lines[at + 1] ?? '').trim())
  }
  const listed = addressesFromUriList(brought.getData('text/uri-list'))
  const all = listed.length > 0 ? listed : [...titles.keys()]
  return all.map((address) => ({ address, title: titles.get(address) || null }))
}

function toLink(
  address: string,
  title: string | null,
  html: string,
  wordsOfHtml: (html: string) => string,
): Matter {
  const isShort = html !== '' && html.length <= MOST_TITLE_HTML
  const words = title ?? (isShort ? wordsOfHtml(html) : '')
  const line = words.replace(/\s+/gu, ' ').trim()
  const isName = line !== '' && line.length <= 200 && maybeWebAddress(line) === undefined
  return { kind: 'link', address, title: isName ? line : null }
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
