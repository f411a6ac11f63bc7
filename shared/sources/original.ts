/** The original of a capture, as it can be looked at: what it is, told by its bytes, and the document that shows a page. */
import { isBinaryText, maybeBinaryKind } from '../intake/binary.ts'
import { decodeHtml, decodeText } from '../intake/decode.ts'
import { decodeBody, maybeMimeMessage, type MimePart } from '../intake/mime.ts'
import { maybePicture } from '../intake/picture.ts'
import { toBase64 } from '../intake/pictures.ts'
import { idOf, isWebArchive, locationOf, maybeRoot, toAddress } from '../intake/web-archive.ts'
import { maybeOriginalPage, nothingCame, type CameAlong } from './original-page.ts'

export type Original =
  /** A whole document for the `srcdoc` of a frame without rights. `leftOut`: pictures too large to be shown in it. */
  | { readonly kind: 'page'; readonly html: string; readonly leftOut: number }
  | { readonly kind: 'picture'; readonly mediaType: string; readonly width: number; readonly height: number }
  | { readonly kind: 'pdf' }
  | { readonly kind: 'text'; readonly text: string; readonly encoding: string }
  /** Why it cannot be shown, in a sentence. */
  | { readonly kind: 'not shown'; readonly sentence: string }

/** Characters of all pictures of one page, as addresses. What is more is left out of what is shown, not of what is kept. */
const MOST_PICTURES = 48 * 1024 * 1024

/**
 * Tells what the original is and makes of a page the document to be shown. Nothing of it is run or fetched.
 * @param mediaType as it was known when the bytes came in; counts only where the bytes do not say
 * @param nonce of the styles that the page's policy allows
 */
export async function toOriginal(bytes: Uint8Array, mediaType: string, nonce: string): Promise<Original> {
  const picture = maybePicture(bytes)
  if (picture)
    return { kind: 'picture', mediaType: picture.mediaType, width: picture.width, height: picture.height }
  const beginning = String.fromCharCode(...bytes.subarray(0, 4096))
  if (beginning.startsWith('%PDF-') || mediaType === 'application/pdf') return { kind: 'pdf' }
  if (mediaType === 'multipart/related' || isWebArchive('', beginning)) return ofArchive(bytes, nonce)
  if (mediaType === 'text/html' || mediaType === 'application/xhtml+xml')
    return ofPage(decodeHtml(bytes).text, nonce, nothingCame)
  return ofText(bytes)
}

function ofPage(html: string, nonce: string, along: CameAlong, leftOut = (): number => 0): Original {
  const page = maybeOriginalPage(html, nonce, along)
  return page
    ? { kind: 'page', html: page.html, leftOut: leftOut() }
    : notShown('Its parts lie too deep within each other to be drawn safely.')
}

function ofText(bytes: Uint8Array): Original {
  if (maybeBinaryKind(bytes) !== undefined)
    return notShown(
      'It is a kind of file that is not drawn here, and its readable text is what you see under “Text”.',
    )
  const { text, encoding } = decodeText(bytes)
  return isBinaryText(text)
    ? notShown('It holds more control characters than any text does.')
    : { kind: 'text', text, encoding }
}

function notShown(why: string): Original {
  return {
    kind: 'not shown',
    sentence: `The original cannot be shown here. ${why} Its bytes are kept unchanged: save it to a file to open it elsewhere.`,
  }
}

async function ofArchive(bytes: Uint8Array, nonce: string): Promise<Original> {
  const message = await maybeMimeMessage(bytes)
  const root = message && maybeRoot(message)
  if (!root) return notShown('No page was found in it.')
  const html = decodeHtml(await decodeBody(root), root.parameters.get('charset')).text
  const base = message.head.fields.get('snapshot-content-location') ?? locationOf(root) ?? ''
  const parts = new Parts(await readParts(message.leaves, base), base)
  return ofPage(html, nonce, parts, () => parts.leftOut)
}

interface ReadPart {
  readonly location: string
  readonly bytes: Uint8Array
  readonly charset: string | undefined
  readonly isSheet: boolean
}

/** Parts by their location and by their Content-ID (RFC 2557 §8, RFC 2392). */
async function readParts(leaves: readonly MimePart[], base: string): Promise<ReadonlyMap<string, ReadPart>> {
  const read = new Map<string, ReadPart>()
  for (const part of leaves) {
    const isSheet = part.type === 'text/css'
    if (!isSheet && !part.type.startsWith('image/')) continue
    const location = locationOf(part) ?? ''
    const one = { location, bytes: await decodeBody(part), charset: part.parameters.get('charset'), isSheet }
    if (location !== '') read.set(toAddress(location, base), one)
    if (idOf(part) !== '') read.set(`cid:${idOf(part)}`, one)
  }
  return read
}

class Parts implements CameAlong {
  private left = MOST_PICTURES
  leftOut = 0

  constructor(
    private readonly parts: ReadonlyMap<string, ReadPart>,
    private readonly base: string,
  ) {}

  readonly picture = (address: string): string | undefined => this.pictureFrom(address, this.base)

  readonly sheet = (address: string) => {
    const part = this.parts.get(toAddress(address, this.base))
    if (!part?.isSheet) return undefined
    const from = part.location === '' ? this.base : part.location
    return { css: decodeSheet(part), picture: (inner: string) => this.pictureFrom(inner, from) }
  }

  private pictureFrom(address: string, base: string): string | undefined {
    const part = this.parts.get(toAddress(address, base))
    const picture = part && !part.isSheet ? maybePicture(part.bytes) : undefined
    if (!part || !picture) return undefined
    const length = Math.ceil(part.bytes.length / 3) * 4
    if (length > this.left) {
      this.leftOut += 1
      return undefined
    }
    this.left -= length
    return `data:${picture.mediaType};base64,${toBase64(part.bytes)}`
  }
}

/** CSS Syntax Level 3 §3.2, as far as the encoding stands outside of the sheet. */
function decodeSheet({ bytes, charset }: ReadPart): string {
  return charset === undefined ? decodeText(bytes).text : decodeHtml(bytes, charset).text
}
