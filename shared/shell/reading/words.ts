/** Words, assignments and redirections of the library's tree as ours. */
import type {
  Assignment as ReadAssignment,
  Redirection as ReadRedirection,
  Word as ReadWord,
  WordPart,
} from 'unbash'
import type { Assignment, DocumentBody, Redirection, ScriptWord } from './tree.ts'

/** Turns places of the text that the library read into those of the text that was given. */
export interface Places {
  readonly text: string
  readonly from: (at: number) => number
  readonly to: (at: number) => number
}

const expanding: ReadonlySet<WordPart['type']> = new Set([
  'SimpleExpansion',
  'ParameterExpansion',
  'CommandExpansion',
  'ArithmeticExpansion',
  'ProcessSubstitution',
  'BraceExpansion',
])

export function toWord(word: ReadWord, places: Places): ScriptWord {
  const parts = word.parts ?? []
  const [from, to] = [places.from(word.pos), places.to(word.end)]
  return {
    from,
    to,
    text: places.text.slice(from, to),
    value: isExpanded(parts) ? null : word.value,
    isQuoted: /["'\\]/u.test(word.text),
    isPattern: parts.some(({ type }) => type === 'Glob' || type === 'ExtendedGlob'),
  }
}

function isExpanded(parts: readonly WordPart[]): boolean {
  return parts.some((part) =>
    part.type === 'DoubleQuoted' || part.type === 'LocaleString'
      ? part.parts.some(({ type }) => expanding.has(type))
      : expanding.has(part.type),
  )
}

export function toAssignment(read: ReadAssignment, places: Places): Assignment {
  const [from, to] = [places.from(read.pos), places.to(read.end)]
  const value =
    read.value.type === 'Word' && read.index === undefined ? toWord(read.value, places).value : null
  return { from, to, text: places.text.slice(from, to), name: read.name, value }
}

/** An assignment that stands behind a command's name is a word of it: `export NAME=value`. */
export function toArgument(read: ReadAssignment, places: Places): ScriptWord {
  const { from, to, text, value } = toAssignment(read, places)
  const sign = read.append === true ? '+=' : '='
  return {
    from,
    to,
    text,
    value: value === null ? null : `${read.name}${sign}${value}`,
    isQuoted: /["'\\]/u.test(text),
    isPattern: false,
  }
}

export function toRedirection(read: ReadRedirection, places: Places): Redirection {
  const descriptor =
    read.descriptor === undefined
      ? null
      : read.descriptor.type === 'FileDescriptor'
        ? String(read.descriptor.value)
        : `{${read.descriptor.name}}`
  const target = read.type === 'HereDoc' || read.target === undefined ? null : toWord(read.target, places)
  const body = read.type === 'HereDoc' ? toBody(read, places) : null
  return {
    from: places.from(read.pos),
    to: places.to(read.end),
    descriptor,
    operator: read.operator,
    target,
    body,
  }
}

function toBody(read: Extract<ReadRedirection, { type: 'HereDoc' }>, places: Places): DocumentBody {
  const [from, to] = [places.from(read.body.pos), places.to(read.body.end)]
  const written = places.text.slice(from, to)
  const text = read.operator === '<<-' ? written.replace(/^\t+/gmu, '') : written
  const isLiteral = read.delimiter?.quoted === true || !isExpanded(read.body.parts ?? [])
  return { from, to, text, isLiteral }
}
