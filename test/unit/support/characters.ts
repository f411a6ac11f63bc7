/**
 * The oracle of identity: a text as an array of characters, each with a number of its own. Slow and plain.
 * Characters are UTF-16 code units, as positions are.
 */
export interface Character {
  readonly unit: string
  readonly id: number
}

export interface Edit {
  readonly from: number
  readonly to: number
  readonly insert: string
}

/** What one edit typed and deleted. */
export interface Deed {
  readonly typed: readonly Character[]
  readonly deleted: readonly Character[]
  /** All that stood before it. */
  readonly before: readonly Character[]
}

export class Characters {
  now: readonly Character[] = []
  private last = 0

  get text(): string {
    return this.now.map(({ unit }) => unit).join('')
  }

  /** Edits that do not overlap, in text order, each told in places of the text before all of them. */
  apply(edits: readonly Edit[]): Deed {
    const before = this.now
    const typed: Character[] = []
    const deleted: Character[] = []
    const next: Character[] = []
    let at = 0
    for (const { from, to, insert } of edits) {
      next.push(...before.slice(at, from))
      const fresh = insert.split('').map((unit) => ({ unit, id: ++this.last }))
      typed.push(...fresh)
      next.push(...fresh)
      deleted.push(...before.slice(from, to))
      at = to
    }
    this.now = [...next, ...before.slice(at)]
    return { typed, deleted, before }
  }

  /** Whether this is what must stand after a deed was taken back, for each character one by one. */
  isTakenBack(deed: Deed, before: readonly Character[], after: readonly Character[]): boolean {
    const typed = new Set(deed.typed.map(({ id }) => id))
    const standing = new Set(before.map(({ id }) => id))
    const kept = before.filter(({ id }) => !typed.has(id))
    const back = deed.deleted.filter(({ id }) => !standing.has(id))
    const backIds = new Set(back.map(({ id }) => id))
    const same = (a: readonly Character[], b: readonly Character[]): boolean =>
      a.length === b.length && a.every(({ id, unit }, i) => id === b[i]!.id && unit === b[i]!.unit)
    return (
      same(
        after.filter(({ id }) => !backIds.has(id)),
        kept,
      ) &&
      same(
        after.filter(({ id }) => backIds.has(id)),
        back,
      ) &&
      back.every((character) => standsBesideOldNeighbour(character, deed.before, after))
    )
  }
}

/** Behind the nearest of its old left neighbours that stands, or else before the nearest right one. */
function standsBesideOldNeighbour(
  { id }: Character,
  then: readonly Character[],
  after: readonly Character[],
): boolean {
  const places = new Map(after.map((character, i) => [character.id, i]))
  const at = then.findIndex((character) => character.id === id)
  const here = places.get(id)!
  const left = then
    .slice(0, at)
    .reverse()
    .find((character) => places.has(character.id))
  if (left) return places.get(left.id)! < here
  const right = then.slice(at + 1).find((character) => places.has(character.id))
  return !right || here < places.get(right.id)!
}
