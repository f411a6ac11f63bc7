/**
 * Ranks passages for a question. A passage's score is made of
 *
 * - the share of the question's words that it holds itself, each by its inverse document frequency, saturated as in BM25;
 * - the same with what belongs to it: titles, headings, the procedure, what stands next to it in the journal, the far ends of
 *   its links; each of these counts a share of the word itself;
 * - how much of the question stands close together, of a message that was pasted how much of it word behind word;
 * - what it is: where scores are near, a step comes before a fix, a fix before other entries, these before sources, and
 *   each sort of question has kinds of passages that answer it (preference.ts).
 *
 * Where a message was pasted, what an output came to counts as much as the output.
 */
import { evidenceOf, heldBy, shareOf, withShare, type Evidence, type Held } from './evidence.ts'
import type { Gathered } from './gather.ts'
import { isPasted, messagePairs, shareOfMessage, type MessagePairs } from './message.ts'
import type { Passage } from './passages.ts'
import { preferenceFor } from './preference.ts'
import type { Question } from './question.ts'
import type { Sought } from './terms.ts'
import type { AskThing } from './thing.ts'

export interface Ranked {
  readonly passage: Passage
  readonly evidence: Evidence
  readonly score: number
  /** Of the question, held by the passage with what belongs to it, 0 to 1. */
  readonly share: number
  /**
   * How surely it answers, 0 to 1: the mean of what it holds itself, what it holds with what belongs to it, and how much of
   * the question stands close together in it, of a message word behind word.
   */
  readonly certainty: number
}

/** How much of a word counts that stands not in the passage but in what belongs to it. */
const shares = {
  title: 0.7,
  heading: 0.7,
  /** Other paragraphs of the source, the purpose and other parts of the procedure. */
  rest: 0.4,
  project: 0.3,
  before: 0.5,
  after: 0.4,
  /** Of an entry whose outcome this problem or fix is; of the other end of an answer. */
  outcome: 0.85,
  answer: 0.85,
  /** Of the older end of a link. */
  link: 0.6,
} as const
const WITH_AROUND_COUNTS = 0.5
const NEARNESS_COUNTS = 0.1
const MESSAGE_COUNTS = 0.2
/** What others wrote answers less surely than what was done and written here. */
const SOURCE_CERTAINTY = 0.85
/** What an output came to stands a little before the output, and is a little less sure. */
const BEFORE_OUTPUT = 0.02
const OUTCOME_CERTAINTY = 0.9

export function rankPassages(question: Question, sought: Sought, gathered: Gathered): Ranked[] {
  return new Ranker(question, sought, gathered).ranked()
}

class Ranker {
  private readonly evidence = new Map<Passage, Evidence>()
  private readonly ofThing = new Map<string, Held>()
  private readonly ofNode = new Map<string, Held>()
  private readonly texts = new Map<string, Held>()
  /** By the id of a problem or fix the entries that it is the outcome of. */
  private readonly outcomes: ReadonlyMap<string, readonly AskThing[]>

  /** Something went wrong, or may have. */
  private readonly isTrouble: boolean
  /** What was pasted; null for what was told. */
  private readonly message: MessagePairs | null

  constructor(
    private readonly question: Question,
    private readonly sought: Sought,
    private readonly gathered: Gathered,
  ) {
    for (const passage of gathered.passages) {
      const evidence = evidenceOf(sought, passage)
      this.evidence.set(passage, evidence)
      join(this.ofThing, passage.of.id, evidence.held)
      for (const { node } of passage.pieces) if (node) join(this.ofNode, node.id, evidence.held)
    }
    this.outcomes = outcomesIn(gathered)
    const { sort, typed } = question
    this.isTrouble = sort === 'error' || sort === 'plain'
    this.message = this.isTrouble && isPasted(typed) ? messagePairs(typed) : null
  }

  ranked(): Ranked[] {
    const alone = this.gathered.passages.map((passage) => this.rank(passage))
    const ranked = this.isTrouble ? this.withOutcomes(alone) : alone
    return ranked
      .filter(({ share }) => share > 0)
      .sort((one, other) => other.score - one.score || (one.passage.of.id < other.passage.of.id ? -1 : 1))
  }

  private rank(passage: Passage): Ranked {
    const evidence = this.evidence.get(passage)!
    const { nearness } = evidence
    const own = shareOf(this.sought, evidence.held)
    const share = shareOf(this.sought, this.heldWithAround(passage, evidence.held))
    const words = (1 - WITH_AROUND_COUNTS) * own + WITH_AROUND_COUNTS * share
    const same = this.sameness(passage)
    const score =
      words +
      NEARNESS_COUNTS * nearness +
      MESSAGE_COUNTS * (same ?? 0) +
      share * preferenceFor(this.question.sort, passage)
    // One word alone stands close to no other.
    const together = same ?? (this.sought.terms.length === 1 ? own : nearness)
    const sure = passage.of.thing === 'source' ? SOURCE_CERTAINTY : 1
    return { passage, evidence, score, share, certainty: (sure * (own + share + together)) / 3 }
  }

  /** How much of the message stands in the passage word behind word; null where none can be told. */
  private sameness({ pieces }: Passage): number | null {
    if (this.message === null || this.message.size === 0) return null
    const texts = pieces.map(({ text, start, end }) => text.slice(start, end))
    return shareOfMessage(this.message, messagePairs(texts.join('\n')))
  }

  private heldWithAround(passage: Passage, own: Held): Held {
    const { of, heading, pieces } = passage
    let held = own
    const take = (other: Held | undefined, share: number): void => {
      if (other) held = withShare(held, other, share)
    }
    take(this.heldIn(of.title), shares.title)
    take(this.heldIn(heading), shares.heading)
    take(this.heldIn(of.way[0] ?? ''), shares.project)
    take(this.ofThing.get(of.id), shares.rest)
    const procedure = of.procedure === null ? undefined : this.gathered.procedures.get(of.procedure)
    if (procedure) {
      take(this.heldIn(procedure.title), shares.title)
      take(this.heldIn(procedure.texts.map(({ text }) => text).join('\n')), shares.rest)
    }
    const journal = this.gathered.around.get(of.id)
    for (const { id } of journal?.before ?? []) take(this.ofThing.get(id), shares.before)
    for (const { id } of journal?.after.slice(0, 2) ?? []) take(this.ofThing.get(id), shares.after)
    this.takeOutcomes(of, take)
    for (const node of pieces.flatMap((piece) => piece.node ?? []))
      for (const link of this.gathered.links.near(node.id, 'back'))
        take(this.ofNode.get(link.older.node.id), shares.link)
    return held
  }

  private takeOutcomes({ id }: AskThing, take: (other: Held | undefined, share: number) => void): void {
    const takeSeen = (of: string, share: number): void => {
      for (const seen of this.outcomes.get(of) ?? []) take(this.ofThing.get(seen.id), share)
    }
    takeSeen(id, shares.outcome)
    for (const other of this.gathered.links.answersAt(id)) {
      take(this.ofThing.get(other.id), shares.answer)
      takeSeen(other.id, shares.answer * shares.outcome)
    }
  }

  private heldIn(text: string): Held | undefined {
    if (text === '') return undefined
    const known = this.texts.get(text)
    if (known) return known
    const held = heldBy(this.sought, text)
    this.texts.set(text, held)
    return held
  }

  /** An output that says the words of a message says nothing that the person does not know; what it came to does. */
  private withOutcomes(ranked: readonly Ranked[]): Ranked[] {
    const outputs = new Map(
      ranked.flatMap((one) => (one.passage.of.kind === 'output' ? [[one.passage.of.id, one] as const] : [])),
    )
    return ranked.map((one) => {
      const seen = (this.outcomes.get(one.passage.of.id) ?? []).flatMap(({ id }) => outputs.get(id) ?? [])
      const score = Math.max(...seen.map((output) => output.score)) + BEFORE_OUTPUT
      if (!(score > one.score)) return one
      const share = Math.max(one.share, ...seen.map((output) => OUTCOME_CERTAINTY * output.share))
      const certainty = Math.max(one.certainty, ...seen.map((output) => OUTCOME_CERTAINTY * output.certainty))
      return { ...one, score, share, certainty }
    })
  }
}

function join(into: Map<string, Held>, id: string, held: Held): void {
  const known = into.get(id)
  into.set(id, known ? withShare(known, held, 1) : held)
}

/** What was done or seen came to the first problem or fix that was written after it; what lies between was looking. */
function outcomesIn({ around, things }: Gathered): Map<string, AskThing[]> {
  const outcomes = new Map<string, AskThing[]>()
  for (const [id, { after }] of around) {
    const thing = things.get(id)!
    if (thing.kind === 'problem' || thing.kind === 'fix') continue
    const outcome = after.find(({ kind }) => kind === 'problem' || kind === 'fix')
    if (outcome) outcomes.set(outcome.id, [...(outcomes.get(outcome.id) ?? []), thing])
  }
  return outcomes
}
