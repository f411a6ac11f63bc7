/** Pages that were saved with what belongs to them in one file: MHTML (RFC 2557). */
import { maybeWebAddress } from '../markdown/addresses.ts'
import { toOneLine } from '../markdown/words.ts'
import { toMoment, type Moment } from '../lab/moment.ts'
import { intakePage } from './html.ts'
import { maxArchiveBytes } from './limits.ts'
import { decodeBody, maybeMimeMessage, wordsOfField, type MimeMessage, type MimePart } from './mime.ts'
import { toPictureAddress, type Pictures } from './pictures.ts'
import { maybePicture } from './picture.ts'
import { broken, tooLarge, type Intake } from './taken.ts'

/** Says whether a file begins as a MIME message does that holds parts: what browsers save as MHTML. */
export function isWebArchive(name: string, beginning: string): boolean {
  if (/\.mht(?:ml)?$/iu.test(name)) return true
  const header = /^(?:[A-Za-z][A-Za-z0-9-]*:[^\n]*\n(?:[ \t][^\n]*\n)*)+/u.exec(
    beginning.replace(/\r\n/gu, '\n'),
  )?.[0]
  return (
    header !== undefined &&
    /^MIME-Version:/imu.test(header) &&
    /^Content-Type:\s*multipart\/related/imu.test(header)
  )
}

/**
 * Takes in the bytes of an MHTML file: its page as Markdown, with the pictures that came along. Nothing is run or fetched.
 * The page is the part that the parameter `start` names, else the first that is HTML (RFC 2387 §3.2, RFC 2557 §9).
 */
export async function intakeWebArchive(name: string, bytes: Uint8Array): Promise<Intake> {
  if (bytes.length > maxArchiveBytes) return tooLarge(name, bytes.length, maxArchiveBytes)
  const message = await maybeMimeMessage(bytes)
  if (!message) return broken(name, 'does not begin as a page does that was saved as MHTML')
  const root = maybeRoot(message)
  if (!root) return broken(name, whyWithoutPage(message))
  const location = toOneLine(message.head.fields.get('snapshot-content-location') ?? locationOf(root) ?? '')
  const pictures = await collectPictures(message.leaves, location)
  const page = intakePage(name, await decodeBody(root), {
    address: maybeWebAddress(location) ?? null,
    title: toOneLine(wordsOfField(message.head, 'subject') ?? ''),
    encoding: root.parameters.get('charset'),
    pictures,
  })
  if (!page.ok) return page
  return {
    ...page,
    mediaType: 'multipart/related',
    saved: maybeMailDate(message.head.fields.get('date') ?? '') ?? null,
    notes: [...page.notes, ...(message.lacksEnd ? [cutOff] : [])],
  }
}

const cutOff = 'The file has no last boundary, so what stood at its end may be missing.'

function whyWithoutPage({ lacksParts, leaves }: MimeMessage): string {
  if (lacksParts && leaves.length === 0)
    return 'names a boundary between its parts that stands nowhere in it: it was damaged or only half saved'
  return 'holds no page, only what belonged to one'
}

const isPage = ({ type }: MimePart): boolean => type === 'text/html' || type === 'application/xhtml+xml'

/** The part that is the page itself. */
export function maybeRoot({ head, leaves }: MimeMessage): MimePart | undefined {
  const start = head.parameters.get('start')
  const named = start === undefined ? undefined : leaves.find((part) => idOf(part) === toId(start))
  return named && isPage(named) ? named : leaves.find(isPage)
}

const toId = (text: string): string => text.trim().replace(/^<|>$/gu, '')
/** Its Content-ID (RFC 2392) without brackets; empty where it has none. */
export const idOf = (part: MimePart): string => toId(part.fields.get('content-id') ?? '')

/** RFC 2557 §4.4.2: a long location is folded, and the spaces that come of it are no part of it. */
export function locationOf(part: MimePart): string | undefined {
  return part.fields.get('content-location')?.replace(/\s+/gu, '')
}

/** Characters of all pictures of one page. What is more stays a picture's words and address. */
const maxAllPictures = 2 * 1024 * 1024

async function collectPictures(parts: readonly MimePart[], base: string): Promise<Pictures> {
  const addresses = new Map<string, string>()
  for (const part of parts) {
    if (!part.type.startsWith('image/')) continue
    const bytes = await decodeBody(part)
    const picture = maybePicture(bytes)
    const address = picture === undefined ? undefined : toPictureAddress(picture, bytes)
    if (address === undefined) continue
    const location = locationOf(part)
    if (location !== undefined && location !== '') addresses.set(toAddress(location, base), address)
    if (idOf(part) !== '') addresses.set(`cid:${idOf(part)}`, address)
  }
  let left = maxAllPictures
  return (src, from) => {
    const address = addresses.get(toAddress(src, from ?? base)) ?? addresses.get(toAddress(src, base))
    if (address === undefined || address.length > left) return undefined
    left -= address.length
    return address
  }
}

/** The URL class stands in every runtime that this program uses, but not in ECMAScript's own library. */
const UrlOfRuntime = (
  globalThis as unknown as { URL: new (address: string, base?: string) => { readonly href: string } }
).URL

/** An address of any scheme as the WHATWG URL standard writes it, only to be compared; as it stands where it is none. */
export function toAddress(text: string, base: string): string {
  for (const from of [base, undefined]) {
    try {
      return new UrlOfRuntime(text.trim(), from === '' ? undefined : from).href
    } catch {
      // The base may be no address; then the text may still be one.
    }
  }
  return text.trim()
}

const mailDate =
  /^(?:[A-Za-z]{3},)?\s*(\d{1,2})\s+([A-Za-z]{3})\s+(\d{4})\s+(\d{2}):(\d{2})(?::(\d{2}))?\s+([+-])?(\d{2})?(\d{2})?/u
const months = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec']

/** RFC 5322 §3.3, its zone kept; a zone that is named by letters is UTC (§4.3). The name of the weekday is not checked. */
export function maybeMailDate(text: string): Moment | undefined {
  const found = mailDate.exec(toOneLine(text))
  if (!found) return undefined
  const [, day, month, year, hour, minute, second, sign, zoneHours, zoneMinutes] = found
  const index = months.indexOf(month!.toLowerCase())
  const offset =
    sign === undefined ? 0 : (sign === '-' ? -1 : 1) * (Number(zoneHours) * 60 + Number(zoneMinutes))
  const at = Date.UTC(Number(year), index, Number(day), Number(hour), Number(minute), Number(second ?? 0))
  const isDate =
    index >= 0 && new Date(at).getUTCDate() === Number(day) && Number(hour) < 24 && Number(minute) < 60
  if (!isDate || Math.abs(offset) > 1439) return undefined
  return toMoment(at - offset * 60_000, offset || 0)
}
