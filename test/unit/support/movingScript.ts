/** A play on a lab, beside what an oracle knows of every character. */
import { ChangeSet } from '@codemirror/state'
import { expect } from 'vitest'
import type { OpenLab } from '../../../renderer/db/lab.ts'
import { TextSession } from '../../../renderer/editor/textSession.ts'
import { changeOfJoin, changeOfPaste, changeOfSplit } from '../../../renderer/store/movingWords.ts'
import { carry } from '../../../shared/distil/carry.ts'
import { pickFragment } from '../../../shared/distil/fragment.ts'
import * as acts from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import type { EntryId, ProcedureId, WindowId } from '../../../shared/lab/ids.ts'
import type { Entry, Part, Step, TextNode } from '../../../shared/lab/model.ts'
import { replacing } from '../../../shared/lab/text.ts'
import { stretchesOf, type CutWords } from '../../../shared/procedure/moving/cut.ts'
import { MovingOracle, type Texts } from './movingOracle.ts'
import { readText, splitText, withInsertion, without, Writer, type NumberedText } from './writtenText.ts'

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

const unheard = { onRemote: () => undefined, onState: () => undefined, onCut: () => undefined }

async function openWindow(lab: OpenLab, { id }: Part, window: number): Promise<TextSession> {
  const node = { kind: 'part', id } as const
  const options = { window: `window ${window}` as WindowId, cutsByItself: true }
  return (await TextSession.open(lab, node, options, unheard))!
}

export class Script {
  readonly oracle: MovingOracle
  private readonly chance: () => number
  private readonly writer = new Writer()
  private held: Held = null
  private readonly undone: { texts: Texts; held: Held }[] = []
  private readonly done: { texts: Texts; held: Held }[] = []
  private constructor(
    private readonly lab: OpenLab,
    seed: number,
    private readonly procedure: ProcedureId,
    private nextSign: number,
  ) {
    this.chance = chanceFrom(seed)
    this.oracle = new MovingOracle(lab)
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
    const what = this.pickAct()
    const isDone = await this.play(what)
    return isDone ? what : 'nothing'
  }

  /** What was undone is often done again, and what was cut is often put in. */
  private pickAct(): string {
    if (this.undone.length > 0 && this.chance() < 0.4) return 'redo'
    if (this.held && this.chance() < 0.4) return 'paste'
    return this.pick([
      ...['type', 'type', 'delete', 'cut', 'cut', 'paste', 'move', 'split', 'split', 'join', 'join'],
      ...['undo', 'undo', 'amend', 'two windows'],
    ])
  }

  /** Takes the last acts back one by one and does them again. @param look after each */
  async backAndForth(most: number, look: () => Promise<void>): Promise<void> {
    let taken = 0
    while (taken < most && (await this.play('undo'))) {
      taken++
      await look()
    }
    for (; taken > 0; taken--) {
      expect(await this.play('redo')).toBe(true)
      await look()
    }
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
      case 'two windows':
        return this.typeInTwoWindows()
      case 'join':
        return this.join()
      case 'undo':
        return this.goBack('undo', this.done, this.undone)
      default:
        return this.goBack('redo', this.undone, this.done)
    }
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
    const position = acts.positionAfter([...this.oracle.steps.values()], this.inOrder().at(-1) ?? null)
    const kind = this.pick(partKinds)
    const landing = { at: 'new step', procedure: this.procedure, position, kind } as const
    const { change, link } = carry(lab.surroundings, fragment, landing, 'drag')
    await this.commit(change, null)
    this.oracle.noteCarried(link)
  }

  private async type(part: Part): Promise<boolean> {
    return this.edit(part, 0, true)
  }

  /** Deletes up to so many characters and types some. */
  private async edit(node: Part | Entry, most: number, isTyping: boolean): Promise<boolean> {
    const text = this.oracle.texts.get(node.id)!
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

  /** Two windows type into one text at once; the second to commit comes behind the first where both type at one place. */
  private async typeInTwoWindows(): Promise<boolean> {
    const part = this.pickPart()
    const text = this.oracle.texts.get(part.id)!
    const typed = [this.capitals(), this.capitals()].map((words) => this.writer.type(words))
    const places = typed.map(() => this.upTo(text.length))
    const sessions = await Promise.all(typed.map((_, i) => openWindow(this.lab, part, i)))
    sessions.forEach((session, i) =>
      session.type(ChangeSet.of({ from: places[i]!, insert: readText(typed[i]!) }, text.length)),
    )
    for (const [i, session] of sessions.entries()) {
      await session.close()
      const isBehind = i === 1 && places[1]! >= places[0]!
      const at = places[i]! + (isBehind ? typed[0]!.length : 0)
      const next = withInsertion(this.oracle.texts.get(part.id)!, at, typed[i]!)
      this.follow(new Map(this.oracle.texts).set(part.id, next))
      this.oracle.rememberAs((await this.lab.queries.standing(part.id))!.revision, next)
    }
    return true
  }

  /** Now and then something is typed and not yet committed when it is cut, as while a person types. */
  private async cut(): Promise<boolean> {
    const part = this.pickPart()
    const text = this.oracle.texts.get(part.id)!
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
    const links = this.oracle.linksAt(part)
    const where = { lab: this.lab.id, part: part.id, revision: now.revision }
    const cut = { ...where, words: readText(words), stretches, links }
    const changes = typing.compose(ChangeSet.of({ from: start, to: end }, shown.length))
    this.held = { cut, words }
    // What was typed and cut again at once is nothing to write.
    if (changes.empty) return true
    const { change } = acts.writeText(
      this.lab.surroundings,
      { kind: 'part', id: part.id },
      now.revision,
      changes.toJSON() as never,
    )
    return this.commit(change, new Map([[part.id, without(shown, start, end)]]))
  }

  private async paste(): Promise<boolean> {
    const { held } = this
    if (!held) return false
    const own = this.chance() < 0.3 ? this.oracle.parts.get(held.cut.part) : undefined
    const part = own ?? this.pickPart()
    const text = this.oracle.texts.get(part.id)!
    const at = this.upTo(text.length)
    const change = await changeOfPaste(this.lab, held.cut, part, at)
    expect(change).not.toBe(null)
    // Back in their own text they are the same characters again, unless some of them stand there: then they are copies.
    const stays = new Set(text.map(({ stay }) => stay))
    const isBack = part.id === held.cut.part && !held.words.some(({ stay }) => stays.has(stay))
    const words = isBack ? held.words : this.writer.arrive(held.words)
    return this.commit(
      change!,
      new Map([[part.id, withInsertion(text, at, words)]]),
      this.chance() < 0.3 ? held : null,
    )
  }

  private async move(): Promise<boolean> {
    const order = this.inOrder()
    const moving = new Set([this.pick(order).id])
    const change = acts.moveSteps(this.lab.surroundings, order, moving, this.pick([null, ...order]))
    return change ? this.commit(change, new Map()) : false
  }

  private async split(): Promise<boolean> {
    const part = this.pickPart()
    const text = this.oracle.texts.get(part.id)!
    const at = this.upTo(text.length)
    const step = this.oracle.steps.get(part.step!)!
    const splitting = {
      step,
      steps: [...this.oracle.steps.values()],
      parts: this.partsOf(step),
      part,
      at,
    }
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
        [result.value.part.id, this.writer.arrive(behind)],
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
      const [a, b] = [this.oracle.texts.get(own.id)!, this.oracle.texts.get(part.id)!]
      const between = a.length > 0 && b.length > 0 ? this.writer.type('\n\n') : []
      next.set(own.id, [...a, ...between, ...this.writer.arrive(b)])
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
    this.oracle.take(result.value.change.operations)
    to.push({ texts: this.oracle.texts, held: null })
    this.oracle.texts = wanted.texts
    // Whatever was cut may stand again.
    this.held = null
    this.oracle.remember(result.value.change.operations)
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
    this.oracle.take(operations)
    const texts = new Map(this.oracle.texts)
    for (const operation of next ? [] : operations)
      if (operation.op === 'text') {
        const text = (await this.lab.queries.findText(operation.node.id))!.text
        texts.set(operation.node.id, this.writer.type(text))
      }
    for (const [node, text] of next ?? [])
      if (text) texts.set(node, text)
      else texts.delete(node)
    this.follow(texts, held)
    this.oracle.remember(operations)
    return true
  }

  /** What the texts read after one more Change. */
  private follow(texts: Texts, held: Held = this.held): void {
    this.done.push({ texts: this.oracle.texts, held: this.held })
    this.undone.length = 0
    this.oracle.texts = texts
    this.held = held
  }

  // What chance picks.

  private upTo(most: number): number {
    return Math.floor(this.chance() * (Math.max(0, most) + 1))
  }

  private pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.chance() * list.length)]!
  }

  private pickPart(): Part {
    return this.pick([...this.oracle.parts.values()])
  }

  private pickEntry(): Entry {
    return this.pick([...this.oracle.entries.values()])
  }

  private nodeOf(id: string): TextNode {
    return this.oracle.parts.has(id) ? { kind: 'part', id: id as never } : { kind: 'entry', id: id as never }
  }

  private inOrder(): Step[] {
    return [...this.oracle.steps.values()].sort(acts.compareSteps)
  }

  private partsOf(step: Step): Part[] {
    return [...this.oracle.parts.values()].filter((part) => part.step === step.id)
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
