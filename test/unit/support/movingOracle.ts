/** What the oracle of moved words knows in a play, and the look at every end of every link. */
import { expect } from 'vitest'
import type { OpenLab } from '../../../renderer/db/lab.ts'
import type { Operation } from '../../../shared/lab/change.ts'
import type { LinkId } from '../../../shared/lab/ids.ts'
import type { Entry, Link, LinkEnd, LinkState, Part, Range, Step } from '../../../shared/lab/model.ts'
import { occurrencesIn, placeIn, readText, type NumberedText } from './writtenText.ts'

export type Texts = ReadonlyMap<string, NumberedText>

const wordsOf = (text: string): string => text.split(/\s+/u).filter(Boolean).join(' ')

export class MovingOracle {
  /** How often something happened that the play is about. */
  readonly counts = { moved: 0, divided: 0, found: 0, loose: 0, 'come back': 0 }
  texts: Texts = new Map()
  readonly steps = new Map<string, Step>()
  readonly parts = new Map<string, Part>()
  readonly entries = new Map<string, Entry>()
  private readonly links = new Map<string, Link>()
  /** What each link stands for: the one that was carried. */
  private readonly origins = new Map<LinkId, LinkId>()
  private readonly carried = new Map<LinkId, NumberedText>()
  /** The texts by revision, since links name those. */
  private readonly then = new Map<string, NumberedText>()

  constructor(private readonly lab: OpenLab) {}

  /** A link that was carried, not moved. */
  noteCarried(link: Link): void {
    this.carried.set(link.id, this.wordsThen(link.newer).flat())
  }

  linksAt(part: Part): LinkId[] {
    return [...this.links.values()].filter(({ newer }) => newer.node.id === part.id).map(({ id }) => id)
  }

  /** What stands is what the oracle says, at every end of every link. */
  async check(): Promise<void> {
    const nodes = [...this.parts.keys(), ...this.entries.keys()]
    const read = await Promise.all(
      [...this.texts.keys()].map((node) => this.lab.queries.findText(node as never)),
    )
    const told = [...this.texts.values()].map(readText)
    expect(read.map((record) => record?.text)).toEqual(told)
    const { links, states } = await this.lab.queries.linksFrom(nodes)
    expect(links.map(({ id }) => id).sort()).toEqual([...this.links.keys()].sort())
    const byId = new Map(states.map((state) => [state.link, state]))
    for (const link of links) this.checkLink(link, byId.get(link.id)!)
    this.checkWordsKeepLinks(links, byId)
  }

  private checkLink(link: Link, state: LinkState): void {
    expect(link).toEqual(this.links.get(link.id))
    for (const side of ['newer', 'older'] as const) {
      this.checkEnd(link[side], state[side].places, `${side} end of ${link.id}`)
      expect(state[side].loose).toBe(state[side].places.every((place) => place === null))
    }
    expect(state.loose).toBe(state.newer.loose || state.older.loose)
    const now = state.newer.places.flatMap((place) => (place ? [this.readAt(link.newer, place)] : []))
    const carried = link.older.ranges.map(({ quote }) => quote.exact)
    const isWhole = wordsOf(now.join('\n')) === wordsOf(carried.join('\n'))
    expect(state.type, `type of ${link.id}`).toBe(isWhole ? 'quotes' : 'derives')
  }

  private checkEnd(end: LinkEnd, places: readonly (Range | null)[], name: string): void {
    const text = this.texts.get(end.node.id) ?? []
    this.wordsThen(end).forEach((wanted, i) => {
      const { exact } = end.ranges[i]!.quote
      const place = places[i]!
      this.counts[place ? 'found' : 'loose']++
      const told = placeIn(text, wanted, exact)
      if (told) expect(place, name).toEqual(told)
      else this.checkFoundByQuote(text, wanted, exact, place, name)
    })
  }

  /**
   * No character of its own is left there, so the words are looked for by quote. Signs stand once in what is carried: there
   * is nothing to be found but copies and words that came back by another text. Where they stand as they were carried they
   * are found, where some are left they may be, and then from one of them to another.
   */
  private checkFoundByQuote(
    text: NumberedText,
    wanted: NumberedText,
    exact: string,
    place: Range | null,
    name: string,
  ): void {
    const numbers = new Set(wanted.map(({ number }) => number))
    const isOwn = (at: number): boolean => numbers.has(text[at]!.number)
    if (!text.some((_, at) => isOwn(at))) return expect(place, name).toBe(null)
    this.counts['come back']++
    const exactly = occurrencesIn(text, exact)
    if (exactly.length === 1) expect(place, name).toEqual(exactly[0])
    if (place) expect([isOwn(place.start), isOwn(place.end - 1)], name).toEqual([true, true])
  }

  /**
   * Wherever a carried character stands in the procedure, a link of its own leads from there. Where a sign stands twice, since
   * it was pasted twice, the one counts with which the words read as they were carried.
   */
  private checkWordsKeepLinks(links: readonly Link[], states: ReadonlyMap<LinkId, LinkState>): void {
    for (const [origin, words] of this.carried) {
      const own = links.filter(({ id }) => this.origins.get(id) === origin)
      const numbers = new Set(words.map(({ number }) => number))
      for (const part of this.parts.keys()) {
        const text = this.texts.get(part) ?? []
        const linked = new Set(
          own
            .filter(({ newer }) => newer.node.id === part)
            .flatMap(({ id }) => states.get(id)!.newer.places)
            .flatMap((place) => (place ? text.slice(place.start, place.end) : []))
            .map(({ number }) => number),
        )
        const lost = text.find(
          ({ number, unit }) => numbers.has(number) && unit.trim() !== '' && !linked.has(number),
        )
        if (lost) throw new Error(`${lost.unit} of ${origin} has no link in ${part}`)
      }
    }
  }

  private readAt({ node }: LinkEnd, { start, end }: Range): string {
    return readText((this.texts.get(node.id) ?? []).slice(start, end))
  }

  private wordsThen({ revision, ranges }: LinkEnd): NumberedText[] {
    return ranges.map(({ position }) => this.then.get(revision!)!.slice(position.start, position.end))
  }

  /** Follows which records stand. */
  take(operations: readonly Operation[]): void {
    for (const operation of operations) {
      if (operation.op === 'text') continue
      const table = { steps: this.steps, parts: this.parts, links: this.links, entries: this.entries }[
        operation.table as 'steps'
      ] as Map<string, unknown> | undefined
      if (!table) continue
      const record = (operation.op === 'put' ? operation.record : operation.before) as { id: string }
      if (operation.op === 'put') table.set(record.id, record)
      else table.delete(record.id)
      if (operation.table === 'links' && operation.op === 'put') this.followLink(operation.record)
      if (operation.table === 'parts' && operation.op === 'put' && !('step' in record && record.step))
        this.parts.delete(record.id)
    }
  }

  private followLink(link: Link): void {
    if (!this.origins.has(link.id)) {
      if (link.revises) this.counts.moved++
      const isOther = [...this.origins].some(([id, origin]) => id !== link.id && origin === link.revises)
      if (link.revises && isOther) this.counts.divided++
    }
    this.origins.set(link.id, link.revises ? this.origins.get(link.revises)! : link.id)
  }

  /** What a text read at a revision. */
  rememberAs(revision: string, text: NumberedText): void {
    this.then.set(revision, text)
  }

  remember(operations: readonly Operation[]): void {
    for (const operation of operations)
      if (operation.op === 'text')
        this.then.set(operation.toRevision, this.texts.get(operation.node.id) ?? [])
  }
}
