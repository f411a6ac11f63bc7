/** What a parameter's value can be, and what is said of one. */

export const valueTypes = [
  'host name',
  'IPv4 address',
  'IPv6 address',
  'network',
  'port',
  'path',
  'user',
  'package',
  'version',
  'size',
  'duration',
  'MAC address',
  'URL',
  'e-mail address',
  'date',
  'free text',
  'secret',
] as const
export type ValueType = (typeof valueTypes)[number]

/** What would be right, and why. Offered to the person, never put in unasked. */
export interface Mend {
  readonly text: string
  readonly sentence: string
}

/**
 * Why a value was refused: nothing there; blanks around it; too long; not of the form; out of the type's range; a value of
 * another type; it holds a password; against the parameter's own rule.
 */
export type ValueFault =
  'empty' | 'blanks' | 'too long' | 'form' | 'range' | 'other type' | 'holds a secret' | 'rule'

export type ValueCheck =
  | {
      readonly ok: true
      /** Good to know, though nothing is wrong. */
      readonly note: string | null
      /** The standard writing, where the value is written otherwise. */
      readonly mend: Mend | null
    }
  | {
      readonly ok: false
      readonly code: ValueFault
      /** What is wrong and what would be right. */
      readonly sentence: string
      readonly mend: Mend | null
    }

/** What one parameter asks for beyond its type. */
export interface ValueRule {
  /** The only values that will do. Not for secrets, since it would store them. */
  readonly allowed?: readonly string[]
  /** A pattern in RE2 syntax that the whole value must match. RE2 matches in time linear in the value's length. */
  readonly pattern?: string
  /** The smallest and the largest value: for port, size, duration, date and version. Both may be reached. */
  readonly least?: string
  readonly most?: string
  /** A network in which an address or a network must lie. */
  readonly within?: string
  /** How versions are ordered: as dpkg does (the default) or as Semantic Versioning 2.0.0 does. */
  readonly order?: 'Debian' | 'semver'
}

/** What a type of value knows. `check` gets no empty, overlong or blank-edged text. */
export interface TypeOfValue {
  readonly check: (text: string) => ValueCheck
  /** The standard writing of a valid text; null where the type has none. Null for what is not valid. */
  readonly canonical: (text: string) => string | null
  readonly example: string
}

/** The value is right. */
export function right(note: string | null = null, mend: Mend | null = null): ValueCheck {
  return { ok: true, note, mend }
}

/** The value is wrong. */
export function wrong(code: ValueFault, sentence: string, mend: Mend | null = null): ValueCheck {
  return { ok: false, code, sentence, mend }
}

/** Right, and where the standard writing differs, that one is offered. */
export function rightAs(
  text: string,
  standard: string,
  sentence: string,
  note: string | null = null,
): ValueCheck {
  return right(note, text === standard ? null : { text: standard, sentence })
}
