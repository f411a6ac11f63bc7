/** Links that were dropped: the format text/uri-list (RFC 2483 §5). */
import { maybeWebAddress } from '../markdown/addresses.ts'

/** The http and https addresses of a list, in order, each once. Comment lines and other schemes are left out. */
export function addressesFromUriList(list: string): readonly string[] {
  const lines = list.split(/\r\n|\r|\n/u).filter((line) => !line.startsWith('#'))
  const addresses = lines.flatMap((line) => maybeWebAddress(line) ?? [])
  return [...new Set(addresses)]
}

/** The addresses of a list as Markdown, one link a line. */
export function textFromUriList(list: string): string {
  return addressesFromUriList(list)
    .map((address) => `<${address}>`)
    .join('\n')
}
