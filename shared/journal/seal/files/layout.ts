/** Names and small forms of an exported journal's files. */
import { fromUtf8 } from '../canonical.ts'

/** Contents by path, `/` between folders. */
export type Files = ReadonlyMap<string, Uint8Array>

export const README = 'README.txt'
export const SCRIPT = 'check.sh'
export const HEAD = 'HEAD.txt'
export const JOURNAL = 'journal.md'
export const SUMS = 'SHA256SUMS'

/** The file of a seal's body: exactly the bytes that are hashed. */
export function sealPath(number: number): string {
  return `seals/${String(number).padStart(10, '0')}.json`
}

/** The file of a text: its salt in hex on a line of its own, the words, a last line feed. Its SHA-256 is the digest in the seal. */
export function textPath(sha256: string): string {
  return `texts/${sha256}.txt`
}

/** The file of a picture's or binary file's bytes. */
export function blobPath(sha256: string): string {
  return `blobs/${sha256}`
}

/** The words of a text file, without the salt in its first line and the line feed at its end. */
export function wordsIn(file: Uint8Array): string {
  const text = fromUtf8(file)
  return text.slice(text.indexOf('\n') + 1, -1)
}

/** SHA256SUMS as sha256sum writes it, in the byte order of the paths. @param sums by path */
export function sumsText(sums: ReadonlyMap<string, string>): string {
  return [...sums]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([path, sha256]) => `${sha256}  ${path}\n`)
    .join('')
}
