/**
 * Our two forms of RDF as others' libraries read them: canonical N-Quads (RDF Dataset Canonicalization, W3C Recommendation of
 * 21 May 2024), so that equal graphs are equal texts whatever blank nodes are called.
 */
import jsonld from 'jsonld'
import { Parser, Writer, type Quad } from 'n3'

/** Nothing is fetched: whoever asks for a document by its address fails. */
const refuse = (address: string): never => {
  throw new Error(`the network was asked for ${address}`)
}
/** How the library is asked; its types are of an earlier version of it. */
const asked = { algorithm: 'RDFC-1.0', format: 'application/n-quads', documentLoader: refuse } as object

/** Statements of a Turtle file in canonical form. @throws Error where it is no Turtle */
export async function canonicalOfTurtle(text: string): Promise<string> {
  return canonicalOfQuads(new Parser({ format: 'Turtle' }).parse(text))
}

export async function canonicalOfQuads(quads: readonly Quad[]): Promise<string> {
  const nQuads = await new Promise<string>((resolve, reject) => {
    const writer = new Writer({ format: 'N-Quads' })
    writer.addQuads([...quads])
    writer.end((error: Error | null, result: string) => (error ? reject(error) : resolve(result)))
  })
  const options = { ...asked, inputFormat: 'application/n-quads' } as object
  return await jsonld.canonize(nQuads as never, options)
}

/** Statements of a JSON-LD file in canonical form. @throws where it is no JSON-LD, or needs a context from elsewhere */
export async function canonicalOfJsonLd(text: string): Promise<string> {
  return await jsonld.canonize(JSON.parse(text) as never, { ...asked, safe: true } as object)
}

/** The statements of canonical N-Quads. */
export function quadsIn(canonical: string): Quad[] {
  return new Parser({ format: 'N-Quads' }).parse(canonical)
}
