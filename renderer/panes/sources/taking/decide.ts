/** What becomes of something that was read, given what the lab has already. */
import type { SourceId } from '../../../../shared/lab/ids.ts'
import type { CaptureHead, Source } from '../../../../shared/lab/model.ts'
import { addressKey } from '../../../../shared/sources/address-key.ts'
import type { KnownSources } from './known.ts'

export interface Arrived {
  readonly address: string | null
  /** Lower-case hex SHA-256 of the bytes; null for an address without text. */
  readonly sha256: string | null
}

export interface Wanted {
  /** The person wants a source of its own, whatever there is. */
  readonly isOwn: boolean
  /** What an earlier state of the same file became. */
  readonly again: SourceId | null
}

export type Decision =
  | { readonly kind: 'add' }
  /** `source` has this already. */
  | { readonly kind: 'there'; readonly source: Source }
  /** It is a newer state of `source`, whose newest text is `before`; null for a link without text. */
  | { readonly kind: 'again'; readonly source: Source; readonly before: CaptureHead | null }

/**
 * Decides by the address first and by the bytes where there is none.
 *
 * - Equal bytes under an address that leads to the same page, or with no address on either side: there already.
 * - Equal bytes under another address: two pages that happen to say the same stay two.
 * - Other bytes under a known address, or out of the same file: read again.
 */
export function decide(known: KnownSources, { address, sha256 }: Arrived, wanted: Wanted): Decision {
  if (wanted.isOwn) return { kind: 'add' }
  const same = address === null ? undefined : known.findByAddress(address)
  const equal = sha256 === null ? [] : known.findByBytes(sha256)
  if (same && (sha256 === null || equal.includes(same))) return { kind: 'there', source: same }
  if (same) return readAgain(known, same)
  const twin = equal.find((source) => address === null || source.address === null)
  if (twin) return { kind: 'there', source: twin }
  const earlier = wanted.again === null ? undefined : known.maybeStanding(wanted.again)
  return earlier && !leadsElsewhere(address, earlier) ? readAgain(known, earlier) : { kind: 'add' }
}

function readAgain(known: KnownSources, source: Source): Decision {
  return { kind: 'again', source, before: known.findNewest(source.id) ?? null }
}

function leadsElsewhere(address: string | null, { address: other }: Source): boolean {
  return address !== null && other !== null && addressKey(address) !== addressKey(other)
}
