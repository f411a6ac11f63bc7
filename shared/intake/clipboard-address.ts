/** The page that HTML on the clipboard was copied from, as browsers note it beside the HTML. */
import { maybeWebAddress } from '../markdown/addresses.ts'
import { fragmentOf } from './pasted.ts'

/** Forms of the system's clipboard that name the page, and how each is read. */
export const addressForms = [
  /** Chromium on Linux and macOS: the address in UTF-8. */
  'chromium/x-source-url',
  'org.chromium.source-url',
  /** Firefox on Linux: the address in UTF-16 of this machine, which is little-endian wherever Electron runs. */
  'text/x-moz-url-priv',
  /** Windows: a header before the HTML ("HTML Clipboard Format", Win32 documentation). */
  'HTML Format',
] as const
export type AddressForm = (typeof addressForms)[number]

/** The longest clipboard form that is looked at, in bytes. */
export const longestAddressForm = 1024 * 1024

/**
 * @param read gives a form's bytes; none, or no bytes, where the clipboard has no such form
 * @returns an absolute http or https address, null where none of the forms names one
 */
export function addressOfClipboard(read: (form: AddressForm) => Uint8Array | null): string | null {
  for (const form of addressForms) {
    const bytes = read(form)
    if (bytes === null || bytes.length === 0 || bytes.length > longestAddressForm) continue
    const text = new TextDecoderOfRuntime(form === 'text/x-moz-url-priv' ? 'utf-16le' : 'utf-8').decode(bytes)
    const plain = text.replace(/\0+$/u, '').trim()
    const address = form === 'HTML Format' ? fragmentOf(plain).address : maybeWebAddress(plain)
    if (address !== undefined) return address
  }
  return null
}

/** The TextDecoder class stands in every runtime that this program uses, but not in ECMAScript's own library. */
const TextDecoderOfRuntime = (
  globalThis as unknown as { TextDecoder: new (label: string) => { decode(bytes: Uint8Array): string } }
).TextDecoder
