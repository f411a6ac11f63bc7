/** Words of a command whose value the shell certainly passes on as it stands, and what echo and printf make of them. */
import type { HereDocument, ShellWord } from '../../shell/syntax.ts'

/**
 * The value of a word where nothing decides on it but the word itself: no expansion, no pattern, no braces, no home, no
 * history (`!`), which an interactive shell replaces even between double quotes.
 */
export function maybeLiteral(word: ShellWord | undefined): string | undefined {
  if (!word || word.value === null) return undefined
  const bare = word.text.replace(/\\[^]|'[^']*'/g, '')
  const unquoted = bare.replace(/"(?:[^"\\]|\\[^])*"/g, '')
  if (/[*?[\]{}$]|^~|[:=]~/.test(unquoted) || /\$(?![\s"])/.test(bare) || /![^\s"=(]/.test(bare))
    return undefined
  return word.value
}

/** As `maybeLiteral`, for the name of a file: a home at its beginning stays as it is written. */
export function maybeLiteralPath(word: ShellWord | undefined): string | undefined {
  if (word?.value?.startsWith('~') !== true) return maybeLiteral(word)
  return /^~[\w.-]*(?:\/[\w./+,:@%-]*)?$/.test(word.text) ? word.value : undefined
}

/**
 * The lines of a here-document as the command reads them (POSIX.1-2017, Shell Command Language, 2.7.4). Undefined where
 * the shell would expand something in them.
 */
export function maybeDocumentText(
  { text, isLiteral }: HereDocument,
  stripsTabs: boolean,
): string | undefined {
  if (isLiteral) return text
  // With joined lines it depends on the shell where the delimiter is looked for, and which tabs are stripped.
  if (goesOnBehindDelimiter({ text, isLiteral }) || (stripsTabs && text.includes('\\\n'))) return undefined
  const bare = text.replace(/\\[^]/g, '')
  if (bare.includes('`') || /\$(?![\s.,;:/)%]|$)/.test(bare)) return undefined
  return text.replace(/\\([$`\\\n])/g, (_, sign: string) => (sign === '\n' ? '' : sign))
}

/** Whether a here-document's last line is joined with the one that looks like its delimiter, so that it ends elsewhere. */
export function goesOnBehindDelimiter({
  text,
  isLiteral,
}: Pick<HereDocument, 'text' | 'isLiteral'>): boolean {
  return !isLiteral && /(?<!\\)(?:\\\\)*\\\n$/.test(text)
}

/** What echo writes. Shells disagree about backslashes, so that a text with one is not sure. */
export function maybeEchoed(words: readonly string[]): string | undefined {
  const isBare = words[0] === '-n'
  const rest = isBare ? words.slice(1) : words
  if (/^-[neE]+$/.test(rest[0] ?? '') || rest.some((word) => word.includes('\\'))) return undefined
  return `${rest.join(' ')}${isBare ? '' : '\n'}`
}

/** What printf writes: formats of plain text, `%s`, `%%` and the commonest escapes (POSIX.1-2017, "printf"). */
export function maybePrinted(words: readonly string[]): string | undefined {
  const [format, ...values] = words[0] === '--' ? words.slice(1) : words
  if (format === undefined || format.startsWith('-')) return undefined
  const parts = format.match(/%.|\\.|[^%\\]+|[%\\]/gsu) ?? []
  if (!parts.every((part) => /^(?:%[s%]|\\[nt\\]|[^%\\]+)$/.test(part))) return undefined
  const slots = parts.filter((part) => part === '%s').length
  // The format is used again until all values are used up; values without a slot are left out.
  const rounds = slots === 0 ? 1 : Math.max(1, Math.ceil(values.length / slots))
  let at = 0
  return Array.from({ length: rounds }, () =>
    parts.map((part) => (part === '%s' ? (values[at++] ?? '') : plainPart(part))).join(''),
  ).join('')
}

const escapes: Readonly<Record<string, string>> = {
  '%%': '%',
  '\\n': '\n',
  '\\t': '\t',
  '\\\\': '\\',
}
const plainPart = (part: string): string => escapes[part] ?? part
