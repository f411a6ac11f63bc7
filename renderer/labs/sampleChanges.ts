/**
 * Turns the sample's content into Changes, as if somebody had worked so at those moments: pure but for the ids and for
 * the captures' texts, which the caller has read.
 */
import { generateNKeysBetween } from 'fractional-indexing'
import { linkWords } from '../../shared/distil/carry.ts'
import { pickFragment, type Fragment, type Origin } from '../../shared/distil/fragment.ts'
import {
  addProcedure,
  addProject,
  addSource,
  answerProblem,
  beginPart,
  entryOperations,
  leaveOut,
  makeChange,
  markEntry,
  newPart,
  newStep,
  put,
  silence,
  withdrawEntry,
  writeText,
  type CaptureInput,
  type Surroundings,
} from '../../shared/lab/acts.ts'
import { noFile } from '../../shared/journal/files/typed.ts'
import type { Change, Operation } from '../../shared/lab/change.ts'
import { createIdMaker, type LabId, type ProcedureId, type RevisionId } from '../../shared/lab/ids.ts'
import type {
  Entry,
  LinkNode,
  Outcome,
  Part,
  Place,
  ProcedurePartKind,
  Range,
  Step,
  TextNode,
} from '../../shared/lab/model.ts'
import { instantOf, readMoment, type Moment } from '../../shared/lab/moment.ts'
import { changeBetween } from '../../shared/lab/text.ts'
import { occurrencesOf } from '../../shared/provenance/selectors.ts'
import type {
  SampleCarry,
  SampleEntry,
  SampleLab,
  SampleLeftOut,
  SamplePlace,
  SampleProcedure,
  SampleProject,
  SampleSilence,
  SampleSource,
} from './sample/format.ts'

/** Something that can be carried from, as it stands. */
interface Standing {
  readonly node: LinkNode
  readonly revision: RevisionId
  readonly text: string
  readonly origin: Origin
  readonly title: string
  readonly address: string | null
}

/** What happened at one moment. */
interface Event {
  readonly at: Moment
  readonly happen: () => Change | Change[]
}

/** The sample's Changes in the order of their moments, closed by one that undo does not pass. */
export function sampleChanges(
  sample: SampleLab,
  lab: LabId,
  captures: ReadonlyMap<string, CaptureInput>,
  randomBytes: (count: number) => Uint8Array,
): Change[] {
  return new Loader(sample, lab, captures, randomBytes).changes()
}

class Loader {
  private now: Moment
  private readonly around: Surroundings
  private readonly projects = new Map<string, ReturnType<typeof addProject>['project']>()
  private readonly sources = new Map<string, Standing>()
  private readonly entries = new Map<string, Standing & { readonly entry: Entry }>()
  private readonly steps = new Map<string, Step>()

  constructor(
    private readonly sample: SampleLab,
    private readonly lab: LabId,
    private readonly captures: ReadonlyMap<string, CaptureInput>,
    randomBytes: (count: number) => Uint8Array,
  ) {
    this.now = momentOf(sample.projects[0]!.created)
    this.around = {
      clock: { now: () => this.now },
      ids: createIdMaker(() => instantOf(this.now), randomBytes),
      randomBytes,
      who: () => null,
    }
  }

  changes(): Change[] {
    const changes: Change[] = []
    for (const { at, happen } of this.eventsInOrder()) {
      this.now = at
      changes.push(...[happen()].flat())
    }
    return [...changes, makeChange(this.around, 'load the sample', [])]
  }

  /** Things of one moment keep the order in which they are listed here: what is named comes before what names it. */
  private eventsInOrder(): Event[] {
    const { projects, sources } = this.sample
    const events: Event[] = [
      ...projects.map((project) => ({ at: momentOf(project.created), happen: () => this.project(project) })),
      ...sources.map((source) => ({ at: momentOf(source.added), happen: () => this.source(source) })),
      ...projects.flatMap((project) => project.entries.flatMap((entry) => this.entryEvents(project, entry))),
      ...projects.flatMap((project) =>
        project.procedures.flatMap((procedure) => this.procedureEvents(project, procedure)),
      ),
    ]
    return events
      .map((event, order) => ({ ...event, order }))
      .sort((a, b) => instantOf(a.at) - instantOf(b.at) || a.order - b.order)
  }

  private project({ key, title, aim, status }: SampleProject): Change {
    const { project, change } = addProject(this.around, { title, aim, status })
    this.projects.set(key, project)
    return change
  }

  private source({ key, title, address, projects, mediaType }: SampleSource): Change {
    const { source, capture, change } = addSource(this.around, {
      title,
      address,
      kind: mediaType === 'text/html' ? 'page' : mediaType === 'text/markdown' ? 'markdown' : 'text',
      wayIn: 'sample',
      projects: projects.map((project) => this.require(this.projects, project).id),
      capture: this.require(this.captures, key),
    })
    const { id, revision, text } = capture!
    this.sources.set(key, {
      node: { kind: 'capture', id },
      revision,
      text,
      origin: { kind: 'source' },
      title: source.title,
      address,
    })
    return change
  }

  private entryEvents(project: SampleProject, entry: SampleEntry): Event[] {
    const amended = entry.amended ?? []
    return [
      { at: momentOf(entry.moment), happen: () => this.entry(project, entry) },
      ...amended.map(({ moment, text }) => ({
        at: momentOf(moment),
        happen: () => this.amend(entry.key, text),
      })),
      ...(entry.withdrawn ? [{ at: momentOf(entry.withdrawn), happen: () => this.withdraw(entry.key) }] : []),
    ]
  }

  private entry(
    { key: projectKey }: SampleProject,
    { key, kind, text, file, failed, carries = [], answers }: SampleEntry,
  ): Change[] {
    const project = this.require(this.projects, projectKey).id
    const { entry, revision, operations } = entryOperations(this.around, {
      ...{ project, kind, text },
      file: file ? { ...noFile, ...file } : null,
    })
    const node: TextNode = { kind: 'entry', id: entry.id }
    const links = this.links(carries, { node, revision, text })
    const change = makeChange(this.around, carries.length > 0 ? 'carry' : 'add an entry', [
      ...operations,
      ...links,
    ])
    this.entries.set(key, {
      node,
      revision,
      text,
      entry,
      origin: { kind: 'entry', entryKind: kind },
      title: '',
      address: null,
    })
    const ended = ['action', 'fix'].includes(kind)
      ? [this.outcome(entry, failed ? 'failed' : 'succeeded')]
      : []
    if (!answers) return [change, ...ended]
    return [
      change,
      ...ended,
      answerProblem(this.around, entry.id, this.require(this.entries, answers).entry.id, 'sample'),
    ]
  }

  private outcome(entry: Entry, set: Outcome): Change {
    return markEntry(this.around, entry.id, { kind: 'outcome', command: null, set, was: null })
  }

  private amend(key: string, text: string): Change {
    const standing = this.require(this.entries, key)
    const node: TextNode = { kind: 'entry', id: standing.entry.id }
    const { change, revision } = writeText(
      this.around,
      node,
      standing.revision,
      changeBetween(standing.text, text),
    )
    this.entries.set(key, { ...standing, revision, text })
    return change
  }

  private withdraw(key: string): Change {
    return withdrawEntry(this.around, this.require(this.entries, key).entry.id)
  }

  private procedureEvents(project: SampleProject, procedure: SampleProcedure): Event[] {
    const positions = generateNKeysBetween(null, null, procedure.steps.length)
    let id: Step['procedure'] | null = null
    const begin = (): Change => {
      const begun = addProcedure(
        this.around,
        this.require(this.projects, project.key).id,
        procedure.title,
        procedure.purpose,
      )
      id = begun.procedure.id
      return begun.change
    }
    return [
      { at: momentOf(procedure.created), happen: begin },
      ...procedure.steps.flatMap((step, number) =>
        step.parts.map((part) => ({
          at: momentOf(part.moment),
          happen: () =>
            this.part(`${procedure.key} ${number + 1}`, step.place, id!, positions[number]!, part),
        })),
      ),
      ...(procedure.own ?? []).map(({ kind, moment, text }) => ({
        at: momentOf(moment),
        happen: () => this.ownPart({ procedure: id!, kind }, text),
      })),
      ...(procedure.silences ?? []).map((one) => ({
        at: momentOf(one.moment),
        happen: () => this.silence(procedure.key, id!, one),
      })),
      ...(procedure.leftOut ?? []).map((one) => ({
        at: momentOf(one.moment),
        happen: () => this.leftOut(id!, one),
      })),
    ]
  }

  private ownPart(owner: { procedure: ProcedureId; kind: ProcedurePartKind }, text: string): Change {
    const part: Part = { ...owner, id: this.around.ids.make(), step: null, file: null }
    return makeChange(this.around, 'add a part', beginPart(this.around, part, text).operations)
  }

  private silence(key: string, procedure: ProcedureId, { rule, step, words, reason }: SampleSilence): Change {
    const where = step === null ? null : this.require(this.steps, `${key} ${step}`).id
    return silence(this.around, { procedure, rule, step: where, words }, reason).change
  }

  private leftOut(procedure: ProcedureId, { commands, reason }: SampleLeftOut): Change[] {
    return commands.flatMap(({ entry: key, words }) => {
      const { entry, revision, text } = this.require(this.entries, key)
      return words.map((one) => {
        const command = [{ revision, ...placeOfWords(text, one) }]
        return leaveOut(this.around, procedure, { entry: entry.id, command }, reason).change
      })
    })
  }

  private part(
    stepKey: string,
    place: SamplePlace | undefined,
    procedure: Step['procedure'],
    position: string,
    { kind, text, carries = [] }: SampleProcedure['steps'][number]['parts'][number],
  ): Change {
    const known = this.steps.get(stepKey)
    const step = known ?? { ...newStep(this.around, procedure, position), place: placeOf(place) }
    this.steps.set(stepKey, step)
    const part = newPart(this.around, step, kind)
    const { revision, operations } = beginPart(this.around, part, text)
    const links = this.links(carries, { node: { kind: 'part', id: part.id }, revision, text })
    const act = carries.length > 0 ? 'carry' : known ? 'add a part' : 'add a step'
    return makeChange(this.around, act, [...(known ? [] : [put('steps', step)]), ...operations, ...links])
  }

  private links(
    carries: readonly SampleCarry[],
    newer: { readonly node: TextNode; readonly revision: RevisionId; readonly text: string },
  ): Operation[] {
    return carries.map((carry) => {
      const fragment = this.fragment(carry)
      const ranges = rangesOf(newer.text, carry)
      return put('links', linkWords(this.around, fragment, { ...newer, ranges }, 'sample'))
    })
  }

  private fragment({ from, words }: SampleCarry): Fragment {
    const standing =
      'source' in from ? this.require(this.sources, from.source) : this.require(this.entries, from.entry)
    return pickFragment({ ...standing, lab: this.lab }, [placeOfWords(standing.text, words)])!
  }

  private require<T>(map: ReadonlyMap<string, T>, key: string): T {
    const value = map.get(key)
    if (value === undefined) throw new Error(`the sample names ${key} before it is there`)
    return value
  }
}

function placeOfWords(text: string, words: string): Range {
  const [place, ...further] = occurrencesOf(text, words)
  if (!place || further.length > 0) throw new Error(`the sample's words do not stand once: ${words}`)
  return place
}

function placeOf(place: SamplePlace | undefined): Place | null {
  return place ? { machine: null, host: null, user: null, directory: null, ...place } : null
}

function momentOf(text: string): Moment {
  const moment = readMoment(text)
  if (!moment) throw new Error(`the sample's moment ${text} is none`)
  return moment
}

/** Where carried words stand in the newer text: as they are, reworded, or line by line in a block quotation. */
export function rangesOf(text: string, { words, as }: Pick<SampleCarry, 'words' | 'as'>): Range[] {
  const whole = occurrencesOf(text, as ?? words)[0]
  if (whole) return [whole]
  let from = 0
  return (as ?? words).split('\n').flatMap((line) => {
    if (line.trim() === '') return []
    const start = text.indexOf(line, from)
    if (start < 0) throw new Error(`the sample's words are not in the newer text: ${line}`)
    from = start + line.length
    return [{ start, end: from }]
  })
}
