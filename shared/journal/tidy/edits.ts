/** What tidying proposes: small replacements in the raw text, each to be taken or left by itself. */

/** A replacement in the raw text: `text.slice(from, to)` becomes `insert`. UTF-16 code units. */
export interface Replacement {
  readonly from: number
  readonly to: number
  readonly insert: string
}

export type EditKind =
  'command' | 'output' | 'heading' | 'list' | 'tasks' | 'blank lines' | 'spacing' | 'trailing blanks'

/**
 * One thing that tidying would do. Its replacements go together (a fence has two ends); they are in order and do not
 * overlap, neither with each other nor with those of any other edit of the same text. They leave alone what they do
 * not change, so that the characters around keep their identity.
 */
export interface Edit {
  readonly kind: EditKind
  /** What it does, in a few plain words. */
  readonly says: string
  readonly replacements: readonly Replacement[]
}

const words: Readonly<Record<EditKind, string>> = {
  command: 'Set a command apart',
  output: 'Set an output apart',
  heading: 'Write the heading as one',
  list: 'Write the list with one sign',
  tasks: 'Make boxes to tick',
  'blank lines': 'Set blank lines right',
  spacing: 'Set the spaces between words right',
  'trailing blanks': 'Take blanks off the ends of lines',
}

export function toEdit(kind: EditKind, replacements: readonly Replacement[], says = words[kind]): Edit {
  return { kind, says, replacements }
}

/** The text with some of its edits taken. In which order they are given does not matter. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  return applyReplacements(text, replacementsOf(edits))
}

/** All replacements of some edits in the order of the text; at one place, what only inserts comes first. */
export function replacementsOf(edits: readonly Pick<Edit, 'replacements'>[]): Replacement[] {
  return edits.flatMap(({ replacements }) => replacements).sort((a, b) => a.from - b.from || a.to - b.to)
}

/** @throws Error where replacements overlap or are out of order: edits of two different texts were mixed */
export function applyReplacements(text: string, replacements: readonly Replacement[]): string {
  let result = ''
  let at = 0
  for (const { from, to, insert } of replacements) {
    if (from < at || to < from || to > text.length) throw new Error(`edits cross at ${from}`)
    result += text.slice(at, from) + insert
    at = to
  }
  return result + text.slice(at)
}

/** Where an edit begins, for listing edits in the order of the text. */
export function startOfEdit({ replacements }: Pick<Edit, 'replacements'>): number {
  return replacements[0]?.from ?? 0
}
