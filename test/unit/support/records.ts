/** What stands in a lab, and what of it random numbers pick: a fragment, a landing place. */
import type { OpenLab } from '../../../renderer/db/lab.ts'
import type { Landing } from '../../../shared/distil/carry.ts'
import { pickFragment, pickSource, type Fragment } from '../../../shared/distil/fragment.ts'
import * as acts from '../../../shared/lab/acts.ts'
import type * as model from '../../../shared/lab/model.ts'

export interface Move {
  readonly kind: number
  readonly a: number
  readonly b: number
  readonly c: number
  readonly text: string
}

/** The tables as they stand, typed. */
export interface Records {
  projects: model.Project[]
  sources: model.Source[]
  captures: model.Capture[]
  captureHeads: model.CaptureHead[]
  folders: model.Folder[]
  verdicts: model.Verdict[]
  blobs: model.Blob[]
  entries: model.Entry[]
  withdrawals: model.Withdrawal[]
  procedures: model.Procedure[]
  steps: model.Step[]
  parts: model.Part[]
  parameters: model.Parameter[]
  versions: model.Version[]
  remarks: model.Remark[]
  silences: model.Silence[]
  leftOut: model.LeftOut[]
  fetches: model.Fetch[]
  links: model.Link[]
  linkStates: model.LinkState[]
  texts: model.TextRecord[]
  revisions: model.Revision[]
  drafts: model.Draft[]
}

export const recordsOf = async (lab: OpenLab): Promise<Records> => (await lab.dump()) as unknown as Records

export const pick = <T>(list: readonly T[], at: number): T | undefined => list[at % Math.max(1, list.length)]
export const byId = <T extends { id: string }>(list: T[]): T[] => list.sort((x, y) => (x.id < y.id ? -1 : 1))

export function standing(records: Records, node: model.TextNodeId): acts.StandingText & { text: string } {
  const text = records.texts.find((record) => record.node === node)!.text
  const last = records.revisions
    .filter((revision) => revision.node === node)
    .reduce((newest, next) => (next.number > newest.number ? next : newest))
  return { text, revision: last.id }
}

export function rangeIn(text: string, a: number, b: number): model.Range {
  const [x, y] = [a % (text.length + 1), b % (text.length + 1)]
  return { start: Math.min(x, y), end: Math.max(x, y) }
}

/** Entries that were not withdrawn. */
export function standingEntries({ entries, withdrawals }: Records): model.Entry[] {
  const last = new Map(byId([...withdrawals]).map((withdrawal) => [withdrawal.entry, withdrawal.withdrawn]))
  return entries.filter(({ id }) => !last.get(id))
}

export function fragmentOf(lab: OpenLab, records: Records, { a, b, c }: Move): Fragment | null {
  const base = { lab: lab.id, title: 'A page', address: 'https://example.org/a' }
  const captures = byId([...records.captures])
  const entries = byId(standingEntries(records))
  const parts = byId([...records.parts])
  const all = [...captures, ...entries, ...parts]
  const node = pick(all, c)
  if (!node) return null
  if ('sha256' in node) {
    if (a % 5 === 0) return pickSource({ ...base, node: { kind: 'source', id: node.source } })
    const from = { ...base, node: { kind: 'capture', id: node.id } as const, revision: node.revision }
    return pickFragment({ ...from, origin: { kind: 'source' }, text: node.text }, [rangeIn(node.text, a, b)])
  }
  const { text, revision } = standing(records, node.id)
  const two = rangeIn(text, a, b)
  const middle = (two.start + two.end) >> 1
  const ranges =
    c % 3 === 0 && two.end - two.start > 5
      ? [
          { start: two.start, end: middle - 1 },
          { start: middle + 1, end: two.end },
        ]
      : [two]
  if ('moment' in node)
    return pickFragment(
      {
        ...base,
        node: { kind: 'entry', id: node.id },
        revision,
        origin: { kind: 'entry', entryKind: node.kind },
        text,
      },
      ranges,
    )
  return pickFragment(
    {
      ...base,
      node: { kind: 'part', id: node.id },
      revision,
      origin: { kind: 'part', partKind: node.kind },
      text,
    },
    ranges,
  )
}

export function landingOf(records: Records, { a, b, text }: Move): Landing | null {
  const project = pick(byId([...records.projects]), b)
  const procedure = pick(byId([...records.procedures]), b)
  const step = pick(byId([...records.steps]), b)
  const kind = pick(['caution', 'do', 'expect', 'if it fails', 'why'] as const, a)!
  switch ((a + text.length) % 4) {
    case 0:
      return project ? { at: 'journal', project: project.id, kind: 'observation' } : null
    case 1: {
      if (!procedure) return null
      const steps = records.steps.filter((other) => other.procedure === procedure.id)
      const position = acts.positionAfter(steps, pick([null, ...steps], a) ?? null)
      return { at: 'new step', procedure: procedure.id, position, kind }
    }
    case 2:
      return step && !records.parts.some((part) => part.step === step.id && part.kind === kind)
        ? { at: 'new part', step, kind }
        : null
    default: {
      const part = pick(byId(records.parts.filter((other) => other.step !== null)), b)
      if (!part) return null
      const now = standing(records, part.id)
      return { at: 'text', part, text: now, offset: rangeIn(now.text, a, a).start }
    }
  }
}
