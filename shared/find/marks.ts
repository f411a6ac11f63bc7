/** Which words of a text a query was taken to mean: what is marked in a hit, and which stretch of it is shown. */
import type { Range } from '../lab/model.ts'
import type { TakenQuery, TakenWord } from './index/answer.ts'
import { fold, maybeStem, toLower, withoutMarks } from './index/fold.ts'
import { toWordForms } from './index/forms.ts'
import { toWords, type PlacedWord } from './tokens.ts'

/** The ranges to mark, UTF-16 code units of the text, in text order and apart from each other. */
export function findMarks(taken: TakenQuery, text: string): Range[] {
  return toMarks(taken, text).map(({ start, end }) => ({ start, end }))
}

export interface Excerpt extends Range {
  /** Within the excerpt; UTF-16 code units of the whole text. */
  readonly marks: readonly Range[]
}

/**
 * The stretch of a text that shows the most of a query: most different words first, then most marks, then the earliest.
 *
 * @param length of the stretch, UTF-16 code units; it ends between words
 */
export function findExcerpt(taken: TakenQuery, text: string, length: number): Excerpt {
  const marks = toMarks(taken, text)
  let best = { first: 0, score: 0 }
  for (let first = 0, behind = 0; first < marks.length; first++) {
    while (behind < marks.length && marks[behind]!.end - marks[first]!.start <= length) behind++
    const within = marks.slice(first, behind)
    const score = new Set(within.map(({ of }) => of)).size * 1000 + Math.min(999, within.length)
    if (score > best.score) best = { first, score }
  }
  const { start, end } = stretchAround(text, marks[best.first]?.start ?? 0, length)
  const shown = marks.filter((mark) => mark.start >= start && mark.end <= end)
  return { start, end, marks: shown.map((mark) => ({ start: mark.start, end: mark.end })) }
}

/** A little before the place and the rest behind it, cut between words. */
function stretchAround(text: string, place: number, length: number): Range {
  const lead = text.slice(Math.max(0, place - Math.floor(length / 4)), place)
  const isFromStart = place - lead.length === 0
  // From a line's start if there is one near, else from a word's.
  const cut = isFromStart ? 0 : Math.max(lead.lastIndexOf('\n') + 1, lead.search(/(?<=\s)\S/))
  const start = place - lead.length + Math.max(0, cut)
  const rest = text.slice(start, start + length)
  if (start + length >= text.length) return { start, end: text.length }
  const last = rest.search(/\s\S*$/)
  return { start, end: start + (last > place - start ? last : rest.length) }
}

/** A range, and which word or phrase of the query it is for. */
interface Mark extends Range {
  readonly of: string
}

function toMarks({ words, phrases }: TakenQuery, text: string): Mark[] {
  const placed = toWords(text)
  const known = new Map<string, Mark | null>()
  const marks = placed.flatMap(({ written, start }) => {
    let mark = known.get(written)
    if (mark === undefined) known.set(written, (mark = markIn(written, words)))
    return mark ? [{ start: start + mark.start, end: start + mark.end, of: mark.of }] : []
  })
  const ofPhrases = phrases.flatMap((phrase) => marksOfPhrase(phrase, placed))
  return joined([...marks, ...ofPhrases].sort((one, other) => one.start - other.start || other.end - one.end))
}

/** What of a word is marked: the first of its forms that is meant, by its own range in the word where that can be told. */
function markIn(written: string, words: readonly TakenWord[]): Mark | null {
  for (const [at, { form }] of toWordForms(written).forms.entries()) {
    const meant = words.find((word) => isMeant(form, word))
    if (!meant) continue
    const start = at === 0 ? 0 : toLower(withoutMarks(written)).indexOf(form)
    // Folding may change the length; then the word is marked as a whole.
    const isPart = start >= 0 && at > 0 && fold(written.slice(start, start + form.length)) === form
    return {
      ...(isPart ? { start, end: start + form.length } : { start: 0, end: written.length }),
      of: meant.form,
    }
  }
  return null
}

function isMeant(form: string, { form: wanted, stem, isBeginning, respelt }: TakenWord): boolean {
  if (form === wanted || (isBeginning && form.startsWith(wanted))) return true
  const own = maybeStem(form)
  if (own !== null && own === stem) return true
  return respelt.some((word) => word === form || (own !== null && maybeStem(word) === own))
}

function marksOfPhrase(phrase: readonly string[], placed: readonly PlacedWord[]): Mark[] {
  if (phrase.length === 0) return []
  const of = phrase.join(' ')
  return placed.flatMap(({ start }, at) => {
    const isHere = phrase.every((form, behind) => fold(placed[at + behind]?.written ?? '') === form)
    return isHere ? [{ start, end: placed[at + phrase.length - 1]!.end, of }] : []
  })
}

/** Marks that touch each other's characters as one. */
function joined(marks: readonly Mark[]): Mark[] {
  const apart: Mark[] = []
  for (const mark of marks) {
    const last = apart.at(-1)
    if (last && mark.start < last.end)
      apart[apart.length - 1] = { ...last, end: Math.max(last.end, mark.end) }
    else apart.push(mark)
  }
  return apart
}
