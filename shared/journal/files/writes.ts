/**
 * Files that a shell command writes, where the whole content stands in the command itself: here-documents and texts of
 * echo and printf, into a redirection or into tee. What is not sure is not given.
 */
import type { Redirect, SimpleCommand } from '../../shell/syntax.ts'
import { maybeDocumentText, maybeEchoed, maybeLiteral, maybeLiteralPath, maybePrinted } from './literal.ts'
import { isDevicePath, maybeWholePath } from './paths.ts'
import { sequenceOf, withoutSudo } from './sequence.ts'

/** What one command does to a file. */
export interface FileWrite {
  /** Null where it is not known which file it was. */
  readonly path: string | null
  /** `whole`: the file holds this text now. `added`: this text stands at its end. `unsure`: something else was done to it. */
  readonly way: 'whole' | 'added' | 'unsure'
  readonly text: string
}

/**
 * What a command writes to files, in order, as far as it stands in the command. Whether the command succeeded is not
 * looked at. Commands under a condition, in loops, functions and substitutions are not taken.
 * @param directory where it ran, null where that is not known
 */
export function writesOf(command: string, directory: string | null): FileWrite[] {
  const writes: FileWrite[] = []
  for (const { pipe, here } of sequenceOf(command, directory))
    writes.push(...pipe.flatMap((one) => touched(one, writes)), ...writesOfPipeline(pipe, here))
  return writes
}

/** Programs that leave the content of the files that they are given as it is. */
const readers = new Set(
  'cat chgrp chmod chown cksum cmp diff echo file grep head less ls md5sum more printf sha256sum sha512sum stat tail tee test touch wc ['.split(
    ' ',
  ),
)

/** Files written before that a command names, where it may have changed them. */
function touched(command: SimpleCommand, before: readonly FileWrite[]): FileWrite[] {
  const { words } = withoutSudo(command)
  if (readers.has(words[0] ?? '')) return []
  return before.flatMap(({ path }) => {
    if (path === null) return []
    const name = path.slice(path.lastIndexOf('/') + 1)
    const isNamed = command.words.some(({ text }) => text.includes(name))
    return isNamed ? [{ path, way: 'unsure', text: '' } as const] : []
  })
}

function writesOfPipeline(pipe: readonly SimpleCommand[], here: string | null): FileWrite[] {
  const last = pipe.at(-1)!
  const { words, isOtherUser, isElsewhere } = withoutSudo(last)
  const place = isElsewhere ? null : here
  const inner = pipe.length === 1 ? maybeInner(words) : undefined
  // The home that such a script means is another one.
  if (inner !== undefined)
    return writesOf(inner, place).filter(({ path }) => !isOtherUser || path?.startsWith('~') !== true)
  const [name, ...rest] = words
  // The shell opens a redirection's file, before sudo and in its own directory.
  const redirected = redirectWrites(last, maybeFed(pipe, name, rest), here)
  return name === 'tee' ? [...teeWrites(rest, maybeInput(pipe), place), ...redirected] : redirected
}

/** What a command writes on its output, where that is sure. */
function maybeFed(
  pipe: readonly SimpleCommand[],
  name: string | undefined,
  rest: readonly (string | undefined)[],
): string | undefined {
  if (name === 'cat' || name === 'tee')
    return rest.every((word) => word === '-') ? maybeInput(pipe) : undefined
  if (pipe.length > 1) return undefined
  return name === ':' || name === 'true' ? '' : maybeSaid(pipe[0]!)
}

function redirectWrites(command: SimpleCommand, fed: string | undefined, here: string | null): FileWrite[] {
  const outputs = command.redirects.filter(isOutput)
  return outputs.flatMap(({ operator, target }) => {
    if (/^(?:\d+|-)$/.test(target.value ?? '') && operator === '>&') return []
    // With several, shells disagree which file gets what.
    const text = outputs.length === 1 && /^>[>|]?$/.test(operator) ? fed : undefined
    return writeTo(maybeLiteralPath(target), operator === '>>' ? 'added' : 'whole', text, here)
  })
}

/** The script of `sh -c '…'`. */
function maybeInner([name, option, script, ...rest]: readonly (string | undefined)[]): string | undefined {
  const isShell = /^(?:\/(?:usr\/)?bin\/)?(?:ba|da|z|k)?sh$/.test(name ?? '')
  return isShell && /^-e?u?x?c$/.test(option ?? '') && rest.length === 0 ? script : undefined
}

/** What the last command of a pipeline reads: its own document, or what cat, echo or printf before it writes. */
function maybeInput(pipe: readonly SimpleCommand[]): string | undefined {
  const last = pipe.at(-1)!
  const inputs = last.redirects.filter(isInput)
  if (inputs.length > 0) return inputs.length === 1 ? maybeDocument(inputs[0]!) : undefined
  const [before, ...more] = pipe.slice(0, -1)
  if (!before || more.length > 0 || before.redirects.some(isOutput)) return undefined
  const { words } = withoutSudo(before)
  if (words[0] === 'cat' && words.slice(1).every((word) => word === '-')) return maybeInput([before])
  return maybeSaid(before)
}

/** What echo or printf write. */
function maybeSaid({ words, assignments }: SimpleCommand): string | undefined {
  const [name, ...values] = words.map(maybeLiteral)
  if (assignments.length > 0 || values.some((value) => value === undefined)) return undefined
  if (name === 'echo') return maybeEchoed(values as string[])
  return name === 'printf' ? maybePrinted(values as string[]) : undefined
}

const isInput = ({ descriptor, operator }: Redirect): boolean =>
  (descriptor === null || descriptor === '0') && operator.startsWith('<') && operator !== '<>'

const isOutput = ({ descriptor, operator }: Redirect): boolean =>
  (descriptor === null || descriptor === '1') && /^(?:&?>>?|>\||>&|<>)$/.test(operator)

function maybeDocument({ operator, body, target }: Redirect): string | undefined {
  if (body) return maybeDocumentText(body, operator === '<<-')
  const literal = operator === '<<<' ? maybeLiteral(target) : undefined
  return literal === undefined ? undefined : `${literal}\n`
}

function teeWrites(
  words: readonly (string | undefined)[],
  input: string | undefined,
  here: string | null,
): FileWrite[] {
  const options = words.filter((word) => word?.startsWith('-') === true && word !== '-')
  const isAdding = options.some((option) => option === '--append' || /^-[ip]*a[ip]*$/.test(option!))
  const isKnown = options.every((option) => /^(?:--append|--ignore-interrupts|-[aip]+)$/.test(option!))
  return words.flatMap((word) => {
    if (word?.startsWith('-') === true) return []
    return writeTo(word, isAdding ? 'added' : 'whole', isKnown ? input : undefined, here)
  })
}

function writeTo(
  path: string | undefined,
  way: 'whole' | 'added',
  text: string | undefined,
  here: string | null,
): FileWrite[] {
  const whole = path === undefined ? null : (maybeWholePath(path, here) ?? null)
  if (whole !== null && isDevicePath(whole)) return []
  return [text === undefined ? { path: whole, way: 'unsure', text: '' } : { path: whole, way, text }]
}
