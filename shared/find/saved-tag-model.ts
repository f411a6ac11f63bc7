/** The form in which a tag model is stored: plain JSON, sorted, so that equal models give equal text. */
import * as v from 'valibot'
import { emptyTagModel, withLearnt, type LearntText, type TagModel, type Verdict } from './tag-model.ts'
import { compareText } from './tag-terms.ts'

const terms = v.array(v.tuple([v.string(), v.pipe(v.number(), v.integer(), v.minValue(1))]))
const savedTagModel = v.object({
  version: v.literal(1),
  texts: v.array(v.object({ id: v.string(), tags: v.array(v.string()), terms })),
  verdicts: v.array(
    v.object({
      id: v.string(),
      tag: v.string(),
      isAccepted: v.boolean(),
      chance: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
      terms,
    }),
  ),
})

/** A tag model as JSON values. */
export type SavedTagModel = v.InferOutput<typeof savedTagModel>

export type TagModelReading =
  | { readonly ok: true; readonly model: TagModel }
  | { readonly ok: false; readonly code: 'not-a-tag-model'; readonly sentence: string }

/** A model's stored form. */
export function toSavedTagModel(model: TagModel): SavedTagModel {
  const texts = [...model.texts].sort(([one], [other]) => compareText(one, other))
  const verdicts = [...model.verdicts.values()].flatMap((ofTag) => [...ofTag.values()])
  verdicts.sort((one, other) => compareText(one.tag, other.tag) || compareText(one.id, other.id))
  return {
    version: 1,
    texts: texts.map(([id, { tags, terms }]) => ({ id, tags: [...tags], terms: toPairs(terms) })),
    verdicts: verdicts.map((verdict) => ({ ...verdict, terms: toPairs(verdict.terms) })),
  }
}

/** The model of a stored form. It can be learnt anew from the tagged texts, so an unreadable one loses nothing. */
export function fromSavedTagModel(saved: unknown): TagModelReading {
  const read = v.safeParse(savedTagModel, saved)
  if (!read.success)
    return {
      ok: false,
      code: 'not-a-tag-model',
      sentence:
        'What was learnt about tags cannot be read. Your tags are safe; it will be learnt from them again.',
    }
  const learnt = new Map<string, LearntText>()
  for (const { id, tags, terms } of read.output.texts)
    learnt.set(id, { tags: [...new Set(tags)].sort(compareText), terms: toSorted(terms) })
  const verdicts = new Map<string, Map<string, Verdict>>()
  for (const { terms, ...said } of read.output.verdicts) {
    const ofTag = verdicts.get(said.tag) ?? new Map<string, Verdict>()
    verdicts.set(said.tag, ofTag.set(said.id, { ...said, terms: toSorted(terms) }))
  }
  return { ok: true, model: withLearnt({ ...emptyTagModel, verdicts }, learnt) }
}

function toPairs(terms: LearntText['terms']): [string, number][] {
  return terms.map(([term, count]) => [term, count])
}

/** Each term once and in order, whatever the stored form says. */
function toSorted(terms: readonly [string, number][]): [string, number][] {
  return [...new Map(terms)].sort(([one], [other]) => compareText(one, other))
}
