/**
 * Cautions and their signal words, in the sense of ANSI Z535.6 and ISO 3864-2. Danger, warning and caution are about people;
 * a notice is about things (equipment, data), and never about people.
 */

/** The gravest first. */
export const signalWords = ['danger', 'warning', 'caution', 'notice'] as const
export type SignalWord = (typeof signalWords)[number]

export interface SignalWordMeaning {
  /** As it is shown and written. */
  readonly word: string
  readonly about: 'people' | 'things'
  readonly meaning: string
}

export const signalWordMeanings: Readonly<Record<SignalWord, SignalWordMeaning>> = {
  danger: {
    word: 'Danger',
    about: 'people',
    meaning: 'Whoever does not avoid it will be killed or badly hurt.',
  },
  warning: {
    word: 'Warning',
    about: 'people',
    meaning: 'Whoever does not avoid it could be killed or badly hurt.',
  },
  caution: {
    word: 'Caution',
    about: 'people',
    meaning: 'Whoever does not avoid it could be hurt, though not badly.',
  },
  notice: {
    word: 'Notice',
    about: 'things',
    meaning: 'Nobody gets hurt, but equipment, data or service could be lost.',
  },
}

/** A caution. Its texts are Markdown; each is empty where nothing is said. */
export interface Caution {
  /** Null for a text that names none. */
  readonly signal: SignalWord | null
  /** What the hazard is. */
  readonly hazard: string
  /** What can happen if it is not avoided. */
  readonly consequence: string
  /** How to avoid it. */
  readonly avoidance: string
}

/** What a hazard can do, and how surely. */
export interface Harm {
  readonly worst:
    'death or serious injury' | 'minor or moderate injury' | 'loss of data, equipment or service'
  /** Whether the worst follows for certain where the hazard is not avoided, or may follow. */
  readonly ifNotAvoided: 'will' | 'could'
}

/** The signal word for a harm. One word for the worst of several. */
export function signalWordFor({ worst, ifNotAvoided }: Harm): SignalWord {
  if (worst === 'loss of data, equipment or service') return 'notice'
  if (worst === 'minor or moderate injury') return 'caution'
  return ifNotAvoided === 'will' ? 'danger' : 'warning'
}

/** What a caution still lacks, in the order in which it is written. */
export function missingIn(caution: Caution): (keyof Caution)[] {
  const all: readonly (keyof Caution)[] = ['signal', 'hazard', 'consequence', 'avoidance']
  return all.filter((part) => caution[part] === null || caution[part]?.trim() === '')
}
