/**
 * The names of a PROV document. All of them are qualified names (PROV-N §3.7.1) whose prefix the document declares, and every
 * thing that is named is stated in it; nothing has to be looked up elsewhere.
 *
 *   uuid:      urn:uuid: (RFC 9562), for all that has an id in the lab: records, revisions of texts, Changes, links
 *   lab:       the lab's own URN with a fragment, for what has none: states of records, stretches of texts, records of links, agents
 *   stillroom: kinds and facts that no published vocabulary has
 */
import type { Id, LabId } from '../../lab/ids.ts'

declare const brand: unique symbol
/** A qualified name: `prefix:local`. The local part is made of letters, digits, `-` and `.` alone, so it needs no escapes. */
export type Name = string & { readonly [brand]: 'name' }

/** Prefixes with their namespaces, in the order in which they are declared. */
export type Prefixes = readonly (readonly [prefix: string, namespace: string])[]

export function prefixesOf(lab: LabId): Prefixes {
  return [
    ['uuid', 'urn:uuid:'],
    ['lab', `urn:uuid:${lab}#`],
    ['stillroom', 'https://stillroom.example.org/ns#'],
    ['prov', 'http://www.w3.org/ns/prov#'],
    ['xsd', 'http://www.w3.org/2001/XMLSchema#'],
    ['oa', 'http://www.w3.org/ns/oa#'],
    ['dcterms', 'http://purl.org/dc/terms/'],
  ]
}

/** What has an id in the lab. */
export function nameOfId(id: Id<string>): Name {
  return `uuid:${id}` as Name
}

/** A record as a Change left it. @param sequence the Change's */
export function nameOfState(id: Id<string>, sequence: number): Name {
  return `lab:${id}.${sequence}` as Name
}

/** A stretch of a text that a link carried, or where its words stand now. @param number from 1, in text order */
export function nameOfFragment(link: Id<string>, end: 'newer' | 'older' | 'present', number: number): Name {
  return `lab:${link}.${end}.${number}` as Name
}

/** A link's record as a thing of its own; `nameOfId` is the relation that it states. */
export function nameOfRecord(link: Id<string>): Name {
  return `lab:${link}.record` as Name
}

/** The person by their place among those who gave a name, from 1; 0 for whoever gave none. */
export function nameOfPerson(number: number): Name {
  return (number === 0 ? 'lab:person' : `lab:person.${number}`) as Name
}

export const SOFTWARE = 'lab:software' as Name

/** A term of one of the vocabularies; blanks in our own words become hyphens. */
export function term(prefix: 'stillroom' | 'prov' | 'xsd' | 'oa' | 'dcterms', word: string): Name {
  return `${prefix}:${word.replaceAll(' ', '-')}` as Name
}
