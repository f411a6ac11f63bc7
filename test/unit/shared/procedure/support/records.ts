/** Journals and procedures for tests: the sample as it stands in a lab, and entries made of what they say. */
import { sample } from '../../../../../renderer/labs/sample/index.ts'
import { loadSample } from '../../../../../renderer/labs/loadSample.ts'
import type { ProjectId, RevisionId } from '../../../../../shared/lab/ids.ts'
import {
  addProcedure,
  beginPart,
  entryOperations,
  newPart,
  newStep,
  type EntryInput,
} from '../../../../../shared/lab/acts.ts'
import type {
  Entry,
  Link,
  Mark,
  Outcome,
  Part,
  Piece,
  Step,
  StepPartKind,
} from '../../../../../shared/lab/model.ts'
import type { JournalRecords, ProcedureRecords } from '../../../../../shared/procedure/coverage/records.ts'
import { openTestLab, repeatableSurroundings } from '../../../support/lab.ts'

export const around = repeatableSurroundings(7)

export interface SampleProjectRecords {
  readonly title: string
  readonly journal: JournalRecords
  readonly procedures: readonly ProcedureRecords[]
  /** The last revision of each text. */
  readonly revisions: ReadonlyMap<string, RevisionId>
}

/** The sample's projects, as they are loaded. */
export async function sampleProjects(): Promise<SampleProjectRecords[]> {
  const surroundings = repeatableSurroundings()
  const lab = await openTestLab(surroundings)
  await loadSample(lab, sample)
  const dump = (await lab.dump()) as unknown as {
    projects: { id: ProjectId; title: string }[]
    revisions: { id: RevisionId; node: string; number: number }[]
  }
  const revisions = new Map<string, RevisionId>()
  for (const one of [...dump.revisions].sort((a, b) => a.number - b.number)) revisions.set(one.node, one.id)
  return Promise.all(
    dump.projects.map(async ({ id, title }) => {
      const read = await lab.queries.project(id)
      const texts = new Map<string, string>(read.texts.map(({ node, text }) => [node, text]))
      const marks = new Map(
        read.entries.map((entry) => [
          entry.id as string,
          [...read.marks.filter((one) => one.entry === entry.id)],
        ]),
      )
      const journal: JournalRecords = {
        entries: new Map(read.entries.map((entry) => [entry.id as string, entry])),
        withdrawn: new Set(
          read.withdrawals.filter(({ withdrawn }) => withdrawn).map(({ entry }) => entry as string),
        ),
        marks,
        texts,
        pieces: new Map<string, readonly Piece[]>(read.texts.map(({ node, pieces }) => [node, pieces])),
        machines: [],
      }
      const procedures = read.procedures.map((procedure) => ({
        procedure,
        steps: read.steps.filter((step) => step.procedure === procedure.id),
        parts: read.parts.filter((part) => part.procedure === procedure.id),
        parameters: read.parameters.filter((one) => one.procedure === procedure.id),
        leftOut: read.leftOut.filter((one) => one.procedure === procedure.id),
        links: read.links,
        states: new Map(read.linkStates.map((state) => [state.link as string, state])),
      }))
      return { title, journal, procedures, revisions }
    }),
  )
}

/** That a person says how an entry's commands ended. */
export function markOf(entry: Entry, set: Outcome | null): Mark {
  return {
    id: around.ids.make(),
    entry: entry.id,
    moment: around.clock.now(),
    says: { kind: 'outcome', command: null, set, was: null },
  }
}

/** A journal of entries that say what is given, in order. */
export function journalOf(inputs: readonly Omit<EntryInput, 'project'>[]): JournalRecords & {
  readonly revisions: ReadonlyMap<string, RevisionId>
  readonly list: readonly Entry[]
} {
  const project = around.ids.make<ProjectId>()
  const made = inputs.map((input) => ({
    ...entryOperations(around, { ...input, project }),
    text: input.text,
  }))
  return {
    list: made.map(({ entry }) => entry),
    entries: new Map(made.map(({ entry }) => [entry.id as string, entry])),
    withdrawn: new Set(),
    marks: new Map(),
    texts: new Map(made.map(({ entry, text }) => [entry.id as string, text])),
    pieces: new Map(
      made.map(({ entry, revision, text }) => [
        entry.id as string,
        text === '' ? [] : [{ revision, start: 0, end: text.length }],
      ]),
    ),
    machines: [],
    revisions: new Map(made.map(({ entry, revision }) => [entry.id as string, revision])),
  }
}

/** A step's parts by their texts. */
export type StepTexts = Partial<Record<StepPartKind, string>> & { readonly place?: Step['place'] }

/** A procedure of such steps, with the texts of its parts. */
export function procedureOf(steps: readonly StepTexts[], links: readonly Link[] = []) {
  const { procedure } = addProcedure(around, around.ids.make<ProjectId>(), 'Test')
  const texts = new Map<string, string>()
  const rows: Step[] = []
  const parts: Part[] = []
  steps.forEach(({ place = null, ...kinds }, n) => {
    const step = { ...newStep(around, procedure.id, `a${n.toString(36)}`), place }
    rows.push(step)
    for (const [kind, text] of Object.entries(kinds) as [StepPartKind, string][]) {
      const part = newPart(around, step, kind)
      beginPart(around, part, text)
      parts.push(part)
      texts.set(part.id, text)
    }
  })
  const records: ProcedureRecords = {
    ...{ procedure, steps: rows, parts, parameters: [], leftOut: [], links },
    states: new Map(),
  }
  return { records, texts }
}

/** A journal that knows a procedure's texts too. */
export function withTexts(journal: JournalRecords, texts: ReadonlyMap<string, string>): JournalRecords {
  return { ...journal, texts: new Map([...journal.texts, ...texts]) }
}

/** A command as an action's text. */
export const ran = (
  command: string,
  exitCode: number | null = 0,
  place: EntryInput['place'] = null,
): Omit<EntryInput, 'project'> => ({
  kind: 'action',
  text: `\`\`\`\`sh\n${command}\n\`\`\`\``,
  place,
  ran: { exitCode, started: null, ended: null, log: 'test' },
})
