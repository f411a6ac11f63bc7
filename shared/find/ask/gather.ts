/** Reads the passages that may answer a question: what the index finds, and what stands around it in the journal. */
import { search } from '../index/search.ts'
import { AskedLinks } from './links.ts'
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
  /** Of the things' texts; of problems and of what may end them in both directions. */
  readonly links: AskedLinks
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
  const links = new AskedLinks(around)
  await addLinked(things, links, around)
  const owners = new Set([...things.values()].flatMap(({ procedure }) => procedure ?? []))
  const procedures = await around.readThings([...owners].map((id) => ({ id, thing: 'procedure' as const })))
  return {
    things,
    around: journal,
    links,
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
async function addLinked(
  things: Map<string, AskThing>,
  links: AskedLinks,
  around: AskSurroundings,
): Promise<void> {
  const nodes = [...things.values()].flatMap(({ texts }) => texts.flatMap(({ node }) => node?.id ?? []))
  await links.ensure(nodes, 'back')
  const ends = [...things.values()].filter(
    ({ kind }) => kind === 'problem' || kind === 'fix' || kind === 'decision',
  )
  const entries = ends.map(({ id }) => id)
  await links.ensure(entries, 'forward')
  const missing = entries.flatMap((id) => links.answersAt(id)).filter(({ id }) => !things.has(id))
  const read = await around.readThings([...new Map(missing.map((ref) => [ref.id, ref])).values()])
  for (const thing of read) things.set(thing.id, thing)
  // What came in last may answer other problems as well.
  const added = read.flatMap(({ texts }) => texts.flatMap(({ node }) => node?.id ?? []))
  await links.ensure(added, 'back')
  await links.ensure(added, 'forward')
}
