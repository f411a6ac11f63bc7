/** Tags whose own name stands in a text, and how often that has meant something. */
import type { TagModel } from './tag-model.ts'
import { isFunctionWord, toTokens } from './tokens.ts'

export interface NamedTag {
  readonly tag: string
  /** The ids of the learnt texts in which the tag's name stands. */
  readonly shown: ReadonlySet<string>
  /** How many of those carry the tag. */
  readonly borne: number
}

export interface TagNames {
  /** By the first term of its name. */
  readonly byTerm: ReadonlyMap<string, readonly (NamedTag & { readonly terms: readonly string[] })[]>
  /** Over all tags: how many times a name stood in a text, and how many of those texts carried the tag. */
  readonly shown: number
  readonly borne: number
}

/**
 * The terms of a tag's name: of `net/time-sync` or `net::time-sync` those of the last part, `time` and `sync`.
 * Empty for a name without letters or digits, or of words that only join others.
 */
export function termsOfTag(tag: string): string[] {
  const name =
    tag
      .split(/::|\//)
      .filter((part) => part !== '')
      .at(-1) ?? tag
  const terms = toTokens(name).flatMap(({ written, terms: [whole, ...parts] }) =>
    parts.length > 1 ? parts : isFunctionWord(written.toLowerCase()) ? [] : [whole!],
  )
  return [...new Set(terms)]
}

/** The tags whose names stand in a text. */
export function findNamedTags(model: TagModel, weights: ReadonlyMap<string, number>): NamedTag[] {
  const { byTerm } = tagNamesOf(model)
  return [...weights.keys()].flatMap((term) =>
    (byTerm.get(term) ?? []).filter(({ terms }) => terms.every((other) => weights.has(other))),
  )
}

/** Follows from the model alone, which never changes: reckoned once for each. */
const known = new WeakMap<TagModel['holders'], TagNames>()

export function tagNamesOf(model: TagModel): TagNames {
  const before = known.get(model.holders)
  if (before) return before
  const byTerm = new Map<string, (NamedTag & { terms: string[] })[]>()
  let [shown, borne] = [0, 0]
  for (const tag of model.uses.keys()) {
    const terms = termsOfTag(tag)
    const first = terms[0]
    if (first === undefined) continue
    const ids = textsWithAll(model, terms)
    const carriers = [...ids].filter((id) => model.texts.get(id)!.tags.includes(tag)).length
    shown += ids.size
    borne += carriers
    const others = byTerm.get(first) ?? []
    byTerm.set(first, others)
    others.push({ tag, terms, shown: ids, borne: carriers })
  }
  const names = { byTerm, shown, borne }
  known.set(model.holders, names)
  return names
}

function textsWithAll(model: TagModel, terms: readonly string[]): ReadonlySet<string> {
  const [first = new Set<string>(), ...rest] = terms.map(
    (term) => new Set((model.holders.get(term) ?? []).map(([id]) => id)),
  )
  return new Set([...first].filter((id) => rest.every((ids) => ids.has(id))))
}
