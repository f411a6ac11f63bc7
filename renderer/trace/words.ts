/** The words of a trace. Pure. */
import { momentLabel, partLabels } from '../../shared/export/labels.ts'
import type { CarryWay, Link, LinkEnd, PartKind, Range, StepPartKind } from '../../shared/lab/model.ts'
import { fenceAround } from '../../shared/distil/fragment.ts'
import { isSelectorTrue } from '../../shared/provenance/selectors.ts'
import type { Act } from '../../shared/lab/change.ts'
import type { Deed, LifeEvent } from '../../shared/provenance/life.ts'
import type { TraceHop } from '../../shared/provenance/trace.ts'
import { MASK } from '../../shared/safety/mask.ts'

/** How a link was made, as a person would say it. */
export const wayWords: Readonly<Record<CarryWay, string>> = {
  drag: 'by dragging',
  keyboard: 'by keyboard',
  button: 'by button',
  copy: 'by copying',
  draft: 'by drafting from the journal',
  sample: 'with the sample',
}

/** When and how a link was made: "Linked 2026-10-18 16:08:10 +02:00 by dragging". */
export function madeWords({ made, way, revises }: Link): string {
  const moment = momentLabel(made)
  return revises ? `Linked anew ${moment}, at first ${wayWords[way]}` : `Linked ${moment} ${wayWords[way]}`
}

/** The words of an end as they were carried; empty for a thing as a whole. */
export function wordsOfEnd({ ranges }: LinkEnd): string {
  return ranges.map(({ quote }) => quote.exact).join('\n')
}

/** The words of an end as they stand now in its text; empty where none are left. */
export function wordsAt(places: readonly (Range | null)[], text: string): string {
  return places.flatMap((place) => (place ? [text.slice(place.start, place.end)] : [])).join('\n')
}

/** The places that an end's words still have. */
export function placesLeft(places: readonly (Range | null)[]): Range[] {
  return places.filter((place) => place !== null)
}

/** How much of what was carried still stands, for a link whose words were reworded: "62 % of the words kept". */
export function keptWords({ state }: Pick<TraceHop, 'state'>): string | null {
  if (!state || state.type !== 'derives') return null
  return `${Math.round(state.kept * 100)} % of the words kept`
}

/** What is true of a link whose words were lost. */
export function looseWords({ state }: Pick<TraceHop, 'state'>): string | null {
  if (!state?.loose) return null
  if (state.newer.loose && state.older.loose) return 'The words can no longer be found at either end.'
  return state.newer.loose
    ? 'The words can no longer be found in the newer text.'
    : 'The words can no longer be found in the older text.'
}

/** Whether some of the words of an end were struck out. */
export function isStruckEnd({ ranges }: LinkEnd): boolean {
  return ranges.some(({ quote }) => quote.exact.includes(MASK))
}

/** Whether words stand in a code fence, by the places that they have in a text. */
export function isCodeAt(text: string | null | undefined, places: readonly Range[]): boolean {
  return (
    typeof text === 'string' &&
    places.length > 0 &&
    places.every((place) => fenceAround(text, place) !== null)
  )
}

/** The same of a carry, by one of its ends whose words still stand where they were. */
export function isCodeLink(
  { newer, older }: Link,
  textOf: (node: string) => string | null | undefined,
): boolean {
  return [newer, older].some(({ node, ranges }) => {
    const text = textOf(node.id)
    return (
      typeof text === 'string' &&
      ranges.every((range) => isSelectorTrue(text, range)) &&
      isCodeAt(
        text,
        ranges.map(({ position }) => position),
      )
    )
  })
}

/** "3 links", "1 link". */
export function countOf(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}

/** Acts that a plain word says better where only one step is spoken of. */
const actWords: Partial<Record<Act, string>> = {
  write: 'Reworded',
  'add a step': 'Written',
  'add a part': 'Written',
  'change a step': 'Changed',
  'make a parameter': 'A value made a parameter',
  'change a parameter': 'A parameter changed',
  'remove a parameter': 'A parameter removed',
  'mend a finding': 'Mended by the review',
  'draft steps': 'Drafted from the journal',
  'split a step': 'Split',
  'join steps': 'Joined',
  'move words': 'Words moved',
  undo: 'Taken back',
  redo: 'Done again',
}

const stepWords = {
  begun: 'The step was begun',
  removed: 'The step was removed',
  'brought back': 'The step was brought back',
} as const
const entryWords = { note: 'Noted', problem: 'A problem', fix: 'What ended it' } as const

/** What an event of a life is, in a few words. The moment and the words themselves stand beside it. */
export function wordsOfEvent(event: LifeEvent): string {
  switch (event.kind) {
    case 'entry':
      return event.isFirst
        ? `First note${event.role === 'note' ? '' : `: ${entryWords[event.role].toLowerCase()}`}`
        : entryWords[event.role]
    case 'step':
      return `${stepWords[event.what]}${beside(event.deed)}`
    case 'carry':
      return `${event.what === 'made' ? carriedTo(event) : takenFrom(event)}${by(event.deed)}`
    case 'words':
      return `${actWords[event.deed.act] ?? upper(event.deed.act)}: ${partWords(event)}${by(event.deed)}`
    case 'version':
      return `Version ${event.version.number} holds it${event.isAsNow ? ', as it stands now' : ''}`
    case 'run':
      return `Followed, version ${event.run.version}: ${event.run.outcome}`
  }
}

/** Acts by which words that are linked go to another text. */
const movingActs: ReadonlySet<Act> = new Set(['split a step', 'join steps', 'move words'])

function takenFrom(event: Extract<LifeEvent, { kind: 'carry' }>): string {
  const { act } = event.deed
  if (act === 'set a link again') return `Its link was lost in ${partWords(event)}`
  return `${movingActs.has(act) ? 'Its link went on from' : 'Taken back from'} ${partWords(event)}`
}

function carriedTo(event: Extract<LifeEvent, { kind: 'carry' }>): string {
  const { act } = event.deed
  if (act === 'set a link again') return `Its link was set anew in ${partWords(event)}`
  if (movingActs.has(act)) return `Its link came along to ${partWords(event)}`
  const verb =
    act === 'copy'
      ? 'Copied'
      : act === 'draft steps'
        ? 'Drafted'
        : act === 'undo' || act === 'redo'
          ? 'Brought back'
          : 'Carried'
  return `${verb} to ${partWords(event)}`
}

/** As the parts are called on the page. */
function partWords({ deed: { kind } }: Extract<LifeEvent, { kind: 'carry' | 'words' }>): string {
  return kind === null ? 'a part that was removed' : partName(kind)
}

/** What a part is called where its step is known. */
export function partName(kind: PartKind): string {
  return kind in partLabels ? partLabels[kind as StepPartKind] : upper(kind)
}

/** By which act, where that is not said already. */
function beside({ act, who }: Deed): string {
  const acts = {
    carry: ' by a carry',
    copy: ' by a copy',
    'draft steps': ' by drafting',
    undo: ' by undo',
    redo: ' by redo',
  }
  return `${(acts as Partial<Record<Act, string>>)[act] ?? ''}${by({ act, who })}`
}

const by = ({ who }: Deed): string => (who ? ` by ${who}` : '')
const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)
