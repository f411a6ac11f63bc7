/** Ways to plant a fault into a procedure that has none. */
import { proseOf } from '../../../../../shared/procedure/ease/prose.ts'
import { sentencesIn } from '../../../../../shared/procedure/ease/sentences.ts'
import { partsIn } from '../../../../../shared/procedure/review/document.ts'
import { readDocument } from '../../../../../shared/procedure/review/reading.ts'
import type {
  ReviewedDocument,
  ReviewedPart,
  ReviewedRow,
} from '../../../../../shared/procedure/review/types.ts'
import { reviewedPart } from '../../../../support/reviewed.ts'

export interface Planted {
  readonly document: ReviewedDocument
  /** The rows at which the rule must speak up, each; null for the procedure as a whole. */
  readonly steps: readonly (ReviewedRow['id'] | null)[]
  /** Words of which the rule must say something. */
  readonly words?: string
}

/** A part whose text was changed, and where in the text that it has now. */
export interface Changed {
  readonly part: ReviewedPart
  readonly step: ReviewedRow['id'] | null
  readonly from: number
  readonly to: number
}

/** The texts in which a planted document differs from the one before: those that are new, and those that read otherwise. */
export function changedTexts(before: ReviewedDocument, planted: ReviewedDocument): Changed[] {
  const old = new Map(partsIn(before).map((part) => [part.id, part.text]))
  const steps = new Map(planted.rows.flatMap(({ id, parts }) => parts.map((part) => [part.id, id])))
  return partsIn(planted).flatMap((part) => {
    const was = old.get(part.id) ?? ''
    if (was === part.text) return []
    let from = 0
    while (from < Math.min(was.length, part.text.length) && was[from] === part.text[from]) from += 1
    let same = 0
    while (
      same < Math.min(was.length, part.text.length) - from &&
      was.at(-1 - same) === part.text.at(-1 - same)
    )
      same += 1
    return [{ part, step: steps.get(part.id) ?? null, from, to: part.text.length - same }]
  })
}

type Kind = ReviewedPart['kind']

const isIn = (kinds: readonly Kind[] | 'all', { kind }: ReviewedPart): boolean =>
  kinds === 'all' || kinds.includes(kind)

/** The document once for each part of the kinds, with that part's text changed; null leaves a part out. */
export function inEachPart(
  document: ReviewedDocument,
  kinds: readonly Kind[] | 'all',
  change: (text: string, part: ReviewedPart) => string | null,
): Planted[] {
  const planted: Planted[] = []
  const changed = (part: ReviewedPart): ReviewedPart | null => {
    const text = isIn(kinds, part) ? change(part.text, part) : null
    return text === null ? null : { ...part, text }
  }
  for (const part of document.parts) {
    const now = changed(part)
    if (!now) continue
    const parts = document.parts.map((one) => (one === part ? now : one))
    planted.push({ document: { ...document, parts }, steps: [null] })
  }
  return [
    ...planted,
    ...inEachRow(document, (row) =>
      row.parts.flatMap((part) => {
        const now = changed(part)
        return now ? [{ ...row, parts: row.parts.map((one) => (one === part ? now : one)) }] : []
      }),
    ),
  ]
}

/** The document once for each row that is made of a row. */
export function inEachRow(
  document: ReviewedDocument,
  change: (row: ReviewedRow, next: ReviewedRow | undefined) => readonly ReviewedRow[],
): Planted[] {
  return document.rows.flatMap((row, at) =>
    change(row, document.rows[at + 1]).map((now) => ({
      document: { ...document, rows: document.rows.with(at, now) },
      steps: [row.id],
    })),
  )
}

/** Words behind the first sentence of a text; before all of it where it has none. */
export function behindFirstSentence(text: string, words: string): string {
  const block = proseOf(text)[0]
  const first = block && sentencesIn(block.text)[0]
  if (!block || !first) return `${words}\n\n${text}`
  // A sentence that leads to a fence goes with it.
  if (/:$/u.test(block.text.slice(first.start, first.end))) return `${words} ${text}`
  const at = Math.min(block.places[first.end - 1]! + 1, block.places[first.end]!)
  // What closes the sentence in the source, as a backquote, belongs to it.
  const end = at + /^[`*_]*/u.exec(text.slice(at))![0].length
  return `${text.slice(0, end)} ${words}${text.slice(end)}`
}

const FENCE = /(```sh\n)([^]*?)(\n```)/u

/** A line at the end of a text's first fence of shell; in a fence of its own where it has none. */
export function withLine(text: string, line: string): string {
  return FENCE.test(text) ? text.replace(FENCE, `$1$2\n${line}$3`) : `${text}\n\n\`\`\`sh\n${line}\n\`\`\``
}

/** The text with its first line of shell changed; null where it has none. */
export function withFirstLine(text: string, change: (line: string) => string): string | null {
  const found = FENCE.exec(text)
  if (!found) return null
  const [first = '', ...others] = found[2]!.split('\n')
  return text.replace(FENCE, () => `${found[1]}${[change(first), ...others].join('\n')}${found[3]}`)
}

export const has = (row: ReviewedRow, kind: Kind): boolean => row.parts.some((part) => part.kind === kind)

export function withPart(row: ReviewedRow, kind: Kind, text: string): ReviewedRow {
  return { ...row, parts: [...row.parts, reviewedPart(kind, text)] }
}

export function withDo(row: ReviewedRow, change: (text: string) => string): ReviewedRow {
  return {
    ...row,
    parts: row.parts.map((part) => (part.kind === 'do' ? { ...part, text: change(part.text) } : part)),
  }
}

export const withoutPart = (row: ReviewedRow, kind: Kind): ReviewedRow => ({
  ...row,
  parts: row.parts.filter((part) => part.kind !== kind),
})

/** Each row once for each of its commands, with words put before that command. */
export function beforeEachCommand(
  row: ReviewedRow,
  document: ReviewedDocument,
  isMeant: (text: string) => boolean,
  words: string,
): ReviewedRow[] {
  const read = readDocument(document).rows.find((one) => one.row === row)!
  return read.commands
    .filter(({ seen, text }) => seen.wrappers.length === 0 && isMeant(text))
    .map(({ start }) => withDo(row, (text) => `${text.slice(0, start)}${words}${text.slice(start)}`))
}
