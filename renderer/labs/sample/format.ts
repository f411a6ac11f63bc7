/** The shape of the sample's content. */
import type {
  EntryKind,
  FileState,
  Place,
  ProcedurePartKind,
  ProjectStatus,
  StepPartKind,
} from '../../../shared/lab/model.ts'

export interface SampleLab {
  readonly name: string
  readonly projects: readonly SampleProject[]
  readonly sources: readonly SampleSource[]
}

export interface SampleSource {
  readonly key: string
  readonly title: string
  readonly address: string | null
  readonly mediaType: 'text/markdown' | 'text/html' | 'text/plain'
  /** RFC 3339 with offset. */
  readonly added: string
  readonly projects: readonly string[]
  readonly original: string
}

export interface SampleProject {
  readonly key: string
  readonly title: string
  readonly aim: string
  readonly status: ProjectStatus
  readonly created: string
  readonly entries: readonly SampleEntry[]
  readonly procedures: readonly SampleProcedure[]
}

export interface SampleEntry {
  readonly key: string
  readonly kind: EntryKind
  readonly moment: string
  readonly text: string
  /** Of a file entry. */
  readonly file?: Pick<FileState, 'path' | 'owner' | 'group' | 'mode'>
  /** Its commands failed; without it those of an action or a fix succeeded. */
  readonly failed?: true
  readonly carries?: readonly SampleCarry[]
  /** Key of the problem that this fix or decision ended. */
  readonly answers?: string
  readonly amended?: readonly { readonly moment: string; readonly text: string }[]
  readonly withdrawn?: string
}

export interface SampleProcedure {
  readonly key: string
  readonly created: string
  readonly title: string
  readonly purpose: string
  /** Parts of the procedure itself beside its title and purpose. */
  readonly own?: readonly {
    readonly kind: ProcedurePartKind
    readonly moment: string
    readonly text: string
  }[]
  readonly steps: readonly SampleStep[]
  readonly silences?: readonly SampleSilence[]
  readonly leftOut?: readonly SampleLeftOut[]
}

/** Commands of the journal that have no place in the procedure, for one reason. */
export interface SampleLeftOut {
  readonly moment: string
  readonly reason: string
  /** The entry's key, and words of its commands, each once in its text. */
  readonly commands: readonly { readonly entry: string; readonly words: readonly string[] }[]
}

/** A finding of the review that is passed over. */
export interface SampleSilence {
  readonly moment: string
  readonly rule: string
  /** The step's number, from 1; null for the procedure as a whole. */
  readonly step: number | null
  readonly words: string
  readonly reason: string
}

/** Where a step happens, from there on; a machine goes by its name. */
export type SamplePlace = Partial<Omit<Place, 'machine'>>

export interface SampleStep {
  readonly place?: SamplePlace
  readonly parts: readonly {
    readonly kind: StepPartKind
    readonly moment: string
    readonly text: string
    readonly carries?: readonly SampleCarry[]
  }[]
}

export interface SampleCarry {
  readonly from: { readonly source: string } | { readonly entry: string }
  /** Exact substring of the older text, unique in it. */
  readonly words: string
  /** Where it stands in the newer text when it was reworded there. */
  readonly as?: string
}
