/** Telling text from what is none. */

const signatures: readonly { readonly starts: readonly number[]; readonly is: string }[] = [
  { starts: [0x25, 0x50, 0x44, 0x46, 0x2d], is: 'is a PDF and not text' },
  { starts: [0x89, 0x50, 0x4e, 0x47], is: 'is a picture (PNG) and not text' },
  { starts: [0xff, 0xd8, 0xff], is: 'is a picture (JPEG) and not text' },
  { starts: [0x47, 0x49, 0x46, 0x38], is: 'is a picture (GIF) and not text' },
  { starts: [0x50, 0x4b, 0x03, 0x04], is: 'is a zip archive or an office document and not text' },
  { starts: [0x1f, 0x8b], is: 'is compressed (gzip) and not text' },
  { starts: [0xfd, 0x37, 0x7a, 0x58, 0x5a], is: 'is compressed (xz) and not text' },
  { starts: [0x28, 0xb5, 0x2f, 0xfd], is: 'is compressed (zstd) and not text' },
  { starts: [0x7f, 0x45, 0x4c, 0x46], is: 'is a program and not text' },
]

/** What kind of binary file begins with these bytes, as the end of a sentence about it; undefined for any other. */
export function maybeBinaryKind(bytes: Uint8Array): string | undefined {
  return signatures.find(({ starts }) => starts.every((byte, i) => bytes[i] === byte))?.is
}

/** A text may hold a few stray control characters; from this share on it is taken for something else. */
const tolerated = { count: 4, share: 0.05 }

/** Says whether a decoded text holds so many control characters that no person wrote it and no terminal printed it. */
export function isBinaryText(text: string): boolean {
  const controls = countControls(text)
  return controls > tolerated.count && controls / text.length > tolerated.share
}

/** Control characters that terminals don't print with: bell, backspace, tab, line ends and escape are left out. */
function countControls(text: string): number {
  let count = 0
  for (let i = 0; i < text.length; i += 1) {
    const code = text.charCodeAt(i)
    const isPrinted = code >= 0x20 ? code !== 0xfffd : (code >= 0x07 && code <= 0x0d) || code === 0x1b
    if (!isPrinted) count += 1
  }
  return count
}
