/** What clipboards put around a fragment of HTML. */
import { maybeWebAddress } from '../markdown/addresses.ts'

export interface PastedHtml {
  readonly html: string
  /** The page that it was copied from, where the clipboard names one. */
  readonly address: string | undefined
}

const startMark = /<!--\s*StartFragment\s*-->/iu
const endMark = /<!--\s*EndFragment\s*-->/iu
const sourceLine = /^SourceURL:(.*)$/imu

/**
 * The fragment without its wrapping. On Windows a header of `Name:value` lines stands before the HTML ("HTML Clipboard
 * Format" in Microsoft's Win32 documentation); browsers there and elsewhere keep its two comments around the fragment.
 */
export function fragmentOf(text: string): PastedHtml {
  const { header, html } = splitHeader(text)
  const address = maybeWebAddress(sourceLine.exec(header)?.[1] ?? '')
  const start = startMark.exec(html)
  if (!start) return { html, address }
  const rest = html.slice(start.index + start[0].length)
  const end = endMark.exec(rest)
  return { html: end ? rest.slice(0, end.index) : rest, address }
}

function splitHeader(text: string): { header: string; html: string } {
  if (!/^\ufeff?Version:\s*\d/iu.test(text)) return { header: '', html: text }
  const start = text.indexOf('<')
  return start < 0 ? { header: text, html: '' } : { header: text.slice(0, start), html: text.slice(start) }
}
