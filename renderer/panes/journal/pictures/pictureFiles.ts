/** Files that are pictures, read and kept under their SHA-256. */
import { maxPictureBytes } from '../../../../shared/intake/limits.ts'
import { maybePicture, type Picture } from '../../../../shared/intake/picture.ts'
import { keepPictures } from '../../../../shared/lab/acts.ts'
import type { Blob as KeptBytes } from '../../../../shared/lab/model.ts'
import type { Workspace } from '../../../store/workspace.ts'

const pictureEndings = /\.(?:png|jpe?g|gif|webp|heic|heif|avif|bmp|tiff?|dng)$/i

/** Says whether a file is called a picture, by its media type or its name. Drawings (SVG) are texts. */
export function isCalledPicture({ name, type }: Pick<File, 'name' | 'type'>): boolean {
  return type.startsWith('image/') ? !type.startsWith('image/svg') : pictureEndings.test(name)
}

export type ReadPicture =
  | { readonly ok: true; readonly bytes: Uint8Array; readonly picture: Picture }
  | { readonly ok: false; readonly sentence: string }

/** Reads a file that should be a picture. */
export async function readPicture(file: File): Promise<ReadPicture> {
  const refuse = (why: string): ReadPicture => ({
    ok: false,
    sentence: `${why} The journal is as it was, and so is the file.`,
  })
  if (file.size > maxPictureBytes)
    return refuse(
      `“${file.name}” is larger than ${maxPictureBytes / 1024 / 1024} MiB, the most a picture may have.`,
    )
  const bytes = await file.arrayBuffer().then(
    (buffer) => new Uint8Array(buffer),
    () => null,
  )
  if (!bytes) return refuse(`“${file.name}” could not be read.`)
  const picture = maybePicture(bytes)
  if (picture) return { ok: true, bytes, picture }
  if (isHeic(bytes))
    return refuse(
      `“${file.name}” is a HEIC picture, which cannot be shown here. Save it as JPEG – phones offer that when they share or copy photos – and add that.`,
    )
  return refuse(`“${file.name}” is no PNG, JPEG, GIF or WebP picture; no other can be shown here.`)
}

/** ISO/IEC 14496-12 §4.3 and ISO/IEC 23008-12 §10: the file's brands. */
function isHeic(bytes: Uint8Array): boolean {
  return /^[^]{4}ftyp(?:hei[cxms]|hev[cx]|mif1|msf1)/.test(String.fromCharCode(...bytes.subarray(0, 12)))
}

/** @param mediaType as the bytes tell it */
export async function toKeptBytes(bytes: Uint8Array, mediaType: string): Promise<KeptBytes> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>))
  return {
    sha256: Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join(''),
    bytes,
    mediaType,
  }
}

/** Keeps a picture at once, so that nothing is lost before the entry that names it stands. @returns whether it is kept */
export function keepAtOnce(workspace: Workspace, blob: KeptBytes): Promise<boolean> {
  return workspace.commit(keepPictures(workspace.requireLab().surroundings, [blob]))
}
