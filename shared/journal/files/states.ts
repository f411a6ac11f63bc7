/** The states that a file went through, by the entries about its path. */
import type { FileState } from '../../lab/model.ts'
import { fail, succeed, type Failure, type Result } from '../../lab/result.ts'
import { applyUnified, type DiffFailure } from './apply.ts'
import { contentOf, diffOf } from './content.ts'
import { unifiedDiff } from './unified.ts'

/** A file entry: its text, and what its record says beside it. */
export interface FileEntry {
  readonly text: string
  readonly state: FileState
}

export type StateFailure = DiffFailure | Failure<'no fence' | 'bytes' | 'no state before'>

/** The content after each entry about one path, in the order given, where it can be computed. */
export function statesOfPath(entries: readonly FileEntry[]): Result<string, StateFailure>[] {
  const states: Result<string, StateFailure>[] = []
  for (const entry of entries) states.push(stateAfter(entry, states.at(-1)))
  return states
}

function stateAfter(
  { text, state }: FileEntry,
  before?: Result<string, StateFailure>,
): Result<string, StateFailure> {
  if (state.blob !== null)
    return fail('bytes', 'This state is kept as bytes, which have no lines to compare.')
  if (state.form === 'content') {
    const content = contentOf(text, state)
    return content === undefined ? noFence : succeed(content)
  }
  const diff = diffOf(text)
  if (diff === undefined) return noFence
  if (!before?.ok && !isOfNewFile(diff))
    return fail(
      'no state before',
      'The state before is not known as a whole, so only the difference can be shown.',
    )
  const after = applyUnified(before?.ok ? before.value.replace(/\r\n/g, '\n') : '', diff)
  return after.ok && state.lineEnds === 'crlf' ? succeed(after.value.replace(/\n/g, '\r\n')) : after
}

const noFence = fail(
  'no fence',
  'This entry holds no fence with a content. Put the content between two lines of ```.',
)

/** A diff against nothing holds the whole content. */
const isOfNewFile = (diff: string): boolean => /^--- .*\n\+\+\+ .*\n@@ -0,0 /m.test(diff)

/** The difference between two states of a path as `diff -u` gives it; empty where they are equal. */
export function diffOfStates(before: string, after: string, path: string): string {
  return unifiedDiff(before, after, path)
}
