/** The words of what was found, picked so that they can be carried. */
import type { Fragment } from '../../shared/distil/fragment.ts'
import type { AnswerPassage } from '../../shared/find/ask/answerer.ts'
import type { CaptureId, EntryId, PartId, SourceId } from '../../shared/lab/ids.ts'
import type { Range } from '../../shared/lab/model.ts'
import { fail, succeed, type Result } from '../../shared/lab/result.ts'
import { fragmentOfEntry, WITHDRAWN_SENTENCE } from '../panes/journal/entryFragment.ts'
import { pickFromPart } from '../panes/procedure/pick.ts'
import { fragmentOf as citationOf } from '../panes/sources/carryingSource.ts'
import { pickFromCapture } from '../panes/sources/picking.ts'
import type { Workspace } from '../store/workspace.ts'
import type { FoundRow } from './groups.ts'
import { paragraphAround } from './paragraph.ts'

const gone = fail('gone', 'It stands no more. Nothing was carried.')
const empty = fail('empty', 'It holds no words to carry.')

/** The fragment of a row; else a sentence that says why it has none. */
export async function fragmentOf(workspace: Workspace, row: FoundRow): Promise<Result<Fragment>> {
  if (row.is === 'command') {
    const { entry, range } = row.command.runs[0]!
    return ofEntry(workspace, entry, [range])
  }
  if (row.is === 'answer') return ofPassage(workspace, row.passage)
  if (row.is === 'answer step')
    return fail('no words', 'This is the step in short. Go to it and carry from it.')
  if (row.is !== 'hit') return fail('no words', 'An act of the program holds no words to carry.')
  const { goal, title } = row.hit
  switch (goal.kind) {
    case 'node':
      break
    case 'procedure':
    case 'parameter':
    case 'version':
      return fail('no words', 'A procedure is carried step by step. Open it and carry from it.')
    case 'project':
      return fail('no words', 'A project is not carried as a whole. Open it and carry from it.')
    case 'machine':
      return fail('no words', 'A machine is no text. Say it as the place of a step or an entry.')
  }
  const { node, ranges } = goal
  switch (node.kind) {
    case 'entry':
      return ofEntry(workspace, node.id, null)
    case 'part':
      return ofPart(workspace, node.id, row.hit.procedure?.title ?? title)
    case 'capture':
      return ofCapture(workspace, node.id, ranges)
    case 'source':
      return ofSource(workspace, node.id)
  }
}

/** @param ranges null for all of it */
async function ofEntry(
  workspace: Workspace,
  id: EntryId,
  ranges: readonly Range[] | null,
): Promise<Result<Fragment>> {
  const { queries } = workspace.requireLab()
  const [matter] = await queries.entryMatters([id])
  if (!matter) return gone
  const { entry, text, isWithdrawn } = matter
  if (isWithdrawn) return fail('withdrawn', WITHDRAWN_SENTENCE)
  const fragment = fragmentOfEntry(workspace, entry, text, ranges ?? [{ start: 0, end: text.length }])
  return fragment ? succeed(fragment) : empty
}

function ofPassage(workspace: Workspace, { node, range, title }: AnswerPassage): Promise<Result<Fragment>> {
  switch (node?.kind) {
    case 'entry':
      return ofEntry(workspace, node.id, [range])
    case 'part':
      return ofPart(workspace, node.id, title, [range])
    case 'capture':
      return ofCapture(workspace, node.id, [range])
    case 'source':
      return ofSource(workspace, node.id)
    case undefined:
      return Promise.resolve(empty)
  }
}

async function ofPart(
  workspace: Workspace,
  id: PartId,
  title: string,
  ranges?: readonly Range[],
): Promise<Result<Fragment>> {
  const lab = workspace.requireLab()
  const part = await lab.queries.findPart(id)
  const text = (await lab.queries.standing(id))?.text
  if (!part || text === undefined) return gone
  const fragment = pickFromPart(lab.id, part, text, title, ranges)
  return fragment ? succeed(fragment) : empty
}

/** The paragraph in which the first words stand; of a source that was found by its title alone the whole, as a citation. */
async function ofCapture(
  workspace: Workspace,
  id: CaptureId,
  ranges: readonly Range[],
): Promise<Result<Fragment>> {
  const lab = workspace.requireLab()
  const capture = await lab.queries.findCapture(id)
  if (!capture) return gone
  const [first] = ranges
  if (!first) return ofSource(workspace, capture.source)
  const source = await lab.queries.findSource(capture.source)
  if (!source) return gone
  const fragment = pickFromCapture(lab.id, source, capture, [paragraphAround(capture.text, first)])
  return fragment ? succeed(fragment) : empty
}

async function ofSource(workspace: Workspace, id: SourceId): Promise<Result<Fragment>> {
  const source = await workspace.requireLab().queries.findSource(id)
  return source ? succeed(citationOf(workspace, source)) : gone
}
