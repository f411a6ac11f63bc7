/** Looks for a text in every file of a folder, however Chromium may have written it there. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { entriesOf, isTable, logRecords, tableBlocks } from './files.ts'
import { unsnappy } from './snappy.ts'

export interface Hit {
  /** Relative to the folder. */
  readonly file: string
  /** `raw`: the file's bytes show it. `unpacked`: only what they hold once it is put together does. */
  readonly how: 'raw' | 'unpacked'
}

export interface Found {
  readonly hits: readonly Hit[]
  /** How many packed blocks of tables were looked into. */
  readonly packedBlocks: number
}

/** The bytes of a text as a page, JSON or a database writes it. */
function formsOf(text: string): Buffer[] {
  const little = Buffer.from(text, 'utf16le')
  return [Buffer.from(text, 'utf8'), Buffer.from(text, 'latin1'), little, Buffer.from(little).swap16()]
}

export function searchFolder(folder: string, text: string): Found {
  const forms = formsOf(text)
  const shows = (bytes: Uint8Array): boolean =>
    forms.some((form) => Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).includes(form))
  const hits: Hit[] = []
  let packedBlocks = 0
  for (const path of filesIn(folder)) {
    const bytes = readFileSync(path)
    const { contents, packed } = contentsOf(path, bytes)
    packedBlocks += packed
    const how = shows(bytes)
      ? 'raw'
      : contents.some((one) => shows(one) || unpackedIn(one).some(shows))
        ? 'unpacked'
        : null
    if (how !== null) hits.push({ file: relative(folder, path), how })
  }
  return { hits, packedBlocks }
}

function contentsOf(path: string, bytes: Uint8Array): { contents: Uint8Array[]; packed: number } {
  if (isTable(bytes)) {
    const blocks = tableBlocks(bytes)
    const contents = blocks.flatMap((block) => [
      block.bytes,
      ...entriesOf(block.bytes).flatMap(({ key, value }) => [key, value]),
    ])
    return { contents, packed: blocks.filter(({ isPacked }) => isPacked).length }
  }
  return { contents: path.endsWith('.log') ? logRecords(bytes) : [bytes], packed: 0 }
}

/** Newer Chromiums pack single values by Snappy too, behind this mark of their serialisation. */
const PACKED_VALUE = Buffer.from([0xff, 0x11, 0x02])

function unpackedIn(bytes: Uint8Array): Uint8Array[] {
  const whole = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const found: Uint8Array[] = []
  for (let at = whole.indexOf(PACKED_VALUE); at >= 0; at = whole.indexOf(PACKED_VALUE, at + 1))
    try {
      found.push(unsnappy(whole.subarray(at + PACKED_VALUE.length)))
    } catch {
      // The mark stood there by chance.
    }
  return found
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((one) => {
    const path = join(folder, one.name)
    return one.isDirectory() ? filesIn(path) : one.isFile() ? [path] : []
  })
}
