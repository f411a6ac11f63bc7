/** Pictures and binary files of a sealed journal: their bytes are sealed by their SHA-256. */
import { readChain, type ReadSeal } from './chain.ts'
import type { Seal } from './model.ts'
import type { SealBreak } from './sentences.ts'
import { findAt } from './words.ts'

const places = ['blobs', 'revision.blobs', 'file.blob', 'says.set.blob', 'says.was.blob']

/** SHA-256 of all that the seals name, each once, in the order of the seals. */
export function blobsOfSeals(seals: readonly Seal[]): string[] {
  return [...new Set(readChain(seals).read.flatMap(namedIn))]
}

function namedIn({ body }: ReadSeal): string[] {
  const named = places.flatMap((place) => findAt(body?.record, place))
  return named.filter((sha256) => typeof sha256 === 'string')
}

/**
 * Finds the first seal that names bytes which are others now. Bytes that a strike emptied are not looked at; bytes that
 * are not in the lab may never have been there, since a text can name what it likes.
 * @param bytesOf the bytes that stand in the lab under a SHA-256
 * @param sha256 lower-case hex
 */
export async function findWrongBytes(
  seals: readonly Seal[],
  bytesOf: (sha256: string) => Promise<Uint8Array | undefined>,
  sha256: (bytes: Uint8Array) => Promise<string> | string,
): Promise<SealBreak | null> {
  const { read } = readChain(seals)
  const looked = new Set(read.flatMap(({ body }) => findAt(body?.record, 'emptied') as string[] | undefined))
  for (const [i, one] of read.entries())
    for (const named of namedIn(one)) {
      if (looked.has(named)) continue
      looked.add(named)
      const bytes = await bytesOf(named)
      if (bytes && (await sha256(bytes)) !== named)
        return { code: 'bytes', number: i + 1, of: one.body?.of ?? null, field: null }
    }
  return null
}
