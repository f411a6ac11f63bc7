/**
 * Plays random acts on a lab. Each move is a handful of numbers and a text; what they do depends on what stands in the
 * lab, so that every move fits and a shrunk list of moves still plays.
 */
import fc from 'fast-check'
import type { OpenLab } from '../../../renderer/db/lab.ts'
import { carry } from '../../../shared/distil/carry.ts'
import * as acts from '../../../shared/lab/acts.ts'
import type { Change } from '../../../shared/lab/change.ts'
import * as model from '../../../shared/lab/model.ts'
import { changeBetween } from '../../../shared/lab/text.ts'
import { findOccurrences } from '../../../shared/procedure/values/occurrences.ts'
import {
  byId,
  fragmentOf,
  landingOf,
  pick,
  rangeIn,
  recordsOf,
  standing,
  standingEntries,
  type Move,
  type Records,
} from './records.ts'

export { recordsOf, standing, standingEntries, type Move, type Records } from './records.ts'

/** Texts with what is likely to go wrong: repeated words, line ends, fences, characters beyond the first plane. */
export const words = fc
  .array(
    fc.constantFrom(
      'dump',
      'disk',
      ' ',
      ' ',
      '\n',
      '```',
      '> ',
      '\t',
      '🔭',
      '\u0301',
      '\u202e',
      'a',
      '█',
      '#',
    ),
    { maxLength: 8 },
  )
  .map((parts) => parts.join(''))

const natural = fc.nat({ max: 997 })
export const moves = (maxLength: number) =>
  fc.array(fc.record({ kind: natural, a: natural, b: natural, c: natural, text: words }), { maxLength })

function standingPart(records: Records, part: model.Part): acts.StandingPart {
  const links = records.links.filter((link) => link.newer.node.id === part.id)
  return { part, text: standing(records, part.id), links }
}

/** Tags, folders, merging: what sorts sources. */
function sortingChange(lab: OpenLab, records: Records, { a, b, c, text }: Move): Change | null {
  const around = lab.surroundings
  const sources = byId([...records.sources])
  const folders = byId([...records.folders])
  const source = pick(sources, b)
  const folder = pick(folders, c)
  if (a % 6 === 0 || !source) return acts.addFolder(around, text, folder?.id ?? null).change
  if (a % 6 === 1)
    return acts.changeSources(around, sources, (one) =>
      one.id < source.id ? null : { tags: [...new Set([...one.tags, text])], setAside: b % 2 === 0 },
    )
  if (a % 6 === 2)
    return acts.changeSource(around, source, { folders: folder ? [folder.id] : [], remark: text })
  if (a % 6 === 3) return folder ? acts.removeFolder(around, folder, folders, sources) : null
  if (a % 6 === 4) return acts.judgeTag(around, { kind: 'source', record: source }, text, c % 2 === 0, 0.5)
  const other = pick(sources, c)
  return other && other.id !== source.id ? acts.mergeSources(around, source, [other], sources) : null
}

/** The Change of one random act, or null where nothing that it needs stands. */
export async function changeOf(lab: OpenLab, move: Move): Promise<Change | null> {
  const around = lab.surroundings
  const records = await recordsOf(lab)
  const { kind, a, b, c, text } = move
  const project = pick(byId([...records.projects]), b)
  const procedure = pick(byId([...records.procedures]), b)
  const step = pick(byId([...records.steps]), b)
  const part = pick(byId([...records.parts]), b)
  if (!project) return acts.addProject(around, { title: 'Logger', aim: '', status: 'planned' }).change
  switch (kind % 26) {
    case 0: {
      const bytes = new TextEncoder().encode(text)
      const sha256 = (a % 7).toString(16).padStart(64, String(text.length))
      const capture = a % 4 === 0 ? null : { text, bytes, sha256, mediaType: 'text/plain' }
      const fields = { title: text, address: null, kind: 'text', wayIn: 'typed' } as const
      return acts.addSource(around, { ...fields, projects: [project.id], capture }).change
    }
    case 1: {
      const source = pick(byId([...records.sources]), b)
      return source ? acts.changeSource(around, source, a % 2 ? { title: text } : { projects: [] }) : null
    }
    case 2:
      return acts.changeProject(around, project, a % 2 ? { title: text } : { aim: text, status: 'done' })
    case 3:
      return acts.addEntry(around, { project: project.id, kind: 'action', text: `ran ${text}` }).change
    case 4: {
      const entries = byId(standingEntries(records))
      const [newer, older] = [pick(entries, a), pick(entries, b)]
      return newer && older ? acts.answerProblem(around, newer.id, older.id, 'button') : null
    }
    case 5:
    case 6: {
      const entry = pick(byId(standingEntries(records)), b)
      if (!entry) return null
      const now = standing(records, entry.id)
      const { start, end } = rangeIn(now.text, a, c)
      const next = now.text.slice(0, start) + text + now.text.slice(end)
      return acts.writeText(
        around,
        { kind: 'entry', id: entry.id },
        now.revision,
        changeBetween(now.text, next),
      ).change
    }
    case 7:
      return acts.addProcedure(around, project.id, text, 'To move the logger').change
    case 8: {
      if (!procedure) return null
      const steps = records.steps.filter((other) => other.procedure === procedure.id)
      const after = pick([null, ...steps], a) ?? null
      return acts.addStep(around, procedure.id, acts.positionAfter(steps, after)).change
    }
    case 9:
    case 10: {
      if (!part) return null
      const now = standing(records, part.id)
      const { start, end } = rangeIn(now.text, a, c)
      const next = now.text.slice(0, start) + text + now.text.slice(end)
      return acts.writeText(
        around,
        { kind: 'part', id: part.id },
        now.revision,
        changeBetween(now.text, next),
      ).change
    }
    case 11: {
      if (!step) return null
      const steps = records.steps.filter((other) => other.procedure === step.procedure)
      return acts.moveStep(around, step, acts.positionAfter(steps, pick([null, ...steps], a) ?? null, step))
    }
    case 12: {
      if (!step) return null
      const parts = records.parts.filter((other) => other.step === step.id)
      const standingParts = parts.map((other) => standingPart(records, other))
      return acts.removeStep(around, step, standingParts)
    }
    case 13: {
      const gone = pick(byId(records.parts.filter((other) => other.step !== null)), a)
      return gone ? acts.removePart(around, standingPart(records, gone)) : null
    }
    case 23:
      return procedure ? parameterChange(lab, records, procedure, move) : null
    case 24:
      return procedure ? besideChange(lab, records, procedure, move) : null
    case 25: {
      if (!step) return null
      const steps = records.steps.filter((other) => other.procedure === step.procedure)
      if (a % 3 === 0)
        return acts.changeStep(around, step, {
          level: model.stepLevels[c % 3]!,
          pointOfNoReturn: b % 2 === 0,
          place: { machine: null, host: text, user: null, directory: null },
        })
      const moving = new Set(steps.filter((_, i) => (a >> i) % 2 === 1).map(({ id }) => id))
      return acts.moveSteps(around, steps, moving, pick([null, ...steps], c) ?? null)
    }
    case 14:
    case 16:
    case 17:
    case 18:
      return sortingChange(lab, records, move)
    case 15: {
      const source = pick(byId([...records.sources]), b)
      if (!source) return null
      const bytes = new TextEncoder().encode(text)
      const sha256 = (a % 7).toString(16).padStart(64, String(text.length))
      const capture = { text, bytes, sha256, mediaType: 'text/plain' }
      const own = byId(records.captures.filter((one) => one.source === source.id))
      return acts.readAgain(around, source, own.at(-1) ?? null, { kind: 'text', wayIn: 'file', capture })
        .change
    }
    default: {
      const fragment = fragmentOf(lab, records, move)
      const landing = landingOf(records, move)
      return fragment && landing
        ? carry(around, fragment, landing, (a + b) % 3 === 0 ? 'copy' : 'drag').change
        : null
    }
  }
}

/** Making, renaming, changing and removing parameters. */
function parameterChange(
  lab: OpenLab,
  records: Records,
  procedure: model.Procedure,
  { a, b, c, text }: Move,
): Change | null {
  const around = lab.surroundings
  const own = byId(records.parameters.filter((one) => one.procedure === procedure.id))
  const texts = byId(records.parts.filter((one) => one.procedure === procedure.id)).map((part) => ({
    part: part.id,
    ...standing(records, part.id),
  }))
  const parameter = pick(own, b)
  if (parameter && a % 4 === 1)
    return acts.changeParameter(around, parameter, { help: text, example: `${c}` }, texts)
  if (parameter && a % 4 === 2) return acts.changeParameter(around, parameter, { name: `p-${c}` }, texts)
  if (parameter && a % 4 === 3) return acts.removeParameter(around, parameter, texts)
  const carried = pick(['dump', 'disk', 'a', '🔭'], c)!
  const isSecret = b % 5 === 0
  const places = texts.map((one) => ({
    ...one,
    ranges: findOccurrences(one.text, carried, 'free text').filter((_, i) => (a + i) % 3 > 0),
  }))
  const fields = { procedure: procedure.id, name: `v-${a}-${b}`, help: text, rule: null, position: 'a0' }
  const value = isSecret ? '' : carried
  return acts.makeParameter(
    around,
    {
      ...fields,
      type: isSecret ? 'secret' : 'free text',
      example: value,
      preset: value,
      carried: isSecret ? null : carried,
    },
    places,
  ).change
}

/** Versions, remarks, silences, what is left out, what was fetched. */
function besideChange(
  lab: OpenLab,
  records: Records,
  procedure: model.Procedure,
  { a, b, c, text }: Move,
): Change | null {
  const around = lab.surroundings
  const own = <T extends { procedure: string }>(list: T[]): T[] =>
    list.filter((one) => one.procedure === procedure.id)
  const step = pick(byId(own(records.steps)), b)
  switch (a % 6) {
    case 0: {
      const parts = byId(own(records.parts)).map((part) => ({
        part,
        revision: standing(records, part.id).revision,
      }))
      const whole = { procedure, steps: byId(own(records.steps)), parts, parameters: own(records.parameters) }
      const last = Math.max(0, ...own(records.versions).map(({ number }) => number))
      return acts.markVersion(around, whole, last, text).change
    }
    case 1:
      return step ? acts.addRemark(around, step, text).change : null
    case 2: {
      const remark = pick(byId(own(records.remarks)), b)
      if (!remark) return null
      return c % 2 ? acts.settleRemark(around, remark, c % 4 > 1) : acts.changeRemark(around, remark, text)
    }
    case 3: {
      const known = pick(byId(own(records.silences)), c)
      if (known && b % 2) return acts.hearAgain(around, known)
      return acts.silence(
        around,
        { procedure: procedure.id, rule: 'plain-verb', step: step?.id ?? null, words: text },
        text,
      ).change
    }
    case 4: {
      const known = pick(byId(own(records.leftOut)), c)
      const entry = pick(byId(standingEntries(records)), b)
      if (known && b % 2) return acts.takeInAgain(around, known)
      return entry
        ? acts.leaveOut(around, procedure.id, { entry: entry.id, command: null }, text).change
        : null
    }
    default: {
      const known = own(records.fetches)[0] ?? null
      return acts.tickDownload(around, procedure.id, 'package dump', known, {
        isFetched: b % 2 === 0,
        sha256: c % 2 ? 'f'.repeat(64) : null,
      })
    }
  }
}

/** A lab where something of every kind stands already, loaded as its sample: undo does not pass it. */
export async function beginStory(lab: OpenLab): Promise<void> {
  const around = lab.surroundings
  const { project, change } = acts.addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const bytes = new TextEncoder().encode('# Disk\n\nRun `dump` before the disk fails.\n')
  const source = acts.addSource(around, {
    title: 'Disks',
    address: 'https://example.org/disks',
    kind: 'markdown',
    wayIn: 'file',
    projects: [project.id],
    capture: {
      text: new TextDecoder().decode(bytes),
      bytes,
      sha256: 'e'.repeat(64),
      mediaType: 'text/markdown',
    },
  })
  const entry = acts.addEntry(around, {
    project: project.id,
    kind: 'action',
    text: 'Ran `dump` on the disk 🔭.',
  })
  const procedure = acts.addProcedure(around, project.id, 'Move the logger', 'So that it lasts')
  const step = acts.addStep(around, procedure.procedure.id, acts.positionAfter([], null))
  const all = [change, source.change, entry.change, procedure.change, step.change]
  const sample = acts.makeChange(
    around,
    'load the sample',
    all.flatMap(({ operations }) => operations),
  )
  const result = await lab.committer.commit(sample)
  if (!result.ok) throw new Error(result.sentence)
}

/** All that is shown: what undo and redo must bring back. */
export function presentOf(records: Records): unknown {
  const entries = standingEntries(records)
  const hidden = new Set<string>(records.entries.filter((e) => !entries.includes(e)).map(({ id }) => id))
  const texts = records.texts.filter(({ node }) => !hidden.has(node))
  const { projects, sources, captures, captureHeads, folders, verdicts, blobs } = records
  const { procedures, steps, parts, links, linkStates } = records
  const { parameters, versions, remarks, silences, leftOut, fetches } = records
  const sorting = {
    captureHeads,
    folders,
    verdicts,
    parameters,
    versions,
    remarks,
    silences,
    leftOut,
    fetches,
  }
  return {
    ...sorting,
    projects,
    sources,
    captures,
    blobs,
    entries,
    procedures,
    steps,
    parts,
    links,
    linkStates,
    texts,
  }
}
