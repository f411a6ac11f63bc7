/** Sources, entries and projects as a tag model knows them: what of them is read, and what was said of suggestions. */
import type { Project, Source } from '../lab/model.ts'
import { withLearnt, type LearntText, type TagModel, type Verdict } from './tag-model.ts'
import { compareText, toTermCounts, type TaggableText, type TermCounts } from './tag-terms.ts'

/** So much of a text is read, in UTF-16 code units: its start tells what it is about. */
export const MOST_OF_TEXT = 20_000

/** What of a source counts for its tags: title and address, remark, author, and the start of its newest text. */
export function textOfSource(
  { title, address, author, remark }: Pick<Source, 'title' | 'address' | 'author' | 'remark'>,
  newest: string | null,
): TaggableText {
  return { title, address, text: startOf([remark, author ?? '', newest ?? ''].join('\n')) }
}

export function textOfEntry(text: string): TaggableText {
  return { title: '', text: startOf(text) }
}

export function textOfProject({ title, aim }: Pick<Project, 'title' | 'aim'>): TaggableText {
  return { title, text: startOf(aim) }
}

function startOf(text: string): string {
  return text.trim().slice(0, MOST_OF_TEXT)
}

/** A thing as it stands. */
export interface TaggedThing {
  readonly id: string
  readonly text: TaggableText
  /** Empty for one whose tags are not to be learnt from. */
  readonly tags: readonly string[]
  /** The verdicts that count, one for each tag. */
  readonly said: readonly Pick<Verdict, 'tag' | 'isAccepted' | 'chance'>[]
}

/** What a model keeps of a thing. */
export interface KnownThing extends LearntText {
  readonly id: string
  readonly verdicts: readonly Verdict[]
}

export function toKnownThing({ id, text, tags, said }: TaggedThing): KnownThing {
  const terms = tags.length + said.length === 0 ? [] : detached(toTermCounts(text))
  return {
    id,
    tags: [...new Set(tags)].sort(compareText),
    terms: tags.length === 0 ? [] : terms,
    verdicts: said.map(({ tag, isAccepted, chance }) => ({
      id,
      tag,
      isAccepted,
      chance: Math.min(1, Math.max(0, chance)),
      terms,
    })),
  }
}

/** Terms cut out of a text may keep the whole text in memory; read from JSON they are by themselves, and equal ones are one. */
function detached(terms: TermCounts): TermCounts {
  return JSON.parse(JSON.stringify(terms)) as TermCounts
}

/** The model with these things in place of what it knew of them. Many at once cost little more than one. */
export function withThings(model: TagModel, things: readonly KnownThing[]): TagModel {
  const learnt = new Map<string, LearntText>()
  for (const { id, tags, terms } of things)
    // What follows from the learnt texts is reckoned anew only where one of them really changed.
    if (!isSameText(model.texts.get(id), { tags, terms })) learnt.set(id, { tags, terms })
  const ids = new Set(things.map(({ id }) => id))
  const said = things.flatMap(({ verdicts }) => verdicts)
  const judged = { ...model, verdicts: withSaid(model.verdicts, ids, said) }
  return learnt.size === 0 ? judged : withLearnt(judged, learnt)
}

function withSaid(
  before: TagModel['verdicts'],
  ids: ReadonlySet<string>,
  said: readonly Verdict[],
): TagModel['verdicts'] {
  const verdicts = new Map<string, ReadonlyMap<string, Verdict>>()
  for (const [tag, ofTag] of before) {
    const left = [...ofTag].filter(([id]) => !ids.has(id))
    if (left.length > 0) verdicts.set(tag, left.length === ofTag.size ? ofTag : new Map(left))
  }
  const own = new Map<string, Map<string, Verdict>>()
  for (const verdict of said) {
    const ofTag = own.get(verdict.tag) ?? new Map(verdicts.get(verdict.tag))
    own.set(verdict.tag, ofTag.set(verdict.id, verdict))
  }
  for (const [tag, ofTag] of own) verdicts.set(tag, ofTag)
  return verdicts
}

function isSameText(before: LearntText | undefined, now: LearntText): boolean {
  if (!before) return now.tags.length === 0
  return (
    before.tags.length === now.tags.length &&
    before.tags.every((tag, at) => tag === now.tags[at]) &&
    before.terms.length === now.terms.length &&
    before.terms.every(([term, count], at) => term === now.terms[at]![0] && count === now.terms[at]![1])
  )
}
