/** Splitting, joining and pasting, from what stands in the lab to the Change. */
import type { Surroundings } from '../../shared/lab/acts.ts'
import type { Change } from '../../shared/lab/change.ts'
import type { PartId } from '../../shared/lab/ids.ts'
import type { Part, Place, Remark, Step } from '../../shared/lab/model.ts'
import { fail, type Result } from '../../shared/lab/result.ts'
import type { CutWords } from '../../shared/procedure/moving/cut.ts'
import { joinSteps, movePart, type JoiningPart } from '../../shared/procedure/moving/join.ts'
import { pasteCut } from '../../shared/procedure/moving/paste.ts'
import { splitStep, type Split, type Splitting } from '../../shared/procedure/moving/split.ts'
import type { Queries } from '../db/queries.ts'

/** What is read of a lab. */
export interface LabRead {
  readonly queries: Queries
  readonly surroundings: Surroundings
}

const gone = fail('moved', 'The text was removed in another window. Nothing was changed.')

export async function changeOfSplit(
  { queries, surroundings }: LabRead,
  splitting: Omit<Splitting, 'text' | 'links'>,
): Promise<Result<Split>> {
  const text = await queries.standing(splitting.part.id)
  if (!text) return gone
  const links = await queries.standingLinks(splitting.part.id)
  const at = Math.min(splitting.at, text.text.length)
  return splitStep(surroundings, { ...splitting, at, text, links })
}

/** A row with its parts. */
export interface RowToJoin {
  readonly step: Step
  readonly parts: readonly Part[]
  readonly place: Place | null
}

/**
 * @param second the row right behind the first
 * @param referring parts of other rows that may speak of it
 */
export async function changeOfJoin(
  lab: LabRead,
  first: RowToJoin,
  second: RowToJoin,
  remarks: readonly Remark[],
  referring: readonly PartId[] = [],
): Promise<Result<Change>> {
  const [own, others] = [await standingParts(lab, first.parts), await standingParts(lab, second.parts)]
  if (!own || !others) return gone
  const speaking = await Promise.all(
    referring.map(async (part) => ({ part, text: await lab.queries.standing(part) })),
  )
  return joinSteps(
    lab.surroundings,
    { ...first, parts: own },
    { ...second, parts: others },
    remarks,
    speaking.flatMap(({ part, text }) => (text ? [{ part, text }] : [])),
  )
}

/** @param own the part of its kind that the step has */
export async function changeOfPartMove(
  lab: LabRead,
  part: Part,
  to: Step,
  own: Part | null,
): Promise<Result<Change>> {
  const standing = await standingParts(lab, own ? [part, own] : [part])
  if (!standing) return gone
  return movePart(lab.surroundings, standing[0]!, to, standing[1] ?? null)
}

async function standingParts({ queries }: LabRead, parts: readonly Part[]): Promise<JoiningPart[] | null> {
  const standing = await Promise.all(
    parts.map(async (part) => {
      const text = await queries.standing(part.id)
      return text ? { part, text, links: await queries.standingLinks(part.id) } : null
    }),
  )
  return standing.every((one) => one !== null) ? standing : null
}

/** @returns null where the words cannot be known again, or the part is gone */
export async function changeOfPaste(
  { queries, surroundings }: LabRead,
  cut: CutWords,
  part: Part,
  offset: number,
): Promise<Change | null> {
  const [text, record] = [await queries.standing(part.id), await queries.findText(part.id)]
  if (!text || !record) return null
  const links = await queries.standingLinks(cut.part)
  const standing = new Set(links.map(({ link }) => link.id))
  const gone = cut.links.filter((id) => !standing.has(id))
  const past = (await queries.goneLinks(gone)).filter((link) => link.newer.node.id === cut.part)
  const from = { revisions: await queries.revisions(cut.part), links, past }
  const to = { part, text, pieces: record.pieces, offset: Math.min(offset, text.text.length) }
  return pasteCut(surroundings, cut, from, to)
}
