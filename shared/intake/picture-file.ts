/** Taking in a picture as a source of its own: its bytes are kept, and it has no text. */
import { maxPictureBytes } from './limits.ts'
import { maybePicture } from './picture.ts'
import { broken, nothingStated, notText, tooLarge, type Intake } from './taken.ts'
import { titleOfName } from './text.ts'

/** How a PNG, JPEG, GIF or WebP file begins; the whole header is looked at when it is read. */
const pictureStart = /^(?:\u0089PNG\r\n|\u00ff\u00d8\u00ff|GIF8[79]a|RIFF[^]{4}WEBP)/u
/** SVG 2 §5.1: an element `svg`, after what may stand before the root of an XML document (XML 1.0 §2.8). */
const svgStart =
  /^(?:\u00ef\u00bb\u00bf)?\s*(?:<\?xml[^>]*>\s*|<!--[^]*?-->\s*|<!DOCTYPE\s+svg\b(?:[^>[]|\[[^\]]*\])*>\s*)*<(?:svg:)?svg[\s>/]/iu

/** Says whether a file begins as a picture does; SVG, which is none here, goes by its name too. */
export function isPictureFile(name: string, beginning: string): boolean {
  return pictureStart.test(beginning) || isSvg(name, beginning)
}

function isSvg(name: string, beginning: string): boolean {
  return svgStart.test(beginning) || (/\.svgz?$/iu.test(name) && !/^%PDF-/u.test(beginning))
}

/**
 * Takes in the bytes of a PNG, JPEG, GIF or WebP file. Its title is its name, its media type is told by the bytes.
 * SVG is refused: it is a program's text as much as a drawing, and the words of a drawing say little without their places.
 */
export function intakePicture(name: string, bytes: Uint8Array): Intake {
  if (bytes.length > maxPictureBytes) return tooLarge(name, bytes.length, maxPictureBytes)
  const picture = maybePicture(bytes)
  if (picture)
    return {
      ok: true,
      title: titleOfName(name),
      address: null,
      kind: 'picture',
      text: '',
      mediaType: picture.mediaType,
      ...nothingStated,
      notes: [],
    }
  const beginning = String.fromCharCode(...bytes.subarray(0, 4096))
  if (!isSvg(name, beginning))
    return broken(name, 'begins as a picture does, but what tells its width and height is damaged or cut off')
  return notText(name, 'is a drawing that can hold programs (SVG)')
}
