/**
 * The link scheme by which a browser hands over the page that a person is on:
 *
 *     stillroom:add?address=…&title=…&selection=…
 *
 * An address as of RFC 3986 with the scheme `stillroom`; its query is application/x-www-form-urlencoded as the WHATWG URL
 * Standard §5 writes it. Any page of the web can make such an address, so it carries these three fields and nothing else.
 */
import { longestAddress } from '../host.ts'
import { fail, succeed, type Failure, type Result } from '../lab/result.ts'
import { toStorableText } from '../lab/text.ts'
import { maybeWebAddress } from '../markdown/addresses.ts'
import { maxTitle } from './limits.ts'

/** The scheme's name, without its colon. */
export const linkScheme = 'stillroom'

/** A selection that is handed over holds at most so many bytes in UTF-8. */
export const maxSelectionBytes = 64 * 1024

/** No longer text is looked at: each byte of a selection takes up to three characters in an address. */
const longestLink = 4 * maxSelectionBytes

/** A page that was handed over. What the browser did not say is ''. */
export interface HandedOver {
  /** Absolute, http or https, as the WHATWG URL Standard writes it. */
  readonly address: string
  /** One line of at most 200 code points. */
  readonly title: string
  /** Plain text with `\n` line ends. */
  readonly selection: string
}

interface Fields extends Iterable<readonly [string, string]> {
  get(name: string): string | null
}
/** Stands in every runtime that this program uses, but not in ECMAScript's own library. */
const FieldsOfRuntime = (globalThis as unknown as { URLSearchParams: new (query: string) => Fields })
  .URLSearchParams

/** Says whether a word of a command line is meant as an address of our scheme, right or wrong. */
export function isOfLinkScheme(text: string): boolean {
  return text.slice(0, linkScheme.length + 1).toLowerCase() === `${linkScheme}:`
}

/** An address that was serialised holds visible ASCII only. */
const form = /^stillroom:add\?([!"$-~]*)$/iu
const fieldNames = ['address', 'title', 'selection']

/**
 * Reads an address of our scheme. Everything that is not exactly of the form above, or larger than its bounds, is refused
 * as a whole, with a sentence; nothing is cut here.
 */
export function readHandedOver(text: string): Result<HandedOver, Failure<'refused'>> {
  if (text.length > longestLink) return refuse('it is longer than a browser hands over')
  const query = form.exec(text)?.[1]
  if (query === undefined) return refuse('it is not written as Stillroom’s bookmark writes it')
  const fields = new FieldsOfRuntime(query)
  const names = Array.from(fields, ([name]) => name)
  if (names.some((name) => !fieldNames.includes(name)) || new Set(names).size < names.length)
    return refuse('it holds something beside one address, one title and one selection')
  return readFields(fields)
}

function readFields(fields: Fields): Result<HandedOver, Failure<'refused'>> {
  const address = maybeWebAddress(fields.get('address') ?? '')
  if (address === undefined) return refuse('the page’s address is neither http nor https')
  if (address.length > longestAddress)
    return refuse(`the page’s address is longer than ${longestAddress} characters`)
  const title = (fields.get('title') ?? '').trim()
  if (hasControl(title) || Array.from(title).length > maxTitle)
    return refuse(`the page’s title is not one line of at most ${maxTitle} characters`)
  const selection = toStorableText(fields.get('selection') ?? '')
  if (utf8Length(selection) > maxSelectionBytes) return refuse('the selection holds more than 64 KiB')
  return succeed({ address, title: toStorableText(title), selection })
}

function refuse(why: string): Failure<'refused'> {
  return fail(
    'refused',
    `A link to Stillroom was not taken in, because ${why}. Nothing in the lab was changed. Copy the page’s address and paste it instead.`,
  )
}

/** Says whether a text holds a line end or another control character (Unicode: Cc, and the separators Zl and Zp). */
function hasControl(text: string): boolean {
  return /[\p{Cc}\p{Zl}\p{Zp}]/u.test(text)
}

/** Bytes of a text in UTF-8 (RFC 3629 §3). The text has no lone surrogates. */
function utf8Length(text: string): number {
  let bytes = text.length
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at)
    if (unit >= 0x80) bytes += 1
    // A pair takes four bytes, and each of its halves has counted two by now.
    if (unit >= 0x800 && (unit < 0xd800 || unit > 0xdfff)) bytes += 1
  }
  return bytes
}

/**
 * How long an address of ours gets, in characters. On Windows the system hands on no address longer than 2,083
 * (INTERNET_MAX_URL_LENGTH; Microsoft's article 263909 on ShellExecuteEx), elsewhere it is the word of a command line.
 */
export const longestHandedOver = { windows: 2000, elsewhere: 30_000 } as const

/**
 * What a person keeps as a bookmark in their browser: a `javascript:` address (HTML Standard, "javascript: URLs") that
 * hands over the page it is pressed on. It reads the page's address, title and selection and asks nothing of the network.
 * A selection beyond `longestHandedOver` is cut, and the cut is marked with “…”; a page whose address alone is longer says
 * so. Pages that forbid scripts of any kind may hinder it in some browsers.
 */
export function bookmarkletFor(): string {
  return `javascript:${encodeURIComponent(bookmarkletCode)}`
}

/** Written for any browser with URLSearchParams; it runs in a foreign page, so it keeps its names to itself. */
const bookmarkletCode = `(function () {
  var most = /^Win/.test(navigator.platform) ? ${longestHandedOver.windows} : ${longestHandedOver.elsewhere};
  var toLink = function (title, selection) {
    var fields = new URLSearchParams();
    fields.append('address', location.href);
    if (title) fields.append('title', title);
    if (selection) fields.append('selection', selection);
    return '${linkScheme}:add?' + fields;
  };
  var fits = function (title, selection) { return toLink(title, selection).length <= most; };
  var points = Array.from(document.title.replace(/[\\s\\u0000-\\u001f\\u007f-\\u009f]+/g, ' ').trim());
  var title = points.length > ${maxTitle} ? points.slice(0, ${maxTitle - 1}).join('') + '…' : points.join('');
  if (!fits(title, '')) title = '';
  if (!fits('', '')) { alert('The address of this page is too long to be handed over. Copy it and paste it into Stillroom.'); return; }
  var selection = String(getSelection() || '').trim();
  if (selection.length > most || !fits(title, selection)) {
    var words = Array.from(selection.slice(0, most));
    var low = 0, high = words.length - 1;
    while (low < high) {
      var middle = Math.ceil((low + high) / 2);
      if (fits(title, words.slice(0, middle).join('') + '…')) low = middle; else high = middle - 1;
    }
    selection = words.slice(0, low).join('') + '…';
    if (!fits(title, selection)) selection = '';
  }
  location.href = toLink(title, selection);
})();`
