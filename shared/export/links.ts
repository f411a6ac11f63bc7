/** Links and pictures of an exported text: addresses that could run something become words. */
import type { PhrasingContent } from 'mdast'
import { isPictureData } from '../markdown/addresses.ts'
import { mergeText, text } from './nodes.ts'

const runnable = /^(?:javascript|vbscript|data):/iu

/** URL parsers skip control characters and spaces in a scheme, so they are left out before looking. */
function canRun(address: string): boolean {
  // eslint-disable-next-line no-control-regex
  return runnable.test(address.replace(/[\u0000-\u0020]/gu, ''))
}

/** A link; its words followed by its address where that is one that could run. */
export function toHarmlessLink(
  url: string,
  title: string | null | undefined,
  children: PhrasingContent[],
): PhrasingContent[] {
  if (!canRun(url)) return [{ type: 'link', url, title: title ?? null, children }]
  return mergeText([...children, text(` (${url})`)])
}

/** A picture; the words that stand for it where its address is one that could run. */
export function toHarmlessImage(
  url: string,
  title: string | null | undefined,
  alt: string | null | undefined,
): PhrasingContent[] {
  if (!canRun(url) || isPictureData(url))
    return [{ type: 'image', url, title: title ?? null, alt: alt ?? '' }]
  return alt ? [text(alt)] : []
}
