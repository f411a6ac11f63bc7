/** PDFs for tests, written by hand after ISO 32000-1. */
import { createHash } from 'node:crypto'

export interface Draw {
  readonly x: number
  /** From the page's foot, in points. */
  readonly y: number
  readonly text: string
  readonly size?: number
  /** Times, or Courier, each of whose characters is 0.6 of the size wide. */
  readonly font?: 'serif' | 'mono'
}

export interface Making {
  readonly info?: Readonly<Record<string, string>>
  /** Of page labels (§12.4.2), as written in the file. */
  readonly labels?: string
  readonly outline?: readonly { readonly title: string; readonly page: number }[]
  /** Locks it (§7.6.3, revision 2) with this user password. */
  readonly password?: string
  /** A font whose codes only a table that comes with the reader tells (§9.7.5.2). */
  readonly table?: string
}

/** Lines below each other, from the head of the page on. */
export function lines(texts: readonly string[], { x = 72, y = 720, size = 10, pitch = 12 } = {}): Draw[] {
  return texts.map((text, i) => ({ x, y: y - i * pitch, text, size }))
}

const escaped = (text: string): string => `(${text.replace(/[\\()]/g, '\\$&')})`

export function pdf(pages: readonly (readonly Draw[])[], making: Making = {}): Uint8Array {
  const { info = {}, labels, outline = [], password, table } = making
  const lock = password === undefined ? undefined : new Lock(password)
  const objects: string[] = []
  const add = (body: string): number => objects.push(body)
  const string = (text: string, number: number): string =>
    lock ? hex(lock.apply(number, text)) : escaped(text)
  const count = pages.length
  // 1 catalogue, 2 page tree, 3 and 4 fonts, 5 information, then pages with their contents, then the outline.
  const pageAt = (i: number): number => 6 + i * 2
  const outlineAt = 6 + count * 2
  add(
    `<</Type/Catalog/Pages 2 0 R${labels ? `/PageLabels<</Nums[${labels}]>>` : ''}${outline.length > 0 ? `/Outlines ${outlineAt} 0 R` : ''}>>`,
  )
  add(`<</Type/Pages/Count ${count}/Kids[${pages.map((_, i) => `${pageAt(i)} 0 R`).join(' ')}]>>`)
  add(
    table
      ? `<</Type/Font/Subtype/Type0/BaseFont/Example/Encoding/${table}/DescendantFonts[<</Type/Font/Subtype/CIDFontType0/BaseFont/Example/CIDSystemInfo<</Registry(Adobe)/Ordering(Japan1)/Supplement 2>>/FontDescriptor<</Type/FontDescriptor/FontName/Example/Flags 4/ItalicAngle 0/Ascent 800/Descent -200/CapHeight 700/StemV 80/FontBBox[0 0 1000 1000]>>>>]>>`
      : '<</Type/Font/Subtype/Type1/BaseFont/Times-Roman/Encoding/WinAnsiEncoding>>',
  )
  add('<</Type/Font/Subtype/Type1/BaseFont/Courier/Encoding/WinAnsiEncoding>>')
  add(
    `<<${Object.entries(info)
      .map(([key, value]) => `/${key}${string(value, 5)}`)
      .join('')}>>`,
  )
  for (const [i, draws] of pages.entries()) {
    const number = pageAt(i)
    add(
      `<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]/Resources<</Font<</serif 3 0 R/mono 4 0 R>>>>/Contents ${number + 1} 0 R>>`,
    )
    const plain = draws
      .map(({ x, y, text, size = 10, font = 'serif' }) => {
        const shown = table ? `<${Buffer.from(text, 'utf16le').swap16().toString('hex')}>` : escaped(text)
        return `BT /${font} ${size} Tf ${x} ${y} Td ${shown} Tj ET`
      })
      .join('\n')
    const body = lock ? lock.apply(number + 1, plain) : plain
    add(`<</Length ${body.length}>>\nstream\n${body}\nendstream`)
  }
  if (outline.length > 0) {
    const last = outlineAt + outline.length
    add(`<</Type/Outlines/First ${outlineAt + 1} 0 R/Last ${last} 0 R/Count ${outline.length}>>`)
    for (const [i, { title, page }] of outline.entries()) {
      const own = outlineAt + 1 + i
      add(
        `<</Title${string(title, own)}/Parent ${outlineAt} 0 R/Dest[${pageAt(page)} 0 R/Fit]${own < last ? `/Next ${own + 1} 0 R` : ''}${i > 0 ? `/Prev ${own - 1} 0 R` : ''}>>`,
      )
    }
  }
  const encrypt = lock ? add(lock.dictionary) : 0
  return toFile(objects, encrypt)
}

function toFile(objects: readonly string[], encrypt: number): Uint8Array {
  let text = '%PDF-1.4\n%\xe2\xe3\xcf\xd3\n'
  const places = objects.map((body, i) => {
    const at = text.length
    text += `${i + 1} 0 obj\n${body}\nendobj\n`
    return at
  })
  const table = places.map((at) => `${String(at).padStart(10, '0')} 00000 n \n`).join('')
  const lock = encrypt > 0 ? `/Encrypt ${encrypt} 0 R/ID[<${'00'.repeat(16)}><${'00'.repeat(16)}>]` : ''
  const end = `trailer\n<</Size ${objects.length + 1}/Root 1 0 R/Info 5 0 R${lock}>>\nstartxref\n${text.length}\n%%EOF\n`
  return Uint8Array.from(
    `${text}xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${table}${end}`,
    (sign) => sign.charCodeAt(0),
  )
}

const hex = (signs: string): string => `<${Buffer.from(signs, 'latin1').toString('hex')}>`
const md5 = (signs: string): string => createHash('md5').update(signs, 'latin1').digest().toString('latin1')
const filling =
  '\x28\xBF\x4E\x5E\x4E\x75\x8A\x41\x64\x00\x4E\x56\xFF\xFA\x01\x08\x2E\x2E\x00\xB6\xD0\x68\x3E\x80\x2F\x0C\xA9\xFE\x64\x53\x69\x7A'

/** §7.6.3.3 and §7.6.3.4, algorithms 1 to 4 with a key of 40 bits. */
class Lock {
  private readonly key: string
  private readonly owner: string

  constructor(password: string) {
    const user = (password + filling).slice(0, 32)
    this.owner = rc4(md5(`owner${filling}`.slice(0, 32)).slice(0, 5), user)
    this.key = md5(`${user}${this.owner}\xfc\xff\xff\xff${'\0'.repeat(16)}`).slice(0, 5)
  }

  apply(number: number, text: string): string {
    const mark = String.fromCharCode(number & 255, (number >> 8) & 255, 0, 0, 0)
    return rc4(md5(this.key + mark).slice(0, 10), text)
  }

  get dictionary(): string {
    return `<</Filter/Standard/V 1/R 2/P -4/O${hex(this.owner)}/U${hex(rc4(this.key, filling))}>>`
  }
}

function rc4(key: string, text: string): string {
  const state = Array.from({ length: 256 }, (_, i) => i)
  const swap = (i: number, j: number): void => void ([state[i], state[j]] = [state[j]!, state[i]!])
  for (let i = 0, j = 0; i < 256; i += 1) {
    j = (j + state[i]! + key.charCodeAt(i % key.length)) & 255
    swap(i, j)
  }
  let [a, b] = [0, 0]
  return Array.from(text, (sign) => {
    a = (a + 1) & 255
    b = (b + state[a]!) & 255
    swap(a, b)
    return String.fromCharCode(sign.charCodeAt(0) ^ state[(state[a]! + state[b]!) & 255]!)
  }).join('')
}
