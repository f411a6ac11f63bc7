/** Which documents of a segment a query's filters, phrases and exclusions leave. */
import { foundThings } from '../document.ts'
import type { FindFilter, FindQuery } from '../query/query.ts'
import { toAskedPhrase } from './asked.ts'
import { allBits, hasBit, keepCommon, noBits, setBit, takeOut, type Bits } from './bits.ts'
import { fold } from './fold.ts'
import type { LiveSegment } from './lab-index.ts'
import { findPhrase } from './phrases.ts'
import { FACT, WITHDRAWN, type Segment } from './segment.ts'

/** @returns bits of documents that fit and are not gone; null where the query asks for nothing but words */
export function findAllowed({ segment, gone }: LiveSegment, query: FindQuery): Bits | null {
  const { filters, phrases, excluded } = query
  if (filters.length + phrases.length + excluded.length === 0) return null
  const allowed = allBits(segment.length)
  if (gone !== null) takeOut(allowed, gone)
  const sorts = new Set(filters.map(({ by }) => by))
  for (const sort of sorts) {
    const either = noBits(segment.length)
    for (const filter of filters) if (filter.by === sort) addFitting(segment, filter, either)
    keepCommon(allowed, either)
  }
  for (const phrase of phrases) keepCommon(allowed, findPhrase(segment, toAskedPhrase(phrase)))
  for (const phrase of excluded) takeOut(allowed, findPhrase(segment, toAskedPhrase(phrase)))
  return allowed
}

function addFitting(segment: Segment, filter: FindFilter, into: Bits): void {
  switch (filter.by) {
    case 'thing':
      return addWhere(segment, into, (at) => segment.things[at] === foundThings.indexOf(filter.thing))
    case 'time': {
      const { from, to } = filter.span
      return addWhere(segment, into, (at) => {
        const moment = segment.moments[at]!
        return moment >= (from ?? -Infinity) && moment < (to ?? Infinity)
      })
    }
    case 'kind':
      return addFact(segment, `kind=${filter.kind}`, into)
    case 'project':
      for (const project of filter.projects) addFact(segment, `in=${project}`, into)
      return
    case 'tag':
      return addWithBelow(segment, `tag=${fold(filter.tag)}`, into)
    case 'state':
      if (filter.state === 'withdrawn') return addFact(segment, WITHDRAWN, into)
      for (let at = 0; at < segment.length; at++) setBit(into, at)
      return takeOut(into, findWithdrawn(segment))
    case 'place':
      return addWithBelow(segment, `place=${fold(filter.place)}`, into)
  }
}

/** Bits of those that were withdrawn. */
export function findWithdrawn(segment: Segment): Bits {
  const bits = noBits(segment.length)
  addFact(segment, WITHDRAWN, bits)
  return bits
}

/** Those with the fact, and those with one below it: `place=/var` also has `place=/var/log`. */
function addWithBelow(segment: Segment, fact: string, into: Bits): void {
  addFact(segment, fact, into)
  const [start, end] = segment.terms.range(`${FACT}${fact.replace(/\/$/, '')}/`)
  for (let term = start; term < end; term++) addHolders(segment, term, into)
}

function addFact(segment: Segment, fact: string, into: Bits): void {
  const term = segment.terms.find(FACT + fact)
  if (term >= 0) addHolders(segment, term, into)
}

function addHolders(segment: Segment, term: number, into: Bits): void {
  for (const postings = segment.postingsOf(term); postings.next();) setBit(into, postings.document)
}

function addWhere({ length }: Segment, into: Bits, fits: (document: number) => boolean): void {
  for (let at = 0; at < length; at++) if (!hasBit(into, at) && fits(at)) setBit(into, at)
}
