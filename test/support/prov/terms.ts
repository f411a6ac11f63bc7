/**
 * The terms of PROV-CONSTRAINTS §2: constants (names, times, the placeholder `-`) and existential variables, with their
 * unification. Each term is a number; terms that were unified have one representative.
 */
export type Term = number

/** What stands where a statement says `-` and nothing may be put there: unifies with itself alone. */
const PLACEHOLDER = '-'

export class Terms {
  private readonly parents: Term[] = []
  /** Null for a variable. */
  private readonly values: (string | null)[] = []
  private readonly constants = new Map<string, Term>()

  /** A name or a time. Equal values are one term. */
  constant(value: string): Term {
    const known = this.constants.get(value)
    if (known !== undefined) return known
    const term = this.add(value)
    this.constants.set(value, term)
    return term
  }

  placeholder(): Term {
    return this.constant(PLACEHOLDER)
  }

  /** An existential variable that is no other. */
  variable(): Term {
    return this.add(null)
  }

  private add(value: string | null): Term {
    this.values.push(value)
    return this.parents.push(this.parents.length) - 1
  }

  find(term: Term): Term {
    let root = term
    while (this.parents[root] !== root) root = this.parents[root]!
    for (let at = term; at !== root;) [at, this.parents[at]] = [this.parents[at]!, root]
    return root
  }

  isSame(one: Term, other: Term): boolean {
    return this.find(one) === this.find(other)
  }

  /** Null for a variable. */
  valueOf(term: Term): string | null {
    return this.values[this.find(term)]!
  }

  isPlaceholder(term: Term): boolean {
    return this.valueOf(term) === PLACEHOLDER
  }

  /** Makes two terms one. @returns false where they are two different constants; nothing is changed then */
  unify(one: Term, other: Term): boolean {
    const [a, b] = [this.find(one), this.find(other)]
    if (a === b) return true
    if (this.values[a] === null) this.parents[a] = b
    else if (this.values[b] === null) this.parents[b] = a
    else return false
    return true
  }

  /** For people. */
  say(term: Term): string {
    return this.valueOf(term) ?? `_${this.find(term)}`
  }
}
