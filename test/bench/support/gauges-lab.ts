/** A lab in which each step rests on many entries and on a source, and the entries on the source: word by word, link by link. */
import { createHash } from 'node:crypto'
import { zipSync, type Zippable } from 'fflate'
import { generateNKeysBetween } from 'fractional-indexing'
import { labToFiles } from '../../../shared/archive/labFile.ts'
import { linkWords } from '../../../shared/distil/carry.ts'
import { pickFragment, type Fragment } from '../../../shared/distil/fragment.ts'
import {
  addProcedure,
  addProject,
  addSource,
  beginPart,
  entryOperations,
  makeChange,
  newPart,
  newStep,
  put,
} from '../../../shared/lab/acts.ts'
import type { Change, Operation } from '../../../shared/lab/change.ts'
import type { ProcedureId, ProjectId, RevisionId } from '../../../shared/lab/ids.ts'
import type { StepPartKind, TextNode } from '../../../shared/lab/model.ts'
import { openTestLab, repeatableSurroundings } from '../../unit/support/lab.ts'

const ENTRIES = 16
const STEPS = 5
const KINDS: readonly StepPartKind[] = ['do', 'expect', 'why']
const PARTS = STEPS * KINDS.length
/** What stands below the linked things, so that every pane can be scrolled. */
const BESIDE = 12

export const SOURCE = 'Gauges of the mast'

const from = <T>(count: number, make: (at: number) => T): T[] =>
  Array.from({ length: count }, (_, at) => make(at))

/** Words that stand once in each of the texts that they link. */
const words = {
  /** Of an entry and a part. */
  carried: (entry: number, part: number): string => `e${entry}p${part}`,
  /** Of the source and an entry. */
  read: (entry: number): string => `s${entry}`,
  /** Of the source and a part. */
  quoted: (part: number, at: number): string => `q${part}k${at}`,
}

const sourceLines = [
  ...from(ENTRIES, (entry) => `Gauge ${words.read(entry)} stands on the mast.`),
  ...from(PARTS, (part) => `Look at ${words.quoted(part, 0)} before ${words.quoted(part, 1)}.`),
  ...from(3 * BESIDE, (at) => `Remark ${at + 1}: nothing more is known of it.`),
]
const entryTexts = from(
  ENTRIES,
  (entry) => `${words.read(entry)} ${from(PARTS, (part) => words.carried(entry, part)).join(' ')}`,
)
const partTexts = from(
  PARTS,
  (part) =>
    `${from(ENTRIES, (entry) => words.carried(entry, part)).join(' ')} ${words.quoted(part, 0)} ${words.quoted(part, 1)}`,
)
const beside = from(BESIDE, (at) => `Afterwards ${at + 1}: the gauges were read and nothing was done.`)

/** A text that words are carried out of. */
type Carried = Pick<Fragment, 'node' | 'revision' | 'origin'> & { readonly text: string }

class LinkedLab {
  private readonly around = repeatableSurroundings(41)

  async toFile(): Promise<Uint8Array> {
    const lab = await openTestLab(this.around)
    const commit = async (change: Change): Promise<void> => {
      const result = await lab.committer.commit(change)
      if (!result.ok) throw new Error(result.sentence)
    }
    const { project, change } = addProject(this.around, { title: 'Gauges', aim: '', status: 'under way' })
    await commit(change)
    const { source, change: added } = this.source(project.id)
    await commit(added)
    const entries = [...entryTexts, ...beside].map((text) => this.entry(project.id, source, text))
    for (const entry of entries) await commit(entry.change)
    const begun = addProcedure(
      this.around,
      project.id,
      'Read the gauges',
      'To see whether all of them answer.',
    )
    await commit(begun.change)
    const older = [source, ...entries.map(({ carried }) => carried)]
    for (const step of this.steps(begun.procedure.id, older)) await commit(step)
    const tools = {
      sha256: (bytes: Uint8Array) => Promise.resolve(sha256Of(bytes)),
      encode: (text: string) => new TextEncoder().encode(text),
      decode: (bytes: Uint8Array) => new TextDecoder().decode(bytes),
    }
    const about = { id: lab.id, name: 'Gauges', created: this.around.clock.now() }
    const files = await labToFiles(about, await lab.dump(), this.around.clock.now(), tools)
    const tree: Zippable = Object.fromEntries(
      [...files].map(([name, bytes]) => [name, [bytes, { level: 1 }]]),
    )
    return zipSync(tree)
  }

  private source(project: ProjectId): { readonly source: Carried; readonly change: Change } {
    const text = `${sourceLines.join('\n\n')}\n`
    const bytes = new TextEncoder().encode(text)
    const { capture, change } = addSource(this.around, {
      title: SOURCE,
      address: null,
      kind: 'markdown',
      wayIn: 'pasted',
      projects: [project],
      capture: { text, bytes, sha256: sha256Of(bytes), mediaType: 'text/markdown' },
    })
    const { id, revision } = capture!
    return { source: { node: { kind: 'capture', id }, revision, origin: { kind: 'source' }, text }, change }
  }

  private entry(
    project: ProjectId,
    source: Carried,
    text: string,
  ): { readonly carried: Carried; readonly change: Change } {
    const input = { project, kind: 'action', text } as const
    const { entry, revision, operations } = entryOperations(this.around, input)
    const node: TextNode = { kind: 'entry', id: entry.id }
    const links = this.links([source], node, revision, text)
    return {
      carried: { node, revision, origin: { kind: 'entry', entryKind: 'action' }, text },
      change: makeChange(this.around, 'add an entry', [...operations, ...links]),
    }
  }

  private steps(procedure: ProcedureId, older: readonly Carried[]): Change[] {
    const positions = generateNKeysBetween(null, null, STEPS + BESIDE)
    return positions.map((position, at) => {
      const step = newStep(this.around, procedure, position)
      const texts =
        at < STEPS ? partTexts.slice(at * KINDS.length, (at + 1) * KINDS.length) : [beside[at - STEPS]!]
      const parts = texts.flatMap((text, i): Operation[] => {
        const part = newPart(this.around, step, KINDS[i]!)
        const { revision, operations } = beginPart(this.around, part, text)
        return [...operations, ...this.links(older, { kind: 'part', id: part.id }, revision, text)]
      })
      return makeChange(this.around, 'add a step', [put('steps', step), ...parts])
    })
  }

  /** A link for each word of a text that stands in one of the older ones. */
  private links(older: readonly Carried[], node: TextNode, revision: RevisionId, text: string): Operation[] {
    return [...text.matchAll(/\b[esq]\d+(?:[pk]\d+)?\b/g)].flatMap(({ 0: word, index }): Operation[] => {
      const pattern = new RegExp(`\\b${word}\\b`)
      const found = older.find((one) => pattern.test(one.text))
      if (!found) return []
      const start = found.text.search(pattern)
      const fragment = pickFragment({ ...found, lab: this.around.ids.make(), title: '', address: null }, [
        { start, end: start + word.length },
      ])!
      const ranges = [{ start: index, end: index + word.length }]
      return [put('links', linkWords(this.around, fragment, { node, revision, text, ranges }, 'sample'))]
    })
  }
}

const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')

/** The bytes of a lab file with some 290 links between three panes. */
export const linkedLabFile = (): Promise<Uint8Array> => new LinkedLab().toFile()
