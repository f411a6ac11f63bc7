/** Values in commands that another house would have another of. */
import { checkValue } from '../values/check.ts'

export type LiteralKind = 'address' | 'network' | 'host name' | 'MAC address' | 'UUID' | 'device'

export interface Literal {
  readonly start: number
  readonly end: number
  readonly text: string
  readonly kind: LiteralKind
  /** What one parameter would stand for: names under one domain and partitions of one disk are one. */
  readonly group: string
}

const uuid = /(?<![\w-])[\da-f]{8}-(?:[\da-f]{4}-){3}[\da-f]{12}(?![\w-])/giu
const device =
  /(?<![\w.])\/dev\/(?:sd[a-z]+|vd[a-z]+|hd[a-z]+|xvd[a-z]+|nvme\d+n\d+|mmcblk\d+)(?:p?\d+)?(?![\w])/gu
const mac = /(?<![\w:])(?:[\da-f]{2}:){5}[\da-f]{2}(?![\w:])/giu
const ipv4 = /(?<![\w.])\d{1,3}(?:\.\d{1,3}){3}(?:\/\d{1,2})?(?![\w.]*\d)/gu
const ipv6 = /(?<![\w:.])[\da-f]{1,4}:(?:[\da-f]{0,4}:){1,6}[\da-f]{0,4}(?:\/\d{1,3})?(?![\w:])/giu
/** Names under domains of one's own: those of RFC 8375, RFC 2606 and RFC 6762 and of the public. */
const host =
  /(?<![\w./@-])(?:[a-z\d](?:[a-z\d-]*[a-z\d])?\.)+(?:home\.arpa|example|internal|lan|local|org|net|com|de|eu|info)(?![\w-]|\.\w)/giu

const finders: readonly (readonly [LiteralKind, RegExp])[] = [
  ['UUID', uuid],
  ['device', device],
  ['MAC address', mac],
  ['address', ipv6],
  ['address', ipv4],
  ['host name', host],
]

/** In text order, not overlapping; never within a placeholder. */
export function literalsIn(text: string): Literal[] {
  const found: Literal[] = []
  for (const [kind, pattern] of finders)
    for (const match of text.matchAll(pattern)) {
      const start = match.index
      const end = start + match[0].length
      const is = kindOf(kind, match[0])
      if (is === null || found.some((one) => start < one.end && end > one.start)) continue
      found.push({ start, end, text: match[0], kind: is, group: groupOf(is, match[0]) })
    }
  return found.sort((a, b) => a.start - b.start)
}

function kindOf(kind: LiteralKind, text: string): LiteralKind | null {
  if (kind !== 'address') return kind
  if (text.includes('/')) return checkValue('network', text).ok ? 'network' : null
  const isAddress = checkValue('IPv4 address', text).ok || checkValue('IPv6 address', text).ok
  // These mean the machine itself, or all of them, wherever one is.
  return isAddress && !/^(?:127\.|0\.0\.0\.0$|255\.|::1?$)/u.test(text) ? 'address' : null
}

function groupOf(kind: LiteralKind, text: string): string {
  const lower = text.toLowerCase()
  if (kind === 'device')
    return lower.replace(/(?<=nvme\d+n\d+|mmcblk\d+)p\d+$/u, '').replace(/(?<=\/[svhx]v?d[a-z]+)\d+$/u, '')
  if (kind !== 'host name') return lower
  const labels = lower.split('.')
  return labels.length <= 2 ? lower : labels.slice(lower.endsWith('.home.arpa') ? -3 : -2).join('.')
}
