/**
 * Texts of other projects among which the sample lab is asked: 5,000 of the same trade, read in place (STANDARDS_DIR).
 *
 * - Sources: manual pages of Debian 12, but for those of programs that the sample itself runs, which would answer rightly.
 * - Entries and steps: requests of NL2Bash (https://github.com/TellinaTool/nl2bash) with their commands, drawn by a fixed seed.
 *   Of ten requests four become steps of procedures, four actions, one an observation, and one a problem with its fix.
 * - Links: every second step or action is linked to the page of the program that it runs, where that is among the sources.
 */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { sample } from '../../../renderer/labs/sample/index.ts'
import {
  createIdMaker,
  type CaptureId,
  type EntryId,
  type IdMaker,
  type LinkId,
  type PartId,
} from '../../../shared/lab/ids.ts'
import type { LinkNode } from '../../../shared/lab/model.ts'
import { toMoment, type Moment } from '../../../shared/lab/moment.ts'
import type { FindDocument } from '../../../shared/find/document.ts'
import type { AskText, AskThing } from '../../../shared/find/ask/thing.ts'
import type { GraphLink } from '../../../shared/provenance/graph.ts'
import { draw, seededNumbers } from '../drawing.ts'

const folder = join(
  process.env['STANDARDS_DIR'] ?? join(import.meta.dirname, '../../../../shared/standards'),
  'ir',
)
export const hasDistractors = existsSync(folder)

export const DISTRACTORS = 5_000
const STEPS_A_PROCEDURE = 12
const ENTRIES_A_PROJECT = 120
const START = Date.UTC(2025, 0, 5, 18)

export interface Distractors {
  readonly documents: readonly FindDocument[]
  readonly things: readonly AskThing[]
  readonly links: readonly GraphLink[]
}

export function distractors(): Distractors {
  const sources = manualPages()
  const requests = draw(pairs(), DISTRACTORS, seededNumbers(5))
  const made = new Maker()
  for (const { title, text } of sources) made.source(title, text)
  for (let at = 0; made.count < DISTRACTORS; at++) made.request(at, requests[at]!)
  return made
}

class Maker implements Distractors {
  readonly documents: FindDocument[] = []
  readonly things: AskThing[] = []
  readonly links: GraphLink[] = []
  /** Texts that were made: sources, entries, steps. */
  count = 0
  private entries = 0
  private steps = 0
  private project = ''
  private procedure: { readonly id: string; readonly title: string } = { id: '', title: '' }
  private seconds = 0
  private readonly captures = new Map<string, LinkNode>()
  private readonly ids: IdMaker = createIdMaker(
    () => START + 60_000 * this.seconds++,
    (count) => new Uint8Array(count),
  )

  source(title: string, text: string): void {
    const id = this.ids.make()
    const node = { kind: 'capture', id: this.ids.make<CaptureId>() } as const
    this.captures.set(title.replace(/\(.*/, ''), node)
    this.add(
      { id, thing: 'source', kind: 'manual', title, way: [], procedure: null, moment: this.moment() },
      [{ node, part: null, text }],
    )
    this.count++
  }

  request(at: number, { says, command }: Pair): void {
    const fenced = `\`\`\`sh\n${command}\n\`\`\``
    switch (at % 10) {
      case 0:
      case 2:
      case 5:
      case 7:
        return this.cite(at, command, this.step(says, fenced))
      case 4:
        return void this.entry('observation', `${says}.`)
      case 9: {
        const problem = this.entry('problem', `${says}: does not work yet.`)
        return this.link(this.entry('fix', fenced), problem, true)
      }
      default:
        return this.cite(at, command, this.entry('action', `${says}.\n\n${fenced}`))
    }
  }

  private cite(at: number, command: string, newer: LinkNode): void {
    const page = this.captures.get(/^[\w.-]+/.exec(command)?.[0] ?? '')
    if (page && at % 20 < 10) this.link(newer, page, false)
  }

  private link(newer: LinkNode, older: LinkNode, isWhole: boolean): void {
    this.links.push({ id: this.ids.make<LinkId>(), newer: { node: newer }, older: { node: older }, isWhole })
  }

  private entry(kind: 'action' | 'observation' | 'problem' | 'fix', text: string): LinkNode {
    if (this.entries++ % ENTRIES_A_PROJECT === 0) this.project = `Chores of week ${this.entries}`
    const id = this.ids.make<EntryId>()
    const node = { kind: 'entry', id } as const
    const thing = kind === 'problem' ? 'problem' : 'entry'
    this.add({ id, thing, kind, title: '', way: [this.project], procedure: null, moment: this.moment() }, [
      { node, part: null, text },
    ])
    this.count++
    return node
  }

  private step(says: string, fenced: string): LinkNode {
    if (this.steps++ % STEPS_A_PROCEDURE === 0) {
      this.procedure = { id: this.ids.make(), title: says }
      this.add(
        {
          ...this.procedure,
          thing: 'procedure',
          kind: null,
          way: [],
          procedure: null,
          moment: this.moment(),
        },
        [{ node: { kind: 'part', id: this.ids.make() }, part: 'title', text: says }],
      )
    }
    const { id, title } = this.procedure
    const number = String(((this.steps - 1) % STEPS_A_PROCEDURE) + 1)
    const node = { kind: 'part', id: this.ids.make<PartId>() } as const
    this.add(
      {
        id: this.ids.make(),
        thing: 'step',
        kind: null,
        title: '',
        way: [title, number],
        procedure: id,
        moment: null,
      },
      [{ node, part: 'do', text: `${says}.\n\n${fenced}` }],
    )
    this.count++
    return node
  }

  private moment(): Moment {
    return toMoment(START + 60_000 * this.seconds, 60)
  }

  private add(thing: Omit<AskThing, 'texts'>, texts: readonly AskText[]): void {
    this.things.push({ ...thing, texts })
    const { id, title } = thing
    this.documents.push({
      id,
      title: thing.thing === 'step' ? '' : title,
      thing: thing.thing,
      technical: texts.flatMap(({ text }) =>
        [...text.matchAll(/^```sh\n([^]*?)\n```$/gm)].map(([, inside]) => inside!),
      ),
      tags: [],
      text: texts.map(({ text }) => text).join('\n\n'),
      facts: { kind: thing.kind, projects: [], places: [], moment: null, isWithdrawn: false },
    })
  }
}

interface Pair {
  readonly says: string
  readonly command: string
}

/** Each request once. */
function pairs(): Pair[] {
  const [says, commands] = ['nl', 'cm'].map((ending) =>
    readFileSync(join(folder, `nl2bash/all.${ending}`), 'utf8')
      .trim()
      .split('\n'),
  )
  const known = new Set<string>()
  return says!.flatMap((words, at) => {
    const trimmed = words.trim().replace(/\.$/, '')
    if (trimmed === '' || known.has(trimmed)) return []
    known.add(trimmed)
    return [{ says: trimmed, command: commands![at]!.trim() }]
  })
}

function manualPages(): { readonly title: string; readonly text: string }[] {
  const own = programsOfSample()
  return gunzipSync(readFileSync(join(folder, 'manpages/manpages.jsonl.gz')))
    .toString('utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as { id: string; names: string; text: string })
    .filter(({ names }) => !names.split(/[\s,]+/).some((name) => own.has(name)))
    .map(({ id, text }) => ({ title: id, text }))
}

/** The first words of the lines that the sample runs. */
function programsOfSample(): Set<string> {
  const texts = sample.projects.flatMap(({ entries }) => entries.map(({ text }) => text))
  const lines = texts.flatMap((text) =>
    [...text.matchAll(/^```sh\n([^]*?)\n```$/gm)].flatMap(([, inside]) => inside!.split(/\n|&&|\||;/)),
  )
  return new Set(lines.flatMap((line) => /^\s*([a-z][\w.-]*)/.exec(line)?.[1] ?? []))
}
