/** Headers of pictures, written by their standards; what follows them is padding. */
const signs = (text: string): number[] => Array.from(text, (sign) => sign.charCodeAt(0))
const uint = (value: number, bytes: number): number[] =>
  Array.from({ length: bytes }, (_, i) => Math.floor(value / 256 ** i) % 256)
const big = (value: number, bytes: number): number[] => uint(value, bytes).reverse()
const padded = (bytes: readonly number[], size: number): Uint8Array =>
  Uint8Array.from([...bytes, ...Array<number>(Math.max(0, size - bytes.length)).fill(0)])

export const png = (width: number, height: number, size = 40): Uint8Array =>
  padded(
    [...signs('\u0089PNG\r\n\u001a\n'), ...big(13, 4), ...signs('IHDR'), ...big(width, 4), ...big(height, 4)],
    size,
  )

export const gif = (width: number, height: number): Uint8Array =>
  padded([...signs('GIF89a'), ...uint(width, 2), ...uint(height, 2)], 20)

/** With a comment and a fill byte before the frame, as encoders may write. */
export const jpeg = (width: number, height: number): Uint8Array =>
  padded(
    [
      0xff,
      0xd8,
      0xff,
      0xfe,
      ...big(5, 2),
      1,
      2,
      3,
      0xff,
      0xff,
      0xc2,
      ...big(11, 2),
      8,
      ...big(height, 2),
      ...big(width, 2),
    ],
    40,
  )

export const webp = {
  extended: (width: number, height: number): Uint8Array =>
    padded([...riff('VP8X'), ...uint(10, 4), 0, 0, 0, 0, ...uint(width - 1, 3), ...uint(height - 1, 3)], 40),
  lossless: (width: number, height: number): Uint8Array =>
    padded([...riff('VP8L'), ...uint(10, 4), 0x2f, ...uint(width - 1 + (height - 1) * 2 ** 14, 4)], 40),
  lossy: (width: number, height: number): Uint8Array =>
    padded(
      [...riff('VP8 '), ...uint(10, 4), 0, 0, 0, 0x9d, 0x01, 0x2a, ...uint(width, 2), ...uint(height, 2)],
      40,
    ),
}

function riff(chunk: string): number[] {
  return [...signs('RIFF'), ...uint(32, 4), ...signs('WEBP'), ...signs(chunk)]
}
