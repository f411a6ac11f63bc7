/** What a run came to, in words. */
import type { CaptureId, ChangeId, SourceId } from '../../../../shared/lab/ids.ts'
import type { EndedRun, IntakeItem, ItemEnd } from '../intakeQueue.ts'

/** Up to so many things of one run are told one by one, as if each had come alone. */
export const fewThings = 8

/** One thing that was not simply added. */
export interface ReportLine {
  readonly id: number
  readonly name: string
  readonly kind: Exclude<ItemEnd['kind'], 'added' | 'asked'>
  readonly sentence: string
  /** What the lab had already; null where there is none. */
  readonly source: SourceId | null
  /** Of what was read again: its new text. */
  readonly capture: CaptureId | null
  /** Of what was read again or taken into the project. */
  readonly change: ChangeId | null
  /** Makes a source of its own of it; null where that cannot be. */
  readonly item: IntakeItem | null
}

export interface Report {
  readonly id: number
  /** The file whose links came in; null for other runs. */
  readonly name: string | null
  /** Of a file of bookmarks: pages that the lab had, and those of them that got folders, tags or a remark. */
  readonly known: { readonly pages: number; readonly enriched: number } | null
  /** Its things are told one by one, as if each had come alone. */
  readonly isFew: boolean
  readonly things: number
  readonly added: number
  readonly lines: readonly ReportLine[]
  /** What this run committed, oldest first. Empty once it was taken back. */
  readonly changes: readonly ChangeId[]
  /** The sources that were added, with the folders that their files lay in; only where some lay in any. */
  readonly placed: readonly { readonly source: SourceId; readonly directories: readonly string[] }[]
  readonly isInFolders: boolean
  /** Sentences about what was left out before anything was read. */
  readonly notes: readonly string[]
  readonly wasTakenBack: boolean
}

/** The report on a run that is through. */
export function toReport(
  id: number,
  { run, ends }: EndedRun<unknown>,
  notes: readonly string[] = [],
): Report {
  const pairs = run.items.map((item, at) => [item, ends[at]!] as const)
  const placed = pairs.flatMap(([{ directories }, end]) =>
    end.kind === 'added' && directories.length > 0 ? [{ source: end.source.id, directories }] : [],
  )
  return {
    id,
    name: null,
    known: null,
    isFew: pairs.length <= fewThings && placed.length === 0 && notes.length === 0,
    things: pairs.length,
    added: ends.filter(({ kind }) => kind === 'added').length,
    lines: pairs.flatMap(([item, end], at) => toLine(at, item, end) ?? []),
    changes: changesOf(ends),
    placed,
    isInFolders: run.isInFolders && placed.length > 0,
    notes,
    wasTakenBack: false,
  }
}

/** The Changes of a run, each once, in the order in which they were committed. */
export function changesOf(ends: readonly ItemEnd[]): readonly ChangeId[] {
  const changes = ends.flatMap((end) => ('change' in end && end.change !== null ? [end.change] : []))
  // Ids made later sort later.
  return [...new Set(changes)].sort()
}

function toLine(id: number, item: IntakeItem, end: ItemEnd): ReportLine | null {
  const { name } = item
  const plain = { id, name, source: null, capture: null, change: null, item: null }
  switch (end.kind) {
    case 'added':
    case 'asked':
      return null
    case 'failed':
      return { ...plain, kind: 'failed', sentence: end.sentence }
    case 'cancelled':
      return { ...plain, kind: 'cancelled', sentence: `“${name}” was called off.` }
    case 'there': {
      const title = end.source?.title || name
      const joined = end.change === null ? '' : ' It is in this project now.'
      const sentence = `“${title}” is here already, so it was not added again.${joined}`
      return { ...plain, kind: 'there', sentence, source: end.source?.id ?? null, change: end.change, item }
    }
    case 'again': {
      const title = end.source.title || name
      const sentence =
        end.source.kind === 'link'
          ? `“${title}” was an address alone. It has its text now.`
          : `“${title}” was read again: it is not what it was. Its earlier text is kept, and so is all that came of it.`
      return {
        ...plain,
        kind: 'again',
        sentence,
        source: end.source.id,
        capture: end.source.kind === 'link' ? null : end.capture,
        change: end.change,
        item,
      }
    }
  }
}

/** The lines of one kind. */
export function linesOf({ lines }: Pick<Report, 'lines'>, kind: ReportLine['kind']): readonly ReportLine[] {
  return lines.filter((line) => line.kind === kind)
}

const counted = (count: number, one: string, many: string): string =>
  count === 0 ? '' : `${count.toLocaleString('en')} ${count === 1 ? one : many}`

/** The report in a line: `312 of 320 added. 5 were there already. 3 could not be read.` */
export function wordsOfReport(report: Report): string {
  const count = (kind: ReportLine['kind']): number => linesOf(report, kind).length
  const of = report.name === null ? '' : ` links of “${report.name}”`
  const all = `${report.added.toLocaleString('en')} of ${report.things.toLocaleString('en')}${of} added`
  const words = [
    all,
    counted(report.known?.pages ?? count('there'), 'was there already', 'were there already'),
    counted(
      report.known?.enriched ?? 0,
      'of these got its folders, tags or remark',
      'of these got their folders, tags or remarks',
    ),
    counted(count('again'), 'was read again', 'were read again'),
    counted(count('failed'), 'could not be read', 'could not be read'),
    counted(count('cancelled'), 'was called off', 'were called off'),
  ]
  const back = report.wasTakenBack ? ' All of it was taken back.' : ''
  return `${words.filter((one) => one !== '').join('. ')}.${back}`
}

/** The whole report as plain text, to be kept or sent. */
export function textOfReport(report: Report): string {
  const titles: readonly (readonly [ReportLine['kind'], string])[] = [
    ['failed', 'Could not be read'],
    ['again', 'Read again'],
    ['there', 'There already'],
    ['cancelled', 'Called off'],
  ]
  const parts = titles.flatMap(([kind, title]) => {
    const lines = linesOf(report, kind)
    return lines.length === 0 ? [] : [`${title}:\n${lines.map((line) => `- ${lineText(line)}`).join('\n')}`]
  })
  return `${[[wordsOfReport(report), ...report.notes].join('\n'), ...parts].join('\n\n')}\n`
}

function lineText({ name, sentence }: ReportLine): string {
  return sentence.includes(name) ? sentence : `${name}: ${sentence}`
}
