/**
 * A picture without what its file says beside the pixels: where it was taken, by whose camera, in which program. The
 * compressed pixels are taken over byte by byte.
 */
import { maybePicture } from '../../intake/picture.ts'
import { cameraSays } from './camera.ts'
import { withoutPlaceInJpeg } from './jpeg.ts'
import { withoutPlaceInPng } from './png.ts'
import { withoutPlaceInWebp } from './webp.ts'

/**
 * The same picture without its place.
 * @returns null where the file's parts cannot be told from each other, so that nobody can say what would be left in it
 */
export function withoutPlace(bytes: Uint8Array): Uint8Array | null {
  switch (maybePicture(bytes)?.format) {
    case 'jpeg':
      return withoutPlaceInJpeg(bytes, cameraSays(bytes).orientation)
    case 'png':
      return withoutPlaceInPng(bytes)
    case 'webp':
      return withoutPlaceInWebp(bytes)
    case 'gif':
      // GIF89a has no field for a place; what programs add to it are comments and XMP, which cameras do not write.
      return bytes
    case undefined:
      return null
  }
}
