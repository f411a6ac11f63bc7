/** Addresses that may be shown as such: absolute URLs of a short list of schemes, as the WHATWG URL standard reads them. */

import { isId, type StepId } from '../lab/ids.ts'

interface ParsedAddress {
  readonly href: string
  readonly protocol: string
}
/** The URL class stands in every runtime that this program uses, but not in ECMAScript's own library. */
const UrlOfRuntime = (globalThis as unknown as { URL: new (address: string, base?: string) => ParsedAddress })
  .URL

function maybeAddress(
  text: string,
  base: string | undefined,
  schemes: readonly string[],
): string | undefined {
  try {
    const url = new UrlOfRuntime(text.trim(), base)
    return schemes.includes(url.protocol) ? url.href : undefined
  } catch {
    return undefined
  }
}

/**
 * The absolute http or https address that a text names.
 * @param base where a relative address starts from
 * @returns undefined for any other scheme and for what is no address
 */
export function maybeWebAddress(text: string, base?: string): string | undefined {
  return maybeAddress(text, base, ['http:', 'https:'])
}

/** The absolute http, https or mailto address that a link in Markdown names, else undefined. */
export function maybeLinkAddress(text: string): string | undefined {
  return maybeAddress(text, undefined, ['http:', 'https:', 'mailto:'])
}

/** The SHA-256 of the bytes that an address of the form `sha256:<64 hex digits>` names, in lower case; else undefined. */
export function maybeBlobNamed(address: string): string | undefined {
  return /^sha256:([0-9a-f]{64})$/.exec(address)?.[1]
}

/** The id of the step that an address of the form `step:<id>` names; undefined for any other address. */
export function maybeStepNamed(address: string): StepId | undefined {
  const id = /^step:(.+)$/u.exec(address)?.[1]
  return isId<StepId>(id) ? id : undefined
}

const pictureData = /^data:image\/(?:png|jpeg|gif|webp);base64,[A-Za-z0-9+/=\s]+$/

/** Says whether an address holds a picture itself (RFC 2397), in a format that is only pixels. */
export function isPictureData(address: string): boolean {
  return pictureData.test(address)
}
