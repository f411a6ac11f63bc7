/** A play on a lab, beside what an oracle knows of every character. */
import { ChangeSet } from '@codemirror/state'
import { expect } from 'vitest'
import type { OpenLab } from '../../../renderer/db/lab.ts'
import { changeOfJoin, changeOfPaste, changeOfSplit } from '../../../renderer/store/movingWords.ts'
import { carry } from '../../../shared/distil/carry.ts'
import { pickFragment } from '../../../shared/distil/fragment.ts'
import * as acts from '../../../shared/lab/acts.ts'
import type { Change, Operation } from '../../../shared/lab/change.ts'
import type { EntryId, LinkId, ProcedureId } from '../../../shared/lab/ids.ts'
import type { Entry, Link, LinkEnd, LinkState, Part, Step, TextNode } from '../../../shared/lab/model.ts'
import { replacing } from '../../../shared/lab/text.ts'
import { stretchesOf, type CutWords } from '../../../shared/procedure/moving/cut.ts'
import {
  hullIn,
  readText,
  splitText,
  withInsertion,
  without,
  Writer,
  type NumberedText,
} from './writtenText.ts'

type Texts = ReadonlyMap<string, NumberedText>
/** What was cut, as the program keeps it and as the oracle does. */
type Held = { readonly cut: CutWords; readonly words: NumberedText } | null

const partKinds = ['do', 'expect', 'why'] as const

/** Numbers from a seed, 0 to below 1. Mulberry32, public domain. */
function chanceFrom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

type Stretch = { readonly start: number; readonly end: number }

/** A blank that was deleted is as good as its like beside the other words. */
const isExactAt = (text: NumberedText, place: Stretch, exact: string, hull: Stretch | null): boolean =>
  hull !== null && readText(text.slice(place.start, place.end)) === exact && place.start < hull.end

export class Script {
  /** How often something happened that the play is about. */
  readonly counts = { moved: 0, divided: 0, found: 0, loose: 0 }
  private readonly chance: () => number
  private readonly writer = new Writer()
  private texts: Texts = new Map()
  private held: Held = null
  private readonly undone: { texts: Texts; held: Held }[] = []
  private readonly done: { texts: Texts; held: Held }[] = []
  private readonly steps = new Map<string, Step>()
  private readonly parts = new Map<string, Part>()
  private readonly links = new Map<string, Link>()
  private readonly entries = new Map<string, Entry>()
  /** What each link stands for: the one that was carried. */
  private readonly origins = new Map<LinkId, LinkId>()
  private readonly carried = new Map<LinkId, NumberedText>()
  /** The oracle's texts by revision, since links name those. */
  private readonly then = new Map<string, NumberedText>()

  private constructor(
    private readonly lab: OpenLab,
    seed: number,
    private readonly procedure: ProcedureId,
    private nextSign: number,
  ) {
    this.chance = chanceFrom(seed)
  }

  /** Three entries, and steps with parts carried from them. No sign stands twice in what is carried. */
  static async begin(lab: OpenLab, seed: number): Promise<Script> {
    const around = lab.surroundings
    const { project, change } = acts.addProject(around, { title: 'Logger', aim: '', status: 'under way' })
    const made = acts.addProcedure(around, project.id, 'Move the logger')
    const begun = await lab.committer.commitAll([change, made.change])
    if (!begun.ok) throw new Error(begun.sentence)
    const script = new Script(lab, seed, made.procedure.id, 0x4e00)
    const entries = [script.signs(), script.signs(), script.signs()].map((text) =>
      acts.addEntry(around, { project: project.id, kind: 'observation', text }),
    )
    for (const { change } of entries) await script.commit(change, null)
    const sources = entries.map(({ entry }) => entry.id)
    for (let i = 0; i < 3; i++) await script.carryOne(sources[i]!)
    script.done.length = 0
    return script
  }

  /** One act by chance. @returns what it was, or `nothing` where it did not fit */
  async turn(): Promise<string> {
    const what = this.pick([
      ...['type', 'type', 'delete', 'cut', 'cut', 'paste', 'paste', 'paste', 'move', 'split', 'split'],
      ...['join', 'join', 'undo', 'redo', 'amend'],
    ])
    const isDone = await this.play(what)
    return isDone ? what : 'nothing'
  }

  private play(what: string): Promise<boolean> {
    switch (what) {
      case 'type':
        return this.type(this.pickPart())
      case 'amend':
        return this.edit(this.pickEntry(), this.chance() < 0.5 ? 0 : 4, this.chance() < 0.5)
      case 'delete':
        return this.edit(this.pickPart(), 5, false)
      case 'cut':
        return this.cut()
      case 'paste':
        return this.paste()
      case 'move':
        return this.move()
      case 'split':
        return this.split()
      case 'join':
        return this.join()
      case 'undo':
        return this.goBack('undo', this.done, this.undone)
      default:
        return this.goBack('redo', this.undone, this.done)
    }
  }

  /** What stands is what the oracle says, at every end of every link. */
  async check(): Promise<void> {
    const nodes = [...this.parts.keys(), ...this.entries.keys()]
    for (const node of this.texts.keys())
      expect((await this.lab.queries.findText(node as never))?.text, `text ${node}`).toBe(
        readText(this.texts.get(node)!),
      )
    const { links, states } = await this.lab.queries.linksFrom(nodes)
    expect(links.map(({ id }) => id).sort()).toEqual([...this.links.keys()].sort())
    const byId = new Map(states.map((state) => [state.link, state]))
    for (const link of links) this.checkLink(link, byId.get(link.id)!)
    this.checkWordsKeepLinks(links, byId)
  }

  private checkLink(link: Link, state: LinkState): void {
    expect(link).toEqual(this.links.get(link.id))
    for (const side of ['newer', 'older'] as const) {
      const wanted = this.wordsOf(link[side])
      const text = this.texts.get(link[side].node.id) ?? []
      const hulls = wanted.map((words) => hullIn(text, words))
      state[side].places.forEach((place, i) => {
        const hull = hulls[i]!
        // Words that left and came back by another text are another link's now; checkWordsKeepLinks holds that they have one.
        if (place && !isExactAt(text, place, link[side].ranges[i]!.quote.exact, hull))
          expect(hullIn(text.slice(place.start, place.end), wanted[i]!), `${side} end of ${link.id}`).toEqual(
            {
              start: 0,
              end: place.end - place.start,
            },
          )
        if (link[side].node.kind === 'entry' || hull === null) expect(place === null).toBe(hull === null)
        if (place) this.counts.found++
        else this.counts.loose++
      })
      expect(state[side].loose).toBe(state[side].places.every((place) => place === null))
    }
    expect(state.loose).toBe(state.newer.loose || state.older.loose)
  }

  /** Wherever a carried character stands in the procedure, a link of its own leads from there. */
  private checkWordsKeepLinks(links: readonly Link[], states: ReadonlyMap<LinkId, LinkState>): void {
    for (const [origin, words] of this.carried) {
      const own = links.filter(({ id }) => this.origins.get(id) === origin)
      for (const part of this.parts.keys()) {
        const hull = hullIn(this.texts.get(part) ?? [], words)
        if (!hull) continue
        const numbers = new Set(words.map(({ number }) => number))
        const places = own
          .filter(({ newer }) => newer.node.id === part)
          .flatMap(({ id }) => states.get(id)!.newer.places.filter((place) => place !== null))
        this.texts.get(part)!.forEach(({ number, unit }, at) => {
          if (numbers.has(number) && unit.trim() !== '')
            expect(
              places.some(({ start, end }) => start <= at && at < end),
              `${unit} of ${origin} at ${at} of ${part}`,
            ).toBe(true)
        })
      }
    }
  }

  private wordsOf({ revision, ranges }: LinkEnd): NumberedText[] {
    return ranges.map(({ position }) => this.then.get(revision!)!.slice(position.start, position.end))
  }

  // What happens.

  private async carryOne(entry: EntryId): Promise<void> {
    const { lab } = this
    const now = (await lab.queries.standing(entry))!
    const cuts = [this.upTo(8), 10 + this.upTo(6), 18 + this.upTo(4), 24 + this.upTo(8)]
    const ranges =
      this.chance() < 0.4
        ? [
            { start: cuts[0]!, end: cuts[1]! },
            { start: cuts[2]!, end: cuts[3]! },
          ]
        : [{ start: cuts[0]!, end: cuts[3]! }]
    const from = { lab: lab.id, title: '', address: null, node: { kind: 'entry', id: entry } as const }
    const origin = { kind: 'entry', entryKind: 'observation' } as const
    const fragment = pickFragment({ ...from, ...now, origin }, ranges)!
    const position = acts.positionAfter([...this.steps.values()], this.inOrder().at(-1) ?? null)
    const kind = this.pick(partKinds)
    const landing = { at: 'new step', procedure: this.procedure, position, kind } as const
    const { change, link } = carry(lab.surroundings, fragment, landing, 'drag')
    await this.commit(change, null)
    this.carried.set(link.id, this.wordsOf(link.newer).flat())
  }

  private async type(part: Part): Promise<boolean> {
    return this.edit(part, 0, true)
  }

  /** Deletes up to so many characters and types some. */
  private async edit(node: Part | Entry, most: number, isTyping: boolean): Promise<boolean> {
    const text = this.texts.get(node.id)!
    const start = this.upTo(text.length)
    const end = Math.min(text.length, start + (most === 0 ? 0 : 1 + this.upTo(most)))
    const words = isTyping ? this.capitals() : ''
    if (start === end && words === '') return false
    const now = (await this.lab.queries.standing(node.id))!
    const change = acts.writeText(
      this.lab.surroundings,
      this.nodeOf(node.id),
      now.revision,
      replacing(text.length, { start, end }, words),
    ).change
    const next = withInsertion(without(text, start, end), start, this.writer.type(words))
    return this.commit(change, new Map([[node.id, next]]))
  }

  /** Now and then something is typed and not yet committed when it is cut, as while a person types. */
  private async cut(): Promise<boolean> {
    const part = this.pickPart()
    const text = this.texts.get(part.id)!
    if (text.length === 0) return false
    const now = (await this.lab.queries.standing(part.id))!
    const typed = this.chance() < 0.3 ? this.capitals() : ''
    const at = this.upTo(text.length)
    const typing = ChangeSet.of({ from: at, insert: typed }, text.length)
    const shown = withInsertion(text, at, this.writer.type(typed))
    const start = this.upTo(shown.length - 1)
    const end = Math.min(shown.length, start + 1 + this.upTo(this.chance() < 0.3 ? shown.length : 12))
    const words = shown.slice(start, end)
    const stretches = stretchesOf(typing.desc.toJSON(), { start, end })
    const links = [...this.links.values()]
      .filter(({ newer }) => newer.node.id === part.id)
      .map(({ id }) => id)
    const where = { lab: this.lab.id, part: part.id, revision: now.revision }
    const cut = { ...where, words: readText(words), stretches, links }
    const changes = typing.compose(ChangeSet.of({ from: start, to: end }, shown.length))
    const { change } = acts.writeText(
      this.lab.surroundings,
      { kind: 'part', id: part.id },
      now.revision,
      changes.toJSON() as never,
    )
    await this.commit(change, new Map([[part.id, without(shown, start, end)]]))
    this.held = { cut, words }
    return true
  }

  private async paste(): Promise<boolean> {
    const { held } = this
    if (!held) return false
    const part = this.pickPart()
    const text = this.texts.get(part.id)!
    const at = this.upTo(text.length)
    const change = await changeOfPaste(this.lab, held.cut, part, at)
    expect(change).not.toBe(null)
    return this.commit(change!, new Map([[part.id, withInsertion(text, at, held.words)]]), null)
  }

  private async move(): Promise<boolean> {
    const order = this.inOrder()
    const moving = new Set([this.pick(order).id])
    const change = acts.moveSteps(this.lab.surroundings, order, moving, this.pick([null, ...order]))
    return change ? this.commit(change, new Map()) : false
  }

  private async split(): Promise<boolean> {
    const part = this.pickPart()
    const text = this.texts.get(part.id)!
    const at = this.upTo(text.length)
    const step = this.steps.get(part.step!)!
    const splitting = { step, steps: [...this.steps.values()], parts: this.partsOf(step), part, at }
    const result = await changeOfSplit(this.lab, splitting)
    const [before, behind] = splitText(text, at)
    if (!result.ok) {
      expect(result.code).toBe('nothing-to-split')
      expect(before.length === 0 || behind.length === 0).toBe(true)
      return false
    }
    return this.commit(
      result.value.change,
      new Map([
        [part.id, before],
        [result.value.part.id, behind],
      ]),
    )
  }

  private async join(): Promise<boolean> {
    const order = this.inOrder()
    const at = this.upTo(order.length - 2)
    const [first, second] = [order[at], order[at + 1]]
    if (!first || !second) return false
    const row = (step: Step) => ({ step, parts: this.partsOf(step), place: null })
    const result = await changeOfJoin(this.lab, row(first), row(second), [])
    if (!result.ok) throw new Error(result.sentence)
    const next = new Map<string, NumberedText | null>()
    for (const part of this.partsOf(second)) {
      const own = this.partsOf(first).find(({ kind }) => kind === part.kind)
      if (!own) continue
      const [a, b] = [this.texts.get(own.id)!, this.texts.get(part.id)!]
      const between = a.length > 0 && b.length > 0 ? this.writer.type('\n\n') : []
      next.set(own.id, [...a, ...between, ...b])
      next.set(part.id, null)
    }
    return this.commit(result.value, next)
  }

  private async goBack(
    act: 'undo' | 'redo',
    from: { texts: Texts; held: Held }[],
    to: { texts: Texts; held: Held }[],
  ): Promise<boolean> {
    const wanted = from.pop()
    if (!wanted) return false
    const result = await this.lab.committer[act]()
    if (!result.ok) throw new Error(result.sentence)
    this.take(result.value.change.operations)
    to.push({ texts: this.texts, held: null })
    this.texts = wanted.texts
    // Whatever was cut may stand again.
    this.held = null
    this.remember(result.value.change.operations)
    return true
  }

  /** Commits an act and tells the oracle what the texts read then; null for the start, when it is told by reading them. */
  private async commit(
    change: Change,
    next: ReadonlyMap<string, NumberedText | null> | null,
    held: Held = this.held,
  ): Promise<boolean> {
    const result = await this.lab.committer.commit(change)
    if (!result.ok) throw new Error(`${change.act}: ${result.sentence}`)
    const { operations } = result.value.change
    this.done.push({ texts: this.texts, held: this.held })
    this.undone.length = 0
    this.take(operations)
    const texts = new Map(this.texts)
    for (const operation of next ? [] : operations)
      if (operation.op === 'text') {
        const text = (await this.lab.queries.findText(operation.node.id))!.text
        texts.set(operation.node.id, this.writer.type(text))
      }
    for (const [node, text] of next ?? [])
      if (text) texts.set(node, text)
      else texts.delete(node)
    this.texts = texts
    this.held = held
    this.remember(operations)
    return true
  }

  /** Follows which records stand. */
  private take(operations: readonly Operation[]): void {
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

  private remember(operations: readonly Operation[]): void {
    for (const operation of operations)
      if (operation.op === 'text')
        this.then.set(operation.toRevision, this.texts.get(operation.node.id) ?? [])
  }

  // What chance picks.

  private upTo(most: number): number {
    return Math.floor(this.chance() * (Math.max(0, most) + 1))
  }

  private pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.chance() * list.length)]!
  }

  private pickPart(): Part {
    return this.pick([...this.parts.values()])
  }

  private pickEntry(): Entry {
    return this.pick([...this.entries.values()])
  }

  private nodeOf(id: string): TextNode {
    return this.parts.has(id) ? { kind: 'part', id: id as never } : { kind: 'entry', id: id as never }
  }

  private inOrder(): Step[] {
    return [...this.steps.values()].sort(acts.compareSteps)
  }

  private partsOf(step: Step): Part[] {
    return [...this.parts.values()].filter((part) => part.step === step.id)
  }

  private capitals(): string {
    return Array.from({ length: 1 + this.upTo(3) }, () => this.pick([...'ABCDEFGH'])).join('')
  }

  /** Words of signs of which each stands once in the script. */
  private signs(): string {
    const word = (): string =>
      Array.from({ length: 2 + this.upTo(2) }, () => String.fromCodePoint(this.nextSign++)).join('')
    return Array.from({ length: 12 }, word).join(' ')
  }
}
