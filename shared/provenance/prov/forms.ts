/** The forms in which a document leaves the program. */
import type { ProvDocument } from './model.ts'
import { toJsonLd } from './write-json-ld.ts'
import { toProvJson } from './write-json.ts'
import { toProvN } from './write-n.ts'
import { toTurtle } from './write-turtle.ts'

export const provForms = {
  'PROV-JSON': { ending: 'prov.json', mediaType: 'application/json', write: toProvJson },
  'PROV-N': { ending: 'provn', mediaType: 'text/provenance-notation', write: toProvN },
  'JSON-LD': { ending: 'jsonld', mediaType: 'application/ld+json', write: toJsonLd },
  Turtle: { ending: 'ttl', mediaType: 'text/turtle', write: toTurtle },
} as const satisfies Record<
  string,
  {
    readonly ending: string
    /** As registered with IANA; PROV-JSON has none of its own. */
    readonly mediaType: string
    /** The document's text: equal documents give equal texts. */
    readonly write: (document: ProvDocument) => string
  }
>
export type ProvForm = keyof typeof provForms
