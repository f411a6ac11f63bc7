/**
 * The lab file: a whole lab as named files, to be put into one zip and read back into an empty lab, equal record for
 * record. A text editor and `sha256sum -c SHA256SUMS` are enough to look inside and to check it.
 *
 *   stillroom-lab.json     what this is: format, version, the lab's name, how many records each table has
 *   records/<table>.jsonl  one record a line (JSON, RFC 8259); bytes stand as {"$bytes": "<SHA-256>"}
 *   blobs/<SHA-256>        those bytes
 *   README.txt             the same in words
 *   SHA256SUMS             a SHA-256 (FIPS 180-4) for every other file
 */
import { isId } from '../lab/ids.ts'
import type { Lab } from '../lab/model.ts'
import { readMoment, type Moment } from '../lab/moment.ts'
import { dumpToVersion2, dumpToVersion3, dumpToVersion4, type Dump } from '../lab/upgrade.ts'
import { fail, succeed, type Failure, type Result } from '../lab/result.ts'

export const FORMAT = 'stillroom lab'
export const FORMAT_VERSION = 4

/** Tables by the field that is each record's key. */
const keyFields: Readonly<Record<string, string>> = {
  projects: 'id',
  blobs: 'sha256',
  folders: 'id',
  sources: 'id',
  machines: 'id',
  captures: 'id',
  entries: 'id',
  withdrawals: 'id',
  marks: 'id',
  entryTags: 'entry',
  verdicts: 'id',
  procedures: 'id',
  steps: 'id',
  parts: 'id',
  parameters: 'id',
  versions: 'id',
  remarks: 'id',
  silences: 'id',
  leftOut: 'id',
  fetches: 'id',
  links: 'id',
  strikes: 'id',
  texts: 'node',
  revisions: 'id',
  linkStates: 'link',
  captureHeads: 'id',
  seals: 'id',
  salts: 'seal',
  changes: 'sequence',
  drafts: 'key',
  settings: 'key',
}

/** Contents by path, `/` between folders. */
export type Files = ReadonlyMap<string, Uint8Array>

/** What this needs from the machine. */
export interface Tools {
  /** Lower-case hex SHA-256. */
  readonly sha256: (bytes: Uint8Array) => Promise<string>
  /** UTF-8. */
  readonly encode: (text: string) => Uint8Array
  /** UTF-8; throws where the bytes are none. */
  readonly decode: (bytes: Uint8Array) => string
}

export type LabFileFailure = Failure<'not-a-lab-file' | 'newer-format' | 'damaged'>

/** Writes a lab as files. The same lab gives the same bytes, but for `made`. */
export async function labToFiles(
  lab: Lab,
  dump: Dump,
  made: Moment,
  tools: Tools,
): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>()
  const hashes = new Map<Uint8Array, string>()
  for (const bytes of bytesIn(dump)) {
    const sha256 = await tools.sha256(bytes)
    hashes.set(bytes, sha256)
    files.set(`blobs/${sha256}`, bytes)
  }
  const tables = Object.keys(keyFields).map((name) => [name, dump[name] ?? []] as const)
  for (const [name, records] of tables)
    files.set(`records/${name}.jsonl`, tools.encode(toLines(records, hashes)))
  const counts = Object.fromEntries(tables.map(([name, records]) => [name, records.length]))
  const about = { format: FORMAT, version: FORMAT_VERSION, lab, made, tables: counts }
  files.set('stillroom-lab.json', tools.encode(`${JSON.stringify(about, null, 2)}\n`))
  files.set('README.txt', tools.encode(readme(lab, made)))
  files.set('SHA256SUMS', tools.encode(await sumsOf(files, tools)))
  return files
}

function* bytesIn(value: unknown): Generator<Uint8Array> {
  if (value instanceof Uint8Array) yield value
  else if (Array.isArray(value)) for (const item of value) yield* bytesIn(item)
  else if (typeof value === 'object' && value !== null)
    for (const item of Object.values(value)) yield* bytesIn(item)
}

function toLines(records: readonly unknown[], hashes: ReadonlyMap<Uint8Array, string>): string {
  const replace = (_key: string, value: unknown): unknown =>
    value instanceof Uint8Array ? { $bytes: hashes.get(value) } : value
  return records.map((record) => `${JSON.stringify(record, replace)}\n`).join('')
}

async function sumsOf(files: Files, tools: Tools): Promise<string> {
  const lines: string[] = []
  for (const path of [...files.keys()].sort())
    lines.push(`${await tools.sha256(files.get(path)!)}  ${path}\n`)
  return lines.join('')
}

function readme(lab: Lab, made: Moment): string {
  return [
    `This is the whole of the lab "${lab.name}" as of ${made}.`,
    '',
    'records/   one file for each table, one record a line, as JSON.',
    'blobs/     the original bytes of sources, each under its own SHA-256.',
    '',
    'To check that nothing was damaged:  sha256sum -c SHA256SUMS',
    'To use it again: start Stillroom, make an empty lab, and bring this file in.',
    'It holds everything that was written in the lab, also what was later withdrawn. Keep it as you keep the lab.',
    '',
  ].join('\n')
}

/** Reads files back. Every checksum and every count is checked before anything is given out. */
export async function filesToLab(
  files: Files,
  tools: Tools,
): Promise<Result<{ lab: Lab; dump: Dump }, LabFileFailure>> {
  const about = readAbout(files, tools)
  if (!about.ok) return about
  const damage = await findDamage(files, tools)
  if (damage) return damaged(damage)
  const dump: Record<string, unknown[]> = {}
  for (const [name, count] of Object.entries(about.value.tables)) {
    const records = readTable(name, files, tools)
    if (!records || records.length !== count) return damaged(`records/${name}.jsonl`)
    dump[name] = records
  }
  return succeed({ lab: about.value.lab, dump: toPresent(about.value.version, dump) })
}

/** Records of an older version in the present form. */
function toPresent(version: number, dump: Dump): Dump {
  const second = version < 2 ? dumpToVersion2(dump) : dump
  const third = version < 3 ? dumpToVersion3(second) : second
  return version < 4 ? dumpToVersion4(third) : third
}

const damaged = (path: string): LabFileFailure =>
  fail(
    'damaged',
    `This lab file is damaged: ${path} is not as it was written. Nothing was brought in. Use another copy of the file.`,
  )

interface About {
  readonly version: number
  readonly lab: Lab
  readonly tables: Readonly<Record<string, number>>
}

function readAbout(files: Files, tools: Tools): Result<About, LabFileFailure> {
  const bytes = files.get('stillroom-lab.json')
  const about = bytes ? parse(bytes, tools) : null
  if (!isFields(about) || about.format !== FORMAT)
    return fail('not-a-lab-file', 'This is not a lab file of Stillroom. Nothing was brought in.')
  if (typeof about.version !== 'number' || about.version > FORMAT_VERSION)
    return fail(
      'newer-format',
      'This lab file was written by a newer version of the program. Nothing was brought in; open it with that version.',
    )
  const { lab, tables, version } = about
  const isWhole =
    isLab(lab) &&
    isFields(tables) &&
    Object.entries(tables).every(([name, count]) => name in keyFields && Number.isInteger(count))
  return isWhole
    ? succeed({ lab, version, tables: tables as Record<string, number> })
    : damaged('stillroom-lab.json')
}

function isLab(value: unknown): value is Lab {
  return (
    isFields(value) &&
    isId(value.id) &&
    typeof value.name === 'string' &&
    readMoment(String(value.created)) !== undefined
  )
}

type Fields = Readonly<Record<string, unknown>>
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** The path of the first file that is missing, changed or not listed; null where all are as written. */
async function findDamage(files: Files, tools: Tools): Promise<string | null> {
  const sums = files.get('SHA256SUMS')
  if (!sums) return 'SHA256SUMS'
  const listed = new Map<string, string>()
  for (const line of toText(sums, tools).split('\n')) {
    const match = /^([0-9a-f]{64}) {2}(.+)$/.exec(line)
    if (match) listed.set(match[2]!, match[1]!)
    else if (line !== '') return 'SHA256SUMS'
  }
  for (const path of files.keys()) if (path !== 'SHA256SUMS' && !listed.has(path)) return path
  for (const [path, sum] of listed) {
    const bytes = files.get(path)
    if (!bytes || (await tools.sha256(bytes)) !== sum) return path
  }
  return null
}

function readTable(name: string, files: Files, tools: Tools): unknown[] | null {
  const bytes = files.get(`records/${name}.jsonl`)
  if (!bytes) return null
  const records: unknown[] = []
  for (const line of toText(bytes, tools).split('\n')) {
    if (line === '') continue
    const record = parseRecord(line, files)
    const key = isFields(record) ? record[keyFields[name]!] : undefined
    if (typeof key !== 'string' && !Number.isInteger(key)) return null
    records.push(record)
  }
  return records
}

function parseRecord(line: string, files: Files): unknown {
  try {
    return JSON.parse(line, (_key, value: unknown) => {
      if (!isFields(value) || typeof value.$bytes !== 'string') return value
      const bytes = files.get(`blobs/${value.$bytes}`)
      if (!bytes) throw new SyntaxError('the bytes are missing')
      return bytes
    })
  } catch {
    return undefined
  }
}

/** Text that is no UTF-8 is read as one line that is no record and no checksum. */
function toText(bytes: Uint8Array, tools: Tools): string {
  try {
    return tools.decode(bytes)
  } catch {
    return '\ufffd'
  }
}

function parse(bytes: Uint8Array, tools: Tools): unknown {
  try {
    return JSON.parse(tools.decode(bytes))
  } catch {
    return null
  }
}
