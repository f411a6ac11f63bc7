/**
 * Several words that say together what none of them says alone: what runs out expires. A phrase is a verb with what belongs
 * to it, or a fixed expression; thesaurus/phrases.ts lists them with the single words that texts use instead.
 */
import { fold, maybeStem } from '../index/fold.ts'
import { phrases } from './thesaurus/phrases.ts'

export interface Said {
  /** As typed, but for phrases: of each the first word for it, or none. */
  readonly words: readonly string[]
  /** Further words for those that stand for a phrase, by what stands there. */
  readonly others: ReadonlyMap<string, readonly string[]>
}

interface Phrase {
  readonly words: readonly string[]
  readonly means: readonly string[]
}

/** So many words may stand between a verb and its particle: switch the recording off. */
const MOST_BETWEEN = 2
const particles = new Set(
  'off on up out down away back over in through apart round around along together'.split(' '),
)

/** Verbs with the past forms that no stemmer leads back to them. */
const pastForms = `
  blow blew blown
  break broke broken
  bring brought
  build built
  catch caught
  come came
  draw drew
  drive drove
  fall fell fallen
  find found
  freeze froze frozen
  get got gotten
  give gave given
  go went gone goes
  hang hung
  hold held
  keep kept
  leave left
  lose lost
  make made
  run ran
  send sent
  shake shook
  sit sat
  stand stood
  stick stuck
  take took taken
  tear tore torn
  throw threw thrown
  wake woke
  wear wore worn
  wind wound
  write wrote written
`
const verbOf = new Map<string, string>()
for (const line of pastForms.trim().split('\n')) {
  const [verb = '', ...forms] = line.trim().split(' ')
  for (const form of forms) verbOf.set(form, verb)
}

const known = new Map<string, Phrase[]>()
for (const [said, means] of phrases) {
  const words = said.split(' ')
  const key = keyOf(words[0]!)
  known.set(key, [...(known.get(key) ?? []), { words, means }])
}

/** @param written the words of a question in order */
export function readPhrases(written: readonly string[]): Said {
  const taken = new Set<number>()
  const instead = new Map<number, string>()
  const others = new Map<string, readonly string[]>()
  for (const { places, means } of foundIn(written.map(fold))) {
    if (places.some((place) => taken.has(place))) continue
    for (const place of places) taken.add(place)
    const [first, ...more] = means
    if (first === undefined) continue
    instead.set(places[0]!, first)
    others.set(first, more)
  }
  const words = written.flatMap((word, at) => instead.get(at) ?? (taken.has(at) ? [] : word))
  return { words, others }
}

/** All that fit, the longest first: of `broken in the end` it is the end that goes with `in`. */
function foundIn(
  forms: readonly string[],
): { readonly places: readonly number[]; readonly means: readonly string[] }[] {
  const found = forms.flatMap((form, at) =>
    (known.get(keyOf(form)) ?? []).flatMap(({ words, means }) => {
      const places = placesOf(words, forms, at)
      return places === null ? [] : [{ places, means }]
    }),
  )
  return found.sort((one, other) => other.places.length - one.places.length)
}

/** Where the words of a phrase stand whose first one stands at a place; null where it is not that phrase. */
function placesOf([, ...rest]: readonly string[], forms: readonly string[], at: number): number[] | null {
  if (rest.every((word, behind) => forms[at + 1 + behind] === word))
    return [at, ...rest.map((_, behind) => at + 1 + behind)]
  const [particle] = rest
  if (rest.length !== 1 || !particles.has(particle!)) return null
  const place = forms.indexOf(particle!, at + 1)
  return place > at && place <= at + 1 + MOST_BETWEEN ? [at, place] : null
}

function keyOf(form: string): string {
  const verb = verbOf.get(form) ?? form
  return maybeStem(verb) ?? verb
}
