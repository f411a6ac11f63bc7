/** Reads the passages that may answer a question: what the index finds, and what stands around it in the journal. */
import { search } from '../index/search.ts'
import { toPassages, type Passage } from './passages.ts'
import { toQuery, type Question } from './question.ts'
import type { Sought } from './terms.ts'
import type { AskRef, AskSurroundings, AskThing, JournalAround } from './thing.ts'

/** So many of the best hits are read. */
const READ = 60
/** So many of the best entries are read with what stands around them in their journal. */
const WITH_AROUND = 24
const BEFORE = 2
const AFTER = 6

export interface Gathered {
  readonly passages: readonly Passage[]
  readonly things: ReadonlyMap<string, AskThing>
  /** Of the best entries. */
  readonly around: ReadonlyMap<string, JournalAround>
  /** Titles and purposes of the procedures whose steps are among the things. */
  readonly procedures: ReadonlyMap<string, AskThing>
}

export async function gatherPassages(
  question: Question,
  sought: Sought,
  around: AskSurroundings,
): Promise<Gathered> {
  const refs = findRefs(question, sought, around)
  const things = new Map((await around.readThings(refs)).map((thing) => [thing.id, thing]))
  const journal = new Map<string, JournalAround>()
  const entries = refs.filter(({ id, thing }) => isOfJournal(thing) && things.has(id)).slice(0, WITH_AROUND)
  for (const { id } of entries) {
    const near = await around.readAround(id, BEFORE, AFTER)
    journal.set(id, near)
    for (const entry of [...near.before, ...near.after])
      if (!things.has(entry.id)) things.set(entry.id, entry)
  }
  await addLinked(things, around)
  const owners = new Set([...things.values()].flatMap(({ procedure }) => procedure ?? []))
  const procedures = await around.readThings([...owners].map((id) => ({ id, thing: 'procedure' as const })))
  return {
    things,
    around: journal,
    procedures: new Map(procedures.map((procedure) => [procedure.id, procedure])),
    passages: [...things.values()].flatMap(toPassages),
  }
}

function isOfJournal(thing: AskRef['thing']): boolean {
  return thing === 'entry' || thing === 'problem' || thing === 'file'
}

/** Best first, each once: by the question's own words, then by others for them. */
function findRefs(question: Question, { others }: Sought, { index }: AskSurroundings): AskRef[] {
  const own = search(index, toQuery(question.typed, question.words), { limit: READ }).hits
  const words = [...question.words, ...others]
  const more = others.length === 0 ? [] : search(index, toQuery(question.typed, words), { limit: READ }).hits
  const refs = new Map([...own, ...more].map(({ id, thing }) => [id, { id, thing }]))
  return [...refs.values()]
}

/** What ended a problem, and the problem that something ended. */
async function addLinked(things: Map<string, AskThing>, around: AskSurroundings): Promise<void> {
  const missing = new Map<string, AskRef>()
  for (const thing of [...things.values()]) {
    if (thing.kind !== 'problem' && thing.kind !== 'fix' && thing.kind !== 'decision') continue
    for (const { id, thing: kind } of answersAt(thing.id, around))
      if (!things.has(id)) missing.set(id, { id, thing: kind })
  }
  for (const thing of await around.readThings([...missing.values()])) things.set(thing.id, thing)
}

/** The other ends of the links by which a fix or decision answers a problem. */
export function answersAt(id: string, { near }: Pick<AskSurroundings, 'near'>): AskRef[] {
  const older = near(id, 'back').filter(({ isWhole, older: { node } }) => isWhole && node.kind === 'entry')
  const newer = near(id, 'forward').filter(({ isWhole, newer: { node } }) => isWhole && node.kind === 'entry')
  return [
    ...older.map((link) => ({ id: link.older.node.id, thing: 'problem' as const })),
    ...newer.map((link) => ({ id: link.newer.node.id, thing: 'entry' as const })),
  ]
}
