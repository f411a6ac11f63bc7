/**
 * The things of a lab as documents of the index: which of their fields are words, and by which facts they are filtered. What
 * was merged into something else is no document of its own; what was withdrawn says that it was. Texts are taken as they stand now, so that what was
 * struck out is not among them.
 */
import { fileOf, momentOf, placeOf } from '../../journal/entry-facts.ts'
import type {
  Entry,
  FileState,
  Machine,
  Mark,
  Parameter,
  Part,
  Place,
  Procedure,
  Project,
  Remark,
  Source,
  Step,
  Version,
} from '../../lab/model.ts'
import { instantOf } from '../../lab/moment.ts'
import type { FindDocument, FoundThing } from '../document.ts'

/** Machines by their ids: places name them. */
export type MachineNames = ReadonlyMap<string, Pick<Machine, 'name' | 'aliases'>>

/** @param newest the text of its newest capture; null for a link without text */
export function documentOfSource(source: Source, newest: string | null): FindDocument {
  const { id, title, address, author, remark, tags, kind, projects, added } = source
  return {
    id,
    thing: 'source',
    title,
    technical: address === null ? [] : [address],
    tags,
    text: paragraphs([remark, author ?? '', newest ?? '']),
    facts: { kind, projects, places: [], moment: instantOf(added), isWithdrawn: false },
  }
}

export interface EntryMatter {
  readonly entry: Entry
  readonly text: string
  /** In the order in which they were set. */
  readonly marks: readonly Mark[]
  readonly tags: readonly string[]
  readonly isWithdrawn: boolean
}

/** A problem and the state of a file are things of their own. */
export function documentOfEntry(
  { entry, text, marks, tags, isWithdrawn }: EntryMatter,
  names: MachineNames,
): FindDocument {
  const { id, kind, project } = entry
  const file = fileOf(entry, marks)
  const commands = kind === 'action' || kind === 'fix' ? fencedIn(text) : []
  return {
    id,
    thing: thingOfEntry(entry),
    title: '',
    technical: [...commands, ...pathsOf(file)],
    tags,
    text,
    facts: {
      kind,
      projects: [project],
      places: [...wordsOfPlace(placeOf(entry, marks), names), ...pathsOf(file)],
      moment: instantOf(momentOf(entry, marks)),
      isWithdrawn,
    },
  }
}

/** What an entry is found as. */
export function thingOfEntry({ kind }: Pick<Entry, 'kind'>): FoundThing {
  return kind === 'problem' || kind === 'file' ? kind : 'entry'
}

/** Whether what was found so is an entry. */
export function isFoundEntry(thing: FoundThing): boolean {
  return thing === 'entry' || thing === 'problem' || thing === 'file'
}

/** What a machine is known by beside its name. */
export function signsOfMachine({
  aliases,
  addresses,
  serials,
  disks,
}: Pick<Machine, 'aliases' | 'addresses' | 'serials' | 'disks'>): string[] {
  return [...aliases, ...addresses, ...serials, ...disks]
}

/** A part of a procedure or step with its text. */
export interface PartMatter {
  readonly part: Part
  readonly text: string
}

/** A procedure with all that is said of it as a whole; what its steps say is theirs. All in any order. */
export interface ProcedureMatter {
  readonly procedure: Procedure
  readonly parts: readonly PartMatter[]
  readonly parameters: readonly Parameter[]
  /** What a version says itself. Its texts are earlier states, of which only the last is looked for. */
  readonly versions: readonly Pick<Version, 'number' | 'line'>[]
}

export function documentOfProcedure(
  { procedure: { id, project, created, place }, parts, parameters, versions }: ProcedureMatter,
  names: MachineNames,
): FindDocument {
  const own = parametersInOrder(parameters)
  const helps = own.map(({ help }) => help)
  const lines = versionsInOrder(versions).map(({ line }) => line)
  return {
    id,
    thing: 'procedure',
    ...titleAndText(parts, 'title', [...helps, ...lines]),
    technical: own.flatMap((parameter) => [parameter.name, ...valuesOfParameter(parameter)]),
    tags: [],
    facts: {
      kind: null,
      projects: [project],
      places: wordsOfPlace(place, names),
      moment: instantOf(created),
      isWithdrawn: false,
    },
  }
}

/**
 * The values by which a parameter is known: an example, what is taken where nothing is entered, what stood in the texts
 * before, the only ones that will do and the network that they lie in. Each once. None of a secret is kept.
 */
export function valuesOfParameter({ example, preset, carried, rule }: Parameter): string[] {
  const values = [preset, example, carried ?? '', ...(rule?.allowed ?? []), rule?.within ?? '']
  return [...new Set(values)].filter((value) => value !== '')
}

/** @returns in the order of their ids */
export function parametersInOrder(parameters: readonly Parameter[]): Parameter[] {
  return [...parameters].sort((one, other) => (one.id < other.id ? -1 : 1))
}

/** @returns the first one first */
export function versionsInOrder<V extends Pick<Version, 'number'>>(versions: readonly V[]): V[] {
  return [...versions].sort((one, other) => one.number - other.number)
}

/** A step with all that is said of it. */
export interface StepMatter {
  readonly step: Step
  readonly procedure: Pick<Procedure, 'project'>
  readonly parts: readonly PartMatter[]
  /** Those that are settled too. In any order. */
  readonly remarks: readonly Pick<Remark, 'id' | 'text'>[]
}

/**
 * When a step was written is not told by it, so that it stands under no time.
 * @param place where it happens, be it said by itself or by a row before
 */
export function documentOfStep(
  { step: { id }, procedure: { project }, parts, remarks }: StepMatter,
  place: Place | null,
  names: MachineNames,
): FindDocument {
  const paths = parts.flatMap(({ part }) => pathsOf(part.file))
  const commands = parts.flatMap(({ part, text }) => (part.kind === 'do' ? fencedIn(text) : []))
  return {
    id,
    thing: 'step',
    ...titleAndText(parts, 'heading', remarksInOrder(remarks)),
    technical: [...commands, ...paths],
    tags: [],
    facts: {
      kind: null,
      projects: [project],
      places: [...wordsOfPlace(place, names), ...paths],
      moment: null,
      isWithdrawn: false,
    },
  }
}

export function documentOfProject({ id, title, aim, tags, created }: Project): FindDocument {
  return {
    id,
    thing: 'project',
    title,
    technical: [],
    tags,
    text: aim,
    facts: { kind: null, projects: [id], places: [], moment: instantOf(created), isWithdrawn: false },
  }
}

export function documentOfMachine(machine: Machine): FindDocument {
  const { id, name, aliases, notes, created } = machine
  return {
    id,
    thing: 'machine',
    title: name,
    technical: signsOfMachine(machine),
    tags: [],
    text: notes,
    facts: {
      kind: null,
      projects: [],
      places: [name, ...aliases],
      moment: instantOf(created),
      isWithdrawn: false,
    },
  }
}

/** A machine by every name that it has, then host, user and directory. */
function wordsOfPlace(place: Place | null, names: MachineNames): string[] {
  if (!place) return []
  const machine = place.machine === null ? undefined : names.get(place.machine)
  const own = machine ? [machine.name, ...machine.aliases] : []
  const said = [place.host, place.user, place.directory].flatMap((word) => word ?? [])
  return [...new Set([...own, ...said])].filter((word) => word !== '')
}

function pathsOf(file: FileState | null): string[] {
  return file && file.path !== '' ? [file.path] : []
}

/** What stands between fences (CommonMark 0.31.2 §4.5): of an action that is what was run. */
function fencedIn(text: string): string[] {
  return [...text.matchAll(/^(`{3,}|~{3,})[^\n]*\n([^]*?)^\1/gm)].map(([, , inside]) => inside!)
}

/** Parts in the order of their ids, so that a document does not depend on how its parts were read. */
function titleAndText(
  parts: readonly PartMatter[],
  titleKind: Part['kind'],
  more: readonly string[] = [],
): Pick<FindDocument, 'title' | 'text'> {
  const sorted = partsInOrder(parts)
  const others = sorted.filter(({ part }) => part.kind !== titleKind)
  return {
    title: sorted.find(({ part }) => part.kind === titleKind)?.text ?? '',
    text: paragraphs([...others.map(({ text }) => text), ...more]),
  }
}

/** @returns in the order of their ids */
export function partsInOrder(parts: readonly PartMatter[]): PartMatter[] {
  return [...parts].sort((one, other) => (one.part.id < other.part.id ? -1 : 1))
}

/** The texts of remarks, the oldest first. */
export function remarksInOrder(remarks: readonly Pick<Remark, 'id' | 'text'>[]): string[] {
  return [...remarks].sort((one, other) => (one.id < other.id ? -1 : 1)).map(({ text }) => text)
}

function paragraphs(texts: readonly string[]): string {
  return texts.filter((text) => text !== '').join('\n\n')
}
