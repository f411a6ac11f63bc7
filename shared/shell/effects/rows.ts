/** How the table of effects is written, and its rows read. */

/** What a command does. `root`: it needs root to do so, where the system is set up as usual. */
export type Effect = 'reads' | 'changes' | 'destroys' | 'network' | 'root'

export type TouchedKind =
  | 'file'
  | 'package'
  | 'service'
  | 'interface'
  | 'device'
  | 'user'
  | 'container'
  | 'image'
  | 'database'
  | 'dataset'
  | 'repository'
  | 'host'
  | 'setting'

/**
 * A row as it is written.
 *
 * 0. Which commands: the program (`a|b`), then its subcommands in order (`install|reinstall`), options one of which must be
 *    given (`-i|--in-place`), operands by pattern (`@of=/dev/*`), `.` for no operand behind all these, `+` for one at least.
 *    Of the rows of a command those with the most such marks count, joined.
 * 1. Its effects. `unknown` where it depends on what is not written.
 * 2. Where that is written: `(8)` is the manual page of the program's own name there.
 * 3. What it touches: `kind:which`, joined by commas, `reads` before it where it only looks. Which: `*` every operand, `1`,
 *    `2` one, `2+` from it on, `last`, `-last` all but the last, `-o` an option's value, `of=` what follows that in an
 *    operand, `dev>` the operand behind that word.
 */
export type WrittenRow = readonly [string, string, string, string?]

export interface Selector {
  readonly kind: TouchedKind
  readonly which: string
  readonly onlyReads: boolean
}

export interface EffectRow {
  readonly programs: readonly string[]
  readonly subcommands: readonly (readonly string[])[]
  readonly options: readonly (readonly string[])[]
  readonly operands: readonly RegExp[]
  /** Whether operands must or must not follow; null where that is no matter. */
  readonly hasOperands: boolean | null
  readonly effects: readonly Effect[]
  readonly isUnknown: boolean
  readonly source: string
  readonly touches: readonly Selector[]
}

export function toEffectRow([commands, effects, source, touches = '']: WrittenRow): EffectRow {
  const [programs = '', ...marks] = commands.split(' ')
  const options = marks.filter((one) => /^-./u.test(one))
  const operands = marks.filter((one) => one.startsWith('@'))
  const subcommands = marks.filter((one) => !/^(?:-.|@|[.+]$)/u.test(one))
  const words = effects.split(' ').filter((one) => one !== '')
  return {
    programs: programs.split('|'),
    subcommands: subcommands.map((one) => one.split('|')),
    options: options.map((one) => one.split('|')),
    operands: operands.map((one) => toPattern(one.slice(1))),
    hasOperands: marks.includes('.') ? false : marks.includes('+') ? true : null,
    effects: words.filter((one): one is Effect => one !== 'unknown'),
    isUnknown: words.includes('unknown'),
    source,
    touches: touches
      .split(', ')
      .filter((one) => one !== '')
      .map(toSelector),
  }
}

function toSelector(written: string): Selector {
  const onlyReads = written.startsWith('reads ')
  const [kind = '', which = ''] = written.replace(/^reads /u, '').split(':')
  return { kind: kind as TouchedKind, which, onlyReads }
}

/** A pattern with `*` for anything and `|` between alternatives. */
function toPattern(written: string): RegExp {
  const parts = written
    .split('|')
    .map((one) => one.replace(/[.+?^${}()[\]\\]/gu, '\\$&').replaceAll('*', '.*'))
  return new RegExp(`^(?:${parts.join('|')})$`, 'su')
}

/** How narrow a row is: the narrower one counts. */
export function narrowness({ subcommands, options, operands, hasOperands }: EffectRow): number {
  return 2 * (subcommands.length + options.length + operands.length) + (hasOperands === null ? 0 : 1)
}
