/**
 * Versions: Debian Policy Manual 5.6.12, `[epoch:]upstream[-revision]`, and Semantic Versioning 2.0.0. Most of the latter are
 * versions to Debian too, but not those that end with a hyphen; the two put versions in different orders (version-order.ts).
 */
import { right, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

export interface DebianVersion {
  readonly epoch: number
  readonly upstream: string
  /** Empty where there is none, which counts as 0. */
  readonly revision: string
}

/** Reads a version as Debian does; undefined where it is none. */
export function maybeDebianVersion(text: string): DebianVersion | undefined {
  const [, epoch = '0', rest = ''] = /^(?:(\d{1,9}):)?([^\s]*)$/.exec(text) ?? []
  const hyphen = rest.lastIndexOf('-')
  const upstream = hyphen < 0 ? rest : rest.slice(0, hyphen)
  const revision = hyphen < 0 ? '' : rest.slice(hyphen + 1)
  const isUpstream = (/^\d+:/.test(text) ? /^\d[A-Za-z\d.+~:-]*$/ : /^\d[A-Za-z\d.+~-]*$/).test(upstream)
  const isRevision = hyphen < 0 || /^[A-Za-z\d.+~]+$/.test(revision)
  return isUpstream && isRevision && Number(epoch) <= 2 ** 31 - 1
    ? { epoch: Number(epoch), upstream, revision }
    : undefined
}

export interface SemanticVersion {
  readonly numbers: readonly [bigint, bigint, bigint]
  readonly before: readonly string[]
}

/** The grammar of Semantic Versioning 2.0.0, as published on its page (“suggested regular expression”), piece by piece. */
export function maybeSemanticVersion(text: string): SemanticVersion | undefined {
  const [, core = '', before, build] =
    /^([\d.]+)(?:-([A-Za-z\d.-]+))?(?:\+([A-Za-z\d.-]+))?$/.exec(text) ?? []
  const numbers = core.split('.')
  if (numbers.length !== 3 || !numbers.every((number) => /^(?:0|[1-9]\d*)$/.test(number))) return undefined
  const identifiers = before === undefined ? [] : before.split('.')
  if (identifiers.some((one) => one === '' || /^0\d+$/.test(one))) return undefined
  if (build?.split('.').includes('')) return undefined
  return { numbers: numbers.map(BigInt) as [bigint, bigint, bigint], before: identifiers }
}

function checkVersion(text: string): ValueCheck {
  if (maybeDebianVersion(text) || maybeSemanticVersion(text)) return right()
  const behindV = /^[vV](\d.*)$/.exec(text)?.[1]
  if (behindV !== undefined)
    return wrong('form', 'The “v” is not part of the version; it stands in names of tags.', offer(behindV))
  if (/\s/.test(text)) return wrong('form', 'A version has no blanks.')
  if (/^\d+:/.test(text) || !text.includes(':'))
    if (/-$/.test(text))
      return wrong('form', 'The revision is missing behind the last hyphen.', offer(text.replace(/-+$/, '')))
  if (!/^\d/.test(text)) return wrong('form', 'A version begins with a digit, as in 1.22.1-9.')
  if (text.includes(':'))
    return wrong('form', 'What stands before the first colon is the epoch, a number, as in 1:1.22.1-9.')
  return wrong('form', 'A version has letters, digits and . + ~ - only, as in 1.22.1-9.')
}

function offer(text: string): Mend | null {
  return maybeDebianVersion(text) ? { text, sentence: 'The version alone.' } : null
}

export const version: TypeOfValue = {
  check: checkVersion,
  canonical: () => null,
  example: '4.3-2',
}
