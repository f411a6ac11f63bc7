/** Reads what was typed. Everything can be read: what is no filter, time, phrase or exclusion is words. */
import type { Range } from '../../lab/model.ts'
import { entryKinds, sourceKinds } from '../../lab/model.ts'
import { foundThings } from '../document.ts'
import { fold } from '../index/fold.ts'
import { toWords } from '../tokens.ts'
import { Calendar } from './calendar.ts'
import type { FilterSays, FindFilter, FindQuery, QueryPhrase, QuerySurroundings, QueryWord } from './query.ts'
import { findTime } from './times.ts'

/** A run without blanks, or one with a quoted value. */
interface Piece extends Range {
  readonly isMinus: boolean
  /** What stands before the colon where that is a filter's name; null for none. */
  readonly name: FilterName | null
  readonly value: string
  readonly isQuoted: boolean
  readonly isKept: boolean
}

const filterNames = ['thing', 'kind', 'in', 'tag', 'place', 'when', 'is', 'not'] as const
type FilterName = (typeof filterNames)[number]

const piece = new RegExp(`(-?)(?:(${filterNames.join('|')}):)?(?:"([^"]*)"|“([^”]*)”|(\\S+))`, 'gu')

export function readQuery(typed: string, around: QuerySurroundings): FindQuery {
  const reader = new QueryReader(typed, around)
  reader.readAll()
  return reader.query
}

class QueryReader {
  private readonly words: QueryWord[] = []
  private readonly phrases: QueryPhrase[] = []
  private readonly excluded: QueryPhrase[] = []
  private readonly filters: FindFilter[] = []
  private readonly pieces: readonly Piece[]
  private readonly calendar: Calendar

  constructor(
    private readonly typed: string,
    private readonly around: QuerySurroundings,
  ) {
    this.pieces = toPieces(typed, around.keptAsWords ?? [])
    this.calendar = new Calendar(around.now, around.offsetAt)
  }

  get query(): FindQuery {
    const { typed, words, phrases, excluded, filters } = this
    return { typed, words, phrases, excluded, filters }
  }

  readAll(): void {
    for (let at = 0; at < this.pieces.length;) at += this.readAt(at)
  }

  /** @returns how many pieces were read */
  private readAt(at: number): number {
    const one = this.pieces[at]!
    if (one.isKept) return this.addWords(one)
    if (one.name === 'when') return this.addAskedTime(at) ?? this.addWords(one)
    if (one.name === 'not' || (one.isMinus && this.leavesOut(one))) return this.addExcluded(one)
    if (one.name !== null && !one.isMinus) {
      const says = maybeFilter(one.name, one.value, this.around)
      return says ? this.addFilter(says, one) : this.addWords(one)
    }
    if (one.isQuoted) {
      this.phrases.push({ written: one.value, range: rangeOf(one) })
      return 1
    }
    return this.addTime(at) ?? this.addWords(one)
  }

  /** A minus leaves out what follows unless it belongs to an option. */
  private leavesOut({ name, isQuoted, value }: Piece): boolean {
    if (name !== null) return false
    if (isQuoted) return true
    return /^\p{L}{2}/u.test(value) && !(this.around.isHeld?.(fold(`-${value}`)) ?? false)
  }

  private addExcluded(one: Piece): number {
    this.excluded.push({ written: one.value, range: rangeOf(one) })
    return 1
  }

  private addFilter(says: FilterSays, { start, end }: Range): number {
    this.filters.push({ ...says, range: { start, end } })
    return 1
  }

  private addTime(at: number): number | null {
    const bare = this.bareFrom(at)
    const time = findTime(
      bare.map(({ value }) => value),
      this.calendar,
      false,
    )
    return time && this.addSpan(at, time.words, time.span)
  }

  /** `when:last March` reads on behind the blank. */
  private addAskedTime(at: number): number | null {
    const one = this.pieces[at]!
    const bare = one.isQuoted ? [] : this.bareFrom(at + 1)
    const values = [...one.value.split(/\s+/), ...bare.map(({ value }) => value)]
    const time = findTime(values, this.calendar, true)
    if (!time) return null
    return this.addSpan(at, one.isQuoted ? 1 : time.words, time.span)
  }

  private addSpan(at: number, count: number, span: { from: number | null; to: number | null }): number {
    const last = this.pieces[at + count - 1]!
    this.addFilter({ by: 'time', span }, { start: this.pieces[at]!.start, end: last.end })
    return count
  }

  /** The pieces from here on that are nothing but a run of characters. */
  private bareFrom(at: number): Piece[] {
    const rest = this.pieces.slice(at)
    const end = rest.findIndex(
      ({ isMinus, name, isQuoted, isKept }) => isMinus || name !== null || isQuoted || isKept,
    )
    return end < 0 ? rest : rest.slice(0, end)
  }

  private addWords({ start, end }: Range): number {
    const isLast = end === this.typed.length
    const found = toWords(this.typed.slice(start, end))
    for (const [at, word] of found.entries())
      this.words.push({
        written: word.written,
        isBeginning: isLast && at === found.length - 1 && start + word.end === end,
        range: { start: start + word.start, end: start + word.end },
      })
    return 1
  }
}

function toPieces(typed: string, kept: readonly Range[]): Piece[] {
  return [...typed.matchAll(piece)].map((match) => {
    const [all, minus = '', before, quoted, curled, bare] = match
    const range = { start: match.index, end: match.index + all.length }
    return {
      ...range,
      isMinus: minus === '-',
      name: filterNames.find((one) => one === before) ?? null,
      value: quoted ?? curled ?? bare ?? '',
      isQuoted: bare === undefined,
      isKept: kept.some(({ start, end }) => start < range.end && range.start < end),
    }
  })
}

function rangeOf({ start, end }: Range): Range {
  return { start, end }
}

/** What a filter says; null for a value that it cannot have, which is then searched as it was typed. */
function maybeFilter(name: FilterName, value: string, around: QuerySurroundings): FilterSays | null {
  const says = fold(value)
  switch (name) {
    case 'thing': {
      const thing = foundThings.find((one) => says === one || says === pluralOf(one))
      return thing ? { by: 'thing', thing } : null
    }
    case 'kind': {
      const kind = [...entryKinds, ...sourceKinds].find((one) => says === one || says === pluralOf(one))
      return kind ? { by: 'kind', kind } : null
    }
    case 'in':
      return { by: 'project', written: value, projects: projectsCalled(says, around.projects) }
    case 'tag':
      return { by: 'tag', tag: value }
    case 'place':
      return { by: 'place', place: value }
    case 'is':
      return says === 'withdrawn' || says === 'standing' ? { by: 'state', state: says } : null
    case 'when':
    case 'not':
      return null
  }
}

function pluralOf(word: string): string {
  if (word === 'fix') return 'fixes'
  return word.endsWith('y') ? `${word.slice(0, -1)}ies` : `${word}s`
}

/** Those of that title, else those whose title begins so, else those in whose title it stands. */
function projectsCalled(says: string, projects: QuerySurroundings['projects']): string[] {
  const titled = projects.map(({ id, title }) => ({ id, title: fold(title) }))
  const fits: ((title: string) => boolean)[] = [
    (title) => title === says,
    (title) => title.startsWith(says),
    (title) => title.includes(says),
  ]
  const found = fits.map((fit) => titled.filter(({ title }) => fit(title))).find((some) => some.length > 0)
  return (found ?? []).map(({ id }) => id)
}
