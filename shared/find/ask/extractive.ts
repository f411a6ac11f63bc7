/**
 * Answers out of the lab's own words: the few passages that hold the most of the question, with where they stand. Nothing is
 * made up. Where even the best holds too little, the answer says so and shows the nearest.
 */
import type { Range } from '../../lab/model.ts'
import type { Answer, Answerer, AnswerPassage, AnswerProcedure, AnswerTrouble } from './answerer.ts'
import { gatherPassages, type Gathered } from './gather.ts'
import type { AskedLinks } from './links.ts'
import { readQuestion } from './question.ts'
import { rankPassages, type Ranked } from './rank.ts'
import { toSought } from './terms.ts'
import type { AskSurroundings, AskThing } from './thing.ts'

/** Passages of an answer; of one source, and of one procedure, at most so many of them. */
const MOST = 5
const MOST_OF_ONE = 2
/**
 * The least certainty of an answer, and how many of the best passages are looked at for it. Set on the open half of the
 * questions in test/fixtures/ask.
 */
const ENOUGH = 0.55
const LOOKED_AT = 3

export const extractive: Answerer = {
  async answer(typed: string, around: AskSurroundings): Promise<Answer> {
    const question = readQuestion(typed)
    const sought = toSought(question, around.index)
    if (sought.terms.length === 0)
      return { kind: 'nearest', sort: question.sort, passages: [], procedure: null, trouble: null }
    const gathered = await gatherPassages(question, sought, around)
    const ranked = rankPassages(question, sought, gathered)
    const best = choose(ranked)
    const isAnswered = best.slice(0, LOOKED_AT).some(({ certainty }) => certainty >= ENOUGH)
    const { links } = gathered
    const passages = await Promise.all(best.map((one) => toPassage(one, links)))
    return {
      kind: isAnswered ? 'answered' : 'nearest',
      sort: question.sort,
      passages,
      procedure: isAnswered && question.sort === 'how' ? await procedureOf(best, gathered, around) : null,
      trouble: isAnswered ? await troubleOf(best, ranked, links) : null,
    }
  },
}

/** The best; of an entry or step one, of a source and a procedure two. */
function choose(ranked: readonly Ranked[]): Ranked[] {
  const things = new Set<string>()
  const often = new Map<string, number>()
  const chosen: Ranked[] = []
  for (const one of ranked) {
    const { id, thing, procedure } = one.passage.of
    const whole = procedure ?? id
    const count = often.get(whole) ?? 0
    if (count >= MOST_OF_ONE || (thing !== 'source' && things.has(id))) continue
    things.add(id)
    often.set(whole, count + 1)
    chosen.push(one)
    if (chosen.length === MOST) break
  }
  return chosen
}

async function toPassage({ passage, evidence, share }: Ranked, links: AskedLinks): Promise<AnswerPassage> {
  const { of, pieces } = passage
  const distinct = evidence.hits.map((hits) => new Set(hits.map(({ term }) => term)).size)
  const at = distinct.indexOf(Math.max(...distinct))
  const { node, part, text, start, end } = pieces[at]!
  return {
    id: of.id,
    thing: of.thing,
    kind: of.kind,
    node,
    part,
    text: text.slice(start, end),
    range: { start, end },
    words: apart(evidence.hits[at]!),
    title: of.title,
    way: of.way,
    moment: of.moment,
    chain: await links.chainOf(pieces.flatMap((piece) => piece.node ?? [])),
    share,
  }
}

/** Ranges in order, those that touch as one. */
function apart(hits: readonly Range[]): Range[] {
  const ranges: { start: number; end: number }[] = []
  for (const { start, end } of hits) {
    const last = ranges.at(-1)
    if (last && start < last.end) last.end = Math.max(last.end, end)
    else ranges.push({ start, end })
  }
  return ranges
}

/** The procedure of the best passage that is of one, with all its steps. */
async function procedureOf(
  best: readonly Ranked[],
  { procedures, things }: Gathered,
  around: AskSurroundings,
): Promise<AnswerProcedure | null> {
  const first = best.find(({ passage: { of } }) => of.procedure !== null || of.thing === 'procedure')?.passage
    .of
  if (!first) return null
  const procedure = procedures.get(first.procedure ?? first.id) ?? things.get(first.id)!
  const found = new Set(best.map(({ passage }) => passage.of.id))
  const steps = await around.readSteps(procedure.id)
  return {
    id: procedure.id,
    title: procedure.title,
    way: procedure.way,
    steps: steps.map((step) => ({
      id: step.id,
      number: step.way[2] ?? '',
      line: lineOf(step),
      isFound: found.has(step.id),
    })),
  }
}

function lineOf({ title, texts }: AskThing): string {
  if (title !== '') return title
  const text = (texts.find(({ part }) => part === 'do') ?? texts[0])?.text ?? ''
  return /[^\n]*/.exec(text.trimStart())![0]
}

/** The problem and what ended it, of the best passage that is one or the other. */
async function troubleOf(
  best: readonly Ranked[],
  ranked: readonly Ranked[],
  links: AskedLinks,
): Promise<AnswerTrouble | null> {
  const first = best.find(({ passage: { of } }) => of.kind === 'problem' || of.kind === 'fix')?.passage.of
  if (!first) return null
  const rankedOf = (id: string): Ranked[] => ranked.filter(({ passage }) => passage.of.id === id).slice(0, 1)
  const others = links.answersAt(first.id).flatMap(({ id }) => rankedOf(id))
  const own = rankedOf(first.id)
  const [problems, fixes] = first.kind === 'problem' ? [own, others] : [others, own]
  const [problem] = problems
  return {
    problem: problem ? await toPassage(problem, links) : null,
    fixes: await Promise.all(fixes.map((fix) => toPassage(fix, links))),
  }
}
