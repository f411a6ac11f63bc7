/** What a question looks for: its words, how much each of them says, and which words of a text count for it. */
import { toAskedTerms, type AskedTerm } from '../index/asked.ts'
import { fold, maybeStem } from '../index/fold.ts'
import { toWordForms } from '../index/forms.ts'
import { gather } from '../index/gather.ts'
import type { LabIndex } from '../index/lab-index.ts'
import { readTerm, type ReadTerm } from '../index/readings.ts'
import { toWords } from '../tokens.ts'
import { errnoMessages } from './errno.ts'
import { toQuery, type Question } from './question.ts'
import { sameWords } from './same-words.ts'
import { formsOfRoot, maybeRoot, numbersOf } from './word-forms.ts'

export interface SoughtTerm {
  /** Folded. */
  readonly form: string
  /** How much it says: its inverse document frequency in the lab. */
  readonly weight: number
}

/** How a word of a text counts for a term. */
export interface Meant {
  readonly term: number
  /** 1 for the word itself, in the singular or plural. */
  readonly share: number
}

export interface Sought {
  readonly terms: readonly SoughtTerm[]
  readonly byForm: ReadonlyMap<string, readonly Meant[]>
  readonly byStem: ReadonlyMap<string, readonly Meant[]>
  readonly byRoot: ReadonlyMap<string, readonly Meant[]>
  /** Words to look for in the index beside the question's own. */
  readonly others: readonly string[]
}

/** A word of the same stem; of the same root; another word for it, or what it is taken to be a misspelling of. */
const shares = { stem: 0.85, root: 0.7, other: 0.7 } as const
/** A word that says what is done counts so much of one that says with what. */
const DOING_COUNTS = 0.5

/** @param index of the lab that is asked */
export function toSought(question: Question, index: LabIndex): Sought {
  const asked = toAskedTerms(toQuery(question.typed, question.words))
  const read = asked.map((term) => readTerm(index, term))
  const rarities = asked.map((term, at) => rarityOf(index, term, read[at]!))
  const known = rarities.flatMap((rarity) => (rarity ? [rarity.form] : []))
  const usual = known.length === 0 ? 1 : known.reduce((sum, one) => sum + one, 0) / known.length
  const meanings = new Meanings()
  const others = new Set<string>()
  const terms = asked.map(({ form }, term): SoughtTerm => {
    const rarity = rarities[term]
    meanings.add(form, term, 1, rarity ? rarity.stem / rarity.form : 1)
    for (const other of [...read[term]!.respelt, ...sameWords(form), ...messageOf(form)]) {
      meanings.add(other, term, shares.other)
      others.add(other)
    }
    for (const other of formsOfRoot(index, form)) others.add(other)
    // Of a word that stands nowhere it cannot be told how much it says.
    const weight = rarity ? rarity.form : usual
    return { form, weight: weight * (question.doing.has(form) ? DOING_COUNTS : 1) }
  })
  return { ...meanings, terms, others: [...others] }
}

/** Which words of texts count for which terms. */
class Meanings {
  readonly byForm = new Map<string, Meant[]>()
  readonly byStem = new Map<string, Meant[]>()
  readonly byRoot = new Map<string, Meant[]>()

  /** @param loose how much of the word's rarity is left where other words of its stem and root count as well, 0 to 1 */
  add(written: string, term: number, share: number, loose = 1): void {
    const form = fold(written)
    for (const same of numbersOf(form)) put(this.byForm, same, { term, share })
    const stem = maybeStem(form)
    if (stem !== null) put(this.byStem, stem, { term, share: share * loose * shares.stem })
    const root = maybeRoot(form)
    if (root !== null) put(this.byRoot, root, { term, share: share * loose * shares.root })
  }
}

function put(into: Map<string, Meant[]>, key: string, meant: Meant): void {
  const known = into.get(key)
  if (known) known.push(meant)
  else into.set(key, [meant])
}

/** Of the name of a system call's error, the words of its message. */
function messageOf(form: string): string[] {
  const message = errnoMessages[form.toUpperCase()]
  return message === undefined ? [] : toWords(message).map(({ written }) => written)
}

/**
 * Inverse document frequencies of a word as it stands, in singular and plural, and of all words of its stem: `readings` may
 * be rare where `read` stands everywhere. Null for a word that the lab does not hold.
 */
function rarityOf(
  index: LabIndex,
  { form }: AskedTerm,
  { readings }: ReadTerm,
): { readonly form: number; readonly stem: number } | null {
  const ofStem = Math.max(0, ...readings.map(({ documents }) => documents))
  if (ofStem === 0) return null
  const ofForm = countHolding(index, numbersOf(form))
  const idf = (holding: number): number => Math.log(1 + (index.documents - holding + 0.5) / (holding + 0.5))
  return { stem: idf(ofStem), form: idf(ofForm > 0 ? ofForm : ofStem) }
}

function countHolding({ segments }: LabIndex, forms: readonly string[]): number {
  return segments.reduce((sum, live) => {
    const terms = forms.map((form) => live.segment.terms.find(form)).filter((term) => term >= 0)
    return sum + gather(live, terms).documents.length
  }, 0)
}

/** A word of a text that counts for a term. */
export interface Hit extends Meant {
  /** UTF-16 code units of the text. */
  readonly start: number
  readonly end: number
  /** Which word of the text it is. */
  readonly at: number
}

export interface Found {
  /** In text order. */
  readonly hits: readonly Hit[]
  /** How many words the text has. */
  readonly words: number
}

export function findSought(sought: Sought, text: string): Found {
  const placed = toWords(text)
  const known = new Map<string, readonly Meant[]>()
  const hits = placed.flatMap(({ written, start, end }, at) => {
    let meant = known.get(written)
    if (meant === undefined) known.set(written, (meant = meantBy(sought, written)))
    return meant.map((one) => ({ ...one, start, end, at }))
  })
  return { hits, words: placed.length }
}

/** For each term the best way in which the word counts for it. */
function meantBy({ byForm, byStem, byRoot }: Sought, written: string): Meant[] {
  const best = new Map<number, Meant>()
  for (const { form } of toWordForms(written).forms) {
    const stem = maybeStem(form)
    const root = maybeRoot(form)
    const meant = [
      ...(byForm.get(form) ?? []),
      ...(stem === null ? [] : (byStem.get(stem) ?? [])),
      ...(root === null ? [] : (byRoot.get(root) ?? [])),
    ]
    for (const one of meant) if (one.share > (best.get(one.term)?.share ?? 0)) best.set(one.term, one)
  }
  return [...best.values()]
}
