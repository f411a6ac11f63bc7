/**
 * Addresses under which the page can show kept pictures. An address holds the bytes in memory, so it is given back when
 * nobody shows the picture any more; the last few are kept for a journal that is scrolled to and fro.
 */
import { maybePicture, type Picture } from '../../../../shared/intake/picture.ts'
import type { OpenLab } from '../../../db/lab.ts'

export type FoundPicture =
  | { readonly kind: 'picture'; readonly url: string; readonly picture: Picture }
  /** Its bytes were struck out. */
  | { readonly kind: 'struck out' }
  /** The lab holds no such bytes. */
  | { readonly kind: 'missing' }
  /** The bytes are no picture that can be shown. */
  | { readonly kind: 'no picture' }

interface Kept {
  readonly found: Promise<FoundPicture>
  settled: FoundPicture | null
  users: number
}

const MOST_UNUSED = 40

export class PictureUrls {
  private readonly kept = new Map<string, Kept>()

  constructor(private readonly lab: Pick<OpenLab, 'queries'>) {}

  /** What is known at once; null while it must still be looked for. */
  findSettled(sha256: string): FoundPicture | null {
    return this.kept.get(sha256)?.settled ?? null
  }

  /** Looks for a picture. Whoever takes one gives it back with `release`, once. */
  take(sha256: string): { readonly found: Promise<FoundPicture>; readonly release: () => void } {
    const kept = this.kept.get(sha256) ?? this.begin(sha256)
    kept.users += 1
    // The last one used is the last one to go.
    this.kept.delete(sha256)
    this.kept.set(sha256, kept)
    return { found: kept.found, release: () => this.release(sha256, kept) }
  }

  private release(sha256: string, kept: Kept): void {
    kept.users -= 1
    if (this.kept.get(sha256) !== kept) return
    // What is not here may come, by an import or by redoing; it is looked for again.
    if (kept.users === 0 && kept.settled?.kind === 'missing') this.kept.delete(sha256)
    this.dropUnused(MOST_UNUSED)
  }

  /** Something was struck out: nothing that is known still holds. */
  forgetAll(): void {
    for (const [sha256, { settled }] of this.kept) {
      if (settled?.kind === 'picture') URL.revokeObjectURL(settled.url)
      this.kept.delete(sha256)
    }
  }

  private begin(sha256: string): Kept {
    const kept: Kept = { found: this.find(sha256), settled: null, users: 0 }
    void kept.found.then((found) => {
      if (this.kept.get(sha256) === kept) kept.settled = found
      else if (found.kind === 'picture') URL.revokeObjectURL(found.url)
    })
    this.kept.set(sha256, kept)
    return kept
  }

  private async find(sha256: string): Promise<FoundPicture> {
    const blob = await this.lab.queries.findBlob(sha256)
    if (!blob) return { kind: 'missing' }
    if (blob.bytes.length === 0) return { kind: 'struck out' }
    const picture = maybePicture(blob.bytes)
    if (!picture) return { kind: 'no picture' }
    const bytes = new Blob([blob.bytes as Uint8Array<ArrayBuffer>], { type: picture.mediaType })
    return { kind: 'picture', url: URL.createObjectURL(bytes), picture }
  }

  private dropUnused(most: number): void {
    const unused = [...this.kept].filter(([, { users, settled }]) => users === 0 && settled !== null)
    for (const [sha256, { settled }] of unused.slice(0, Math.max(0, unused.length - most))) {
      if (settled?.kind === 'picture') URL.revokeObjectURL(settled.url)
      this.kept.delete(sha256)
    }
  }
}

const urls = new WeakMap<OpenLab, PictureUrls>()

/** The addresses of a lab's pictures in this window. */
export function pictureUrlsOf(lab: OpenLab): PictureUrls {
  const known = urls.get(lab) ?? new PictureUrls(lab)
  urls.set(lab, known)
  return known
}
