/** What other programs drop on the composer, as Markdown. */
import { maybeWebAddress } from '../../../shared/markdown/addresses.ts'

/** The largest text file that goes into an entry, in bytes. A longer one is a source. */
export const MOST_FILE_BYTES = 1_000_000

/** What a drop or paste brings, by media type; `getData` of a DataTransfer. */
export type DataByType = (type: string) => string

/** Text or a link as Markdown; null where there is neither. */
export function markdownOfDrop(dataOf: DataByType, titleIn: (html: string) => string | null): string | null {
  const addresses = dataOf('text/uri-list')
    .split(/\r?\n/)
    .filter((line) => line !== '' && !line.startsWith('#'))
  const links = addresses.map((address) => maybeWebAddress(address))
  if (links.length > 0 && links.every((link) => link !== undefined)) {
    const title = links.length === 1 ? titleIn(dataOf('text/html')) : null
    return links.map((link) => linkTo(link, title)).join('\n')
  }
  return dataOf('text/plain') || null
}

/** An inline link (CommonMark 0.31.2 §6.3); a bare address stands in angle brackets (§6.5). */
function linkTo(address: string, title: string | null): string {
  const words = title?.replace(/\s+/gu, ' ').trim() ?? ''
  if (words === '' || words === address) return `<${address}>`
  return `[${words.replace(/[\\[\]]/g, '\\$&')}](<${address.replace(/[<>]/g, encodeURIComponent)}>)`
}

/**
 * A fenced code block (CommonMark 0.31.2 §4.5) around any text: its fence is longer than every run of backticks in it.
 */
export function fencedBlock(text: string, info: string): string {
  const longest = Math.max(2, ...(text.match(/`+/g) ?? []).map((run) => run.length))
  const fence = '`'.repeat(longest + 1)
  return `${fence}${info}\n${text}${text.endsWith('\n') ? '' : '\n'}${fence}`
}

const codeEndings =
  /\.(sh|bash|zsh|conf|ini|json|ya?ml|toml|xml|html|css|js|ts|py|c|h|rs|go|sql|diff|patch|md)$/i

/** The info string of a file's fence: its ending where that names a language, else nothing. */
export function infoOfFile(name: string): string {
  return codeEndings.exec(name)?.[1]?.toLowerCase() ?? ''
}

/** The text of a file's bytes as UTF-8; null where they are none or hold U+0000, so that it is no text file. */
export function textOfBytes(bytes: Uint8Array): string | null {
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    return text.includes('\0') ? null : text
  } catch {
    return null
  }
}

/** '3.2 MB' */
export function megabytes(bytes: number): string {
  return `${(bytes / 1_000_000).toFixed(1)} MB`
}
