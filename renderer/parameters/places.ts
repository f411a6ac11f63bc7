/** Where a value stands in a procedure, part by part. Pure. */
import type { PartId } from '../../shared/lab/ids.ts'
import type { Parameter, Range } from '../../shared/lab/model.ts'
import { findOccurrences, type Standing } from '../../shared/procedure/values/occurrences.ts'
import { isPlaceholderName, toPlaceholderName } from '../../shared/procedure/values/placeholders.ts'
import type { ValueType } from '../../shared/procedure/values/types.ts'

/** A text of the procedure with what it is called. */
export interface NamedText {
  readonly part: PartId
  /** "Do of step 3". */
  readonly name: string
  readonly text: string
}

export interface FoundPlace extends Range {
  /** Unlike that of any other place. */
  readonly key: string
  readonly part: PartId
  readonly name: string
  readonly standing: Standing
  readonly reason: string | null
  /** The words around it, on its line. */
  readonly before: string
  readonly value: string
  readonly after: string
}

/** What the person selected. */
export interface SelectedPlace extends Range {
  readonly part: PartId
}

/** As many characters are shown on either side of a place. */
const AROUND = 36

/**
 * Every place of a value in the texts, in their order. What the person selected is among them and stands alone, however it
 * stands: it was pointed at.
 */
export function placesOf(
  texts: readonly NamedText[],
  value: string,
  type: ValueType,
  selected: SelectedPlace | null,
): FoundPlace[] {
  return texts.flatMap(({ part, name, text }) => {
    const own = selected?.part === part && selected.end <= text.length ? selected : null
    const found = findOccurrences(text, value, type).filter(
      (one) => !own || one.end <= own.start || one.start >= own.end,
    )
    const pointedAt = own
      ? [{ start: own.start, end: own.end, standing: 'alone', reason: null } as const]
      : []
    return [...found, ...pointedAt]
      .sort((a, b) => a.start - b.start)
      .map(({ start, end, standing, reason }) => ({
        key: `${part} ${start} ${end}`,
        ...{ part, name, start, end, standing, reason },
        before: lineBefore(text, start),
        value: text.slice(start, end),
        after: lineAfter(text, end),
      }))
  })
}

function lineBefore(text: string, at: number): string {
  const line = text.slice(text.lastIndexOf('\n', at - 1) + 1, at)
  return line.length > AROUND ? `… ${wholeFromStart(line.slice(-AROUND))}` : line
}

function lineAfter(text: string, at: number): string {
  const end = text.indexOf('\n', at)
  const line = text.slice(at, end < 0 ? undefined : end)
  return line.length > AROUND ? `${wholeToEnd(line.slice(0, AROUND))} …` : line
}

/** A cut never leaves half of a surrogate pair. */
const wholeFromStart = (text: string): string => text.replace(/^[\udc00-\udfff]/, '')
const wholeToEnd = (text: string): string => text.replace(/[\ud800-\udbff]$/, '')

const nameOfType: Partial<Record<ValueType, string>> = {
  'host name': 'host',
  'IPv4 address': 'address',
  'IPv6 address': 'address',
  'MAC address': 'mac-address',
  'e-mail address': 'mail-address',
  'free text': 'value',
  URL: 'url',
}

/** A name for a new parameter that no other one of the procedure has. */
export function freeName(type: ValueType, others: readonly Pick<Parameter, 'name'>[]): string {
  const base = nameOfType[type] ?? toPlaceholderName(type)
  const taken = new Set(others.map(({ name }) => name))
  for (let n = 1; ; n++) {
    const name = n === 1 ? base : `${base}-${n}`
    if (!taken.has(name)) return name
  }
}

/** What speaks against a name; null where nothing does. */
export function nameFault(name: string, others: readonly Pick<Parameter, 'name'>[]): string | null {
  if (name === '') return 'It needs a name.'
  if (!isPlaceholderName(name)) {
    const nearest = toPlaceholderName(name)
    const rule =
      'A name begins with a letter and has letters, digits, “-” and “_”, at most 40, and no blanks.'
    return nearest === '' ? rule : `${rule} “${nearest}” would do.`
  }
  return others.some((other) => other.name === name) ? 'Another parameter has this name.' : null
}
