import { describe, expect, it } from 'vitest'
import type { FindDocument } from '../../../../../shared/find/document.ts'
import {
  emptyIndex,
  hasTraces,
  mergeNext,
  wipeNext,
  withDocuments,
  type LabIndex,
} from '../../../../../shared/find/index/lab-index.ts'
import { search } from '../../../../../shared/find/index/search.ts'
import { fromStored, toStored } from '../../../../../shared/find/index/stored.ts'
import { learnFrom, placeNext, type LabMeaning } from '../../../../../shared/find/meaning/lab-meaning.ts'
import { readQuery } from '../../../../../shared/find/query/read-query.ts'
import { DrawnWords } from '../../../../support/drawn-words.ts'
import { textDocument } from '../../../../support/find.ts'

const CHANGES = 10_000
const QUERIES = 1_000

const drawn = new DrawnWords(8)
const { next } = drawn
const below = (most: number): number => drawn.below(most)
const textOf = (length: number): string => drawn.text(length)

interface Lab {
  index: LabIndex
  readonly texts: Map<string, FindDocument>
  /** What undo brings back, newest last; null where the document was new. */
  readonly undo: (readonly [id: string, before: FindDocument | null])[]
  readonly secrets: Map<string, string>
  readonly struck: string[]
  kept: Map<number, Uint8Array>
}

function put(lab: Lab, id: string, document: FindDocument | null, sequence: number): void {
  if (document) lab.texts.set(id, document)
  else lab.texts.delete(id)
  lab.index = withDocuments(lab.index, {
    documents: document ? [document] : [],
    removed: document ? [] : [id],
    sequence,
  })
}

function keep(lab: Lab, before: LabIndex): void {
  const { put: written, head } = toStored(before, lab.index)
  for (const { name, bytes } of written) lab.kept.set(name, bytes.slice())
  const named = new Set(head.segments.map(({ name }) => name))
  for (const name of lab.kept.keys()) if (!named.has(name)) lab.kept.delete(name)
}

function strike(lab: Lab, sequence: number): void {
  const found = [...lab.secrets][0]
  if (!found) return
  const [id, secret] = found
  lab.secrets.delete(id)
  lab.struck.push(secret)
  // What was struck out is not brought back by undo.
  for (let at = lab.undo.length - 1; at >= 0; at--) if (lab.undo[at]![0] === id) lab.undo.splice(at, 1)
  const before = lab.texts.get(id)
  put(lab, id, before ? textDocument({ id, text: before.text.replace(secret, '██') }) : null, sequence)
  for (let wiped = wipeNext(lab.index); wiped; wiped = wipeNext(wiped)) lab.index = wiped
}

function change(lab: Lab, sequence: number): void {
  const kind = next()
  const id = `d${String(below(2_000)).padStart(4, '0')}`
  const before = lab.texts.get(id) ?? null
  if (kind < 0.02) return strike(lab, sequence)
  if (kind < 0.12 && lab.undo.length > 0) {
    const [undone, was] = lab.undo.pop()!
    return put(lab, undone, was, sequence)
  }
  if (lab.secrets.has(id)) return
  lab.undo.push([id, before])
  if (kind < 0.25) return put(lab, id, null, sequence)
  const isSecret = kind < 0.28
  const secret = drawn.secret(sequence)
  if (isSecret) lab.secrets.set(id, secret)
  const text = `${textOf(5 + below(30))} ${isSecret ? secret : ''} ${textOf(below(5))}`
  put(lab, id, textDocument({ id, title: next() < 0.2 ? textOf(3) : '', text }), sequence)
}

function restart(lab: Lab): void {
  const { head } = toStored(lab.index, lab.index)
  lab.index = fromStored(
    structuredClone(head),
    new Map([...lab.kept].map(([name, bytes]) => [name, bytes.slice()])),
  )!
}

function placed(index: LabIndex): LabMeaning {
  let lab = learnFrom(index)
  for (let more = placeNext(lab, index); more; more = placeNext(lab, index)) lab = more
  return lab
}

/** Every word that stands in what is kept, dictionaries unpacked. */
function keptWords(lab: Lab): string[] {
  return lab.index.segments.flatMap(({ segment }) => [...segment.terms, ...segment.stems])
}

describe('an index that lived through 10,000 Changes', () => {
  it(
    'gives the same ids, order and scores as one built anew, by words and by meaning, and holds nothing struck out',
    { timeout: 300_000 },
    () => {
      const lab: Lab = {
        index: emptyIndex,
        texts: new Map(),
        undo: [],
        secrets: new Map(),
        struck: [],
        kept: new Map(),
      }
      let [found, restarts] = [0, 0]
      for (let sequence = 1; sequence <= CHANGES; sequence++) {
        const before = lab.index
        const secrets = lab.struck.length
        if (sequence % 500 === 0)
          found += [...lab.secrets.values()].filter((secret) => keptWords(lab).includes(secret)).length
        change(lab, sequence)
        for (let merged = mergeNext(lab.index, 1 << 18); merged; merged = mergeNext(merged, 1 << 18))
          lab.index = merged
        keep(lab, before)
        if (lab.struck.length > secrets) expect(hasTraces(lab.index)).toBe(false)
        if (sequence % 701 === 0) {
          restart(lab)
          restarts++
        }
      }
      // The looking finds secrets while they are there, else it would prove nothing afterwards.
      expect([found > 20, lab.struck.length > 50, restarts]).toEqual([true, true, 14])
      const standing = new Set(keptWords(lab))
      expect(lab.struck.filter((secret) => standing.has(secret))).toEqual([])
      const raw = [...lab.kept.values()].map((bytes) => Buffer.from(bytes).toString('latin1')).join('\n')
      expect(lab.struck.filter((secret) => raw.includes(secret) || raw.includes(secret.slice(3)))).toEqual([])

      const anew = withDocuments(emptyIndex, {
        documents: [...lab.texts.values()],
        removed: [],
        sequence: CHANGES,
      })
      expect([lab.index.documents, lab.index.weight]).toEqual([anew.documents, anew.weight])
      const [ours, theirs] = [placed(lab.index), placed(anew)]
      for (let query = 0; query < QUERIES; query++) {
        const read = readQuery(drawn.query(), { now: 0, offsetAt: () => 0, projects: [] })
        expect(search(lab.index, read, { limit: 50 })).toEqual(search(anew, read, { limit: 50 }))
        expect(search(lab.index, read, { limit: 50 }, ours)).toEqual(
          search(anew, read, { limit: 50 }, theirs),
        )
      }
    },
  )
})
