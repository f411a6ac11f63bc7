/** One simple command in a form that differs only where what it does differs. */
import { argumentPartsOf, argumentsOf, rowsFor } from '../effects/lookup.ts'
import type { Arguments, GivenOption } from '../options/arguments.ts'
import { hasRules } from '../options/table.ts'
import type { Assignment, Redirection, ScriptWord } from '../reading/tree.ts'
import { programOf } from '../seen.ts'
import { toNameText, toQuoted, toWordText } from './quote.ts'
import { synonyms } from './synonyms.ts'

export interface CommandParts {
  readonly assignments: readonly Assignment[]
  readonly words: readonly ScriptWord[]
  readonly redirections: readonly Redirection[]
}

/** The text of a command in its normal form. */
export function toCommandText({ assignments, words, redirections }: CommandParts): string {
  return [
    ...assignments.map(toAssignmentText),
    ...toWordTexts(renamed(words)),
    ...sorted(redirections).map(toRedirectionText),
  ].join(' ')
}

/** Redirections by the number that they are of; where one is a copy of another, their order counts (2.7). */
function sorted(redirections: readonly Redirection[]): readonly Redirection[] {
  if (redirections.some(({ operator }) => operator.includes('&'))) return redirections
  const numberOf = ({ descriptor, operator }: Redirection): string =>
    descriptor ?? (operator.startsWith('<') ? '0' : '1')
  return [...redirections].sort((a, b) =>
    numberOf(a) < numberOf(b) ? -1 : numberOf(a) > numberOf(b) ? 1 : 0,
  )
}

function toAssignmentText({ name, value, text }: Assignment): string {
  return value === null || !text.startsWith(`${name}=`)
    ? text
    : `${name}=${value === '' ? '' : toQuoted(value)}`
}

const word = (value: string): ScriptWord => ({
  from: 0,
  to: 0,
  text: toQuoted(value),
  value,
  isQuoted: false,
  isPattern: false,
})

/** Programs of the system without their folder (Filesystem Hierarchy Standard 3.0, 3.4, 3.16, 4.4, 4.10). */
const systemFolder = /^\/(?:usr\/)?s?bin\/(?=[^/]+$)/u

function renamed(words: readonly ScriptWord[]): readonly ScriptWord[] {
  const [first, ...rest] = words
  if (first === undefined || first.value === null) return words
  const bare = systemFolder.test(first.value) ? word(programOf(first.value)) : first
  return asSystemctl(withSynonyms([bare, ...rest]))
}

function withSynonyms(words: readonly ScriptWord[]): readonly ScriptWord[] {
  const { operands } = argumentsOf({ name: words[0]?.value ?? null, words })
  for (const { from, to } of synonyms) {
    const [program, ...wanted] = from.split(' ')
    if (program !== words[0]?.value) continue
    const [name = '', ...named] = to.split(' ')
    const isNext = wanted.every((one, n) => words[n + 1]?.value === one)
    // Options may stand before a subcommand.
    const found = isNext ? words.slice(1, wanted.length + 1) : operands.slice(0, wanted.length)
    if (!wanted.every((one, n) => found[n]?.value === one)) continue
    const rest = words
      .slice(1)
      .flatMap((one) => (one === found[0] ? named.map(word) : found.includes(one) ? [] : [one]))
    return withSynonyms([word(name), ...(wanted.length === 0 ? named.map(word) : []), ...rest])
  }
  return words
}

const serviceVerbs = /^(?:start|stop|restart|reload|status|try-restart)$/u

/** `service name verb` is `systemctl verb name` where systemd runs (service(8)). */
function asSystemctl(words: readonly ScriptWord[]): readonly ScriptWord[] {
  const [program, name, verb] = words
  if (program?.value !== 'service' || name === undefined || name.value === null || words.length !== 3)
    return words
  return serviceVerbs.test(verb?.value ?? '') ? [word('systemctl'), verb!, name] : words
}

function toWordTexts(words: readonly ScriptWord[]): string[] {
  const [first] = words
  if (first === undefined) return []
  const asWritten = [toNameText(first), ...words.slice(1).map(toWordText)]
  const name = first.value
  if (name === null || !hasRules(name)) return asWritten
  const { before, subcommand, behind } = argumentPartsOf({ name, words })
  if (!isSortable(name, before) || (behind !== null && !isSortable(name, behind))) return asWritten
  const isUnordered = hasUnorderedOperands(name, words)
  const parts = [toNameText(first), ...toArgumentTexts(name, before, isUnordered && behind === null)]
  if (subcommand !== null && behind !== null) {
    parts.push(toWordText(subcommand), ...toArgumentTexts(name, behind, isUnordered))
  }
  return parts
}

/** Whether options may change places. Not where one is unknown, or holds for the operands behind it. */
function isSortable(name: string, { isCertain, options, operands }: Arguments): boolean {
  const first = operands[0]?.from ?? Infinity
  const isPlaced = ['tar', 'curl', 'psql'].includes(name) && options.some(({ from }) => from > first)
  const isNegated = operands.some(({ value }) => value === '!')
  const isSplit = operands.some(({ value, text }) => value === null && text.startsWith('-'))
  return isCertain && !isPlaced && !isNegated && !isSplit
}

/** Whether operands form a set: packages to install, services to start. */
function hasUnorderedOperands(name: string, words: readonly ScriptWord[]): boolean {
  const { rows } = rowsFor({ name, words })
  return rows.some(({ touches }) =>
    touches.some(({ kind, which }) => ['package', 'service'].includes(kind) && which === '*'),
  )
}

function toArgumentTexts(name: string, args: Arguments, isUnordered: boolean): string[] {
  const { options, operands, endsAtOperand } = args
  const kept = options
    .filter(({ rule }) => rule?.isHarmless !== true)
    .map((one, n) => ({ key: sortKey(name, one), n, text: toOptionText(one) }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : a.n - b.n))
  const isUnit = name === 'systemctl'
  const values = operands.map((one) => {
    const text = toWordText(one)
    return isUnit ? text.replace(/\.service$/u, '') : text
  })
  // The first operand of such commands is the subcommand.
  const [head, ...rest] = values
  const shown = isUnordered && head !== undefined ? [head, ...rest.sort()] : values
  const guarded = endsAtOperand ? operands.slice(0, 1) : operands
  const guard = guarded.some(({ value }) => value?.startsWith('-') === true && value !== '-') ? ['--'] : []
  return [...kept.map(({ text }) => text), ...guard, ...shown]
}

/** Options whose order among themselves counts have one key, so that they keep it. */
function sortKey(name: string, { name: option }: GivenOption): string {
  const isFilter = /^--(?:include|exclude|filter|files)/u.test(option)
  if (['rsync', 'tar', 'rclone', 'borg'].includes(name) && isFilter) return '--exclude'
  if (name === 'sed' && /^(?:--expression|--file)$/u.test(option)) return '--expression'
  if (name === 'psql' && /^(?:--command|--file)$/u.test(option)) return '--command'
  return option
}

function toOptionText({ name, rule, value }: GivenOption): string {
  if (value === null) return name
  const text = value.value === '' ? "''" : toWordText(value)
  if (name.startsWith('--')) return `${name}=${value.value === '' ? '' : text}`
  return rule?.takes === 'attached' ? `${name}${text}` : `${name} ${text}`
}

function toRedirectionText({ descriptor, operator, target, body }: Redirection): string {
  if (body !== null) {
    const bare = body.text.replace(/\n$/u, '')
    const text = body.isLiteral ? toQuoted(bare) : `"${bare.replaceAll('"', '\\"')}"`
    return `${descriptor ?? ''}<<<${text}`
  }
  const isUsual =
    (descriptor === '1' && operator.startsWith('>')) || (descriptor === '0' && operator.startsWith('<'))
  return `${isUsual ? '' : (descriptor ?? '')}${operator}${target === null ? '' : toWordText(target)}`
}
