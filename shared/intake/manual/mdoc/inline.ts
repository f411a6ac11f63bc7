/** Macros of mdoc(7) within a line: each may be called on a line of another, and takes the words up to the next one. */
import type { MarkedArg } from '../roff/escape.ts'
import type { Font, Run } from '../roff/style.ts'
import { enclosures, explicitClose, explicitOpen } from './enclosures.ts'
import { isClosing, isOpening, type Line } from './line.ts'
import { isSynopsis, type State } from './page-state.ts'
import { attWords, bsdWords, libraryWords, standardWords, systems } from './set-names.ts'

export interface Words {
  readonly state: State
  readonly line: Line
  readonly args: readonly MarkedArg[]
  readonly end: number
  /** Enclosures around. */
  readonly depth: number
}
/** Carries out the macro whose words begin at a place. @returns the place behind what it took */
type Inline = (words: Words, at: number) => number

const fonts: Readonly<Record<string, Font>> = {
  Ad: 'I',
  An: 'R',
  Ar: 'I',
  Cd: 'B',
  Cm: 'B',
  Dv: 'C',
  Em: 'I',
  Er: 'C',
  Ev: 'C',
  Fa: 'I',
  Fd: 'B',
  Fl: 'B',
  Fr: 'I',
  Ft: 'I',
  Hf: 'R',
  Ic: 'B',
  Li: 'C',
  Ms: 'B',
  Mt: 'R',
  Nm: 'B',
  No: 'R',
  Pa: 'I',
  Sx: 'I',
  Sy: 'B',
  Tn: 'R',
  Va: 'I',
  Vt: 'I',
  Bf: 'R',
}
/** What a macro shows that is given no words. */
const defaults: Readonly<Record<string, string>> = { Ar: 'file ...', Pa: '~', Mt: '~' }
/** These stand on lines of their own in the section SYNOPSIS. */
const ownLine = new Set(['Cd', 'Fd', 'Ft', 'Vt', 'In', 'Fn', 'Fo', 'Nm'])

const runs = ({ state }: Words, word: string, font: Font): Run[] => {
  state.machine.style.set(font)
  const found = state.machine.runsOf(word)
  state.machine.style.reset()
  return found
}

/** Whether a word calls a macro: not where it stood in quotes. */
export const isCall = ({ args }: Words, at: number): boolean =>
  !args[at]!.isQuoted && (callable.has(args[at]!.value) || enclosures.has(args[at]!.value))

/** The place of the next call or of the end. */
function nextCall(words: Words, at: number): number {
  let next = at
  while (next < words.end && !isCall(words, next)) next += 1
  return next
}

/** Puts a word as it is to be put: signs that close or open stand close to their neighbours. */
export function putWord(words: Words, { value, isQuoted }: MarkedArg, font: Font): void {
  if (!isQuoted && isClosing(value)) words.line.close(value)
  else if (!isQuoted && isOpening(value)) words.line.open(value)
  else if (!isQuoted && value === '|') words.line.word(value)
  else words.line.put(runs(words, value, font))
}

const isSign = ({ value, isQuoted }: MarkedArg): boolean =>
  !isQuoted && (isClosing(value) || isOpening(value) || value === '|')

const inFont =
  (name: string): Inline =>
  (words, at) => {
    const end = nextCall(words, at)
    const own = words.args.slice(at, end)
    const first = own.find((arg) => !isSign(arg))
    if (!first && defaults[name] !== undefined) words.line.word(defaults[name], fonts[name])
    for (const arg of own) putWord(words, arg, fonts[name]!)
    return end
  }

/** `.Fl a b`: a dash before each word; alone it is a dash, close to what the next macro shows. */
const flag: Inline = (words, at) => {
  const end = nextCall(words, at)
  const own = words.args.slice(at, end)
  if (own.every(isSign)) {
    words.line.word('-', 'B')
    if (own.length === 0 && end < words.end) words.line.tighten()
  }
  for (const arg of own) putWord(words, isSign(arg) ? arg : { value: `-${arg.value}`, isQuoted: true }, 'B')
  return end
}

const pageName: Inline = (words, at) => {
  const { state } = words
  const given = words.args[at]
  const isGiven = given !== undefined && at < words.end && !isCall(words, at) && !isSign(given)
  if (isGiven && state.name === '') state.name = given.value
  if (!isGiven) words.line.put(runs(words, state.name, 'B'))
  return inFont('Nm')(words, at)
}

/** `.Xr name section`. */
const reference: Inline = (words, at) => {
  const end = nextCall(words, at)
  const [name, section] = words.args.slice(at, end)
  if (name) words.line.put(runs(words, name.value, 'R'))
  if (!section) return end
  if (isSign(section)) return putRest(words, at + 1, end)
  words.line.close(`(${section.value})`)
  return putRest(words, at + 2, end)
}

function putRest(words: Words, from: number, end: number, font: Font = 'R'): number {
  for (let at = from; at < end; at += 1) putWord(words, words.args[at]!, font)
  return end
}

/** `.Fn name "int one" two`. */
const call: Inline = (words, at) => {
  const end = nextCall(words, at)
  const own = words.args.slice(at, end)
  const signs = own.findIndex((arg, i) => i > 0 && isSign(arg))
  const named = signs < 0 ? own : own.slice(0, signs)
  const all: Run[] = runs(words, named[0]?.value ?? '', 'B')
  all.push({ text: '(', font: 'R' })
  named.slice(1).forEach((arg, i) => {
    if (i > 0) all.push({ text: ', ', font: 'R' })
    all.push(...runs(words, arg.value, 'I'))
  })
  all.push({ text: isSynopsis(words.state) ? ');' : ')', font: 'R' })
  words.line.put(all)
  return putRest(words, at + named.length, end)
}

const openCall: Inline = (words, at) => {
  words.line.put(runs(words, words.args[at]?.value ?? '', 'B'))
  words.line.tighten()
  words.line.open('(')
  words.state.fnArgs = 0
  return Math.min(words.end, at + 1)
}

const closeCall: Inline = (words, at) => {
  words.line.close(isSynopsis(words.state) ? ');' : ')')
  words.state.fnArgs = null
  return at
}

/** Arguments between `.Fo` and `.Fc`, or named in a text. */
const argument: Inline = (words, at) => {
  const { state } = words
  const end = nextCall(words, at)
  words.args.slice(at, end).forEach((arg, i) => {
    const isAnother = !isSign(arg) && (state.fnArgs === null ? false : state.fnArgs > 0 || i > 0)
    if (isAnother) words.line.close(',')
    putWord(words, arg, 'I')
    if (state.fnArgs !== null) state.fnArgs += 1
  })
  return end
}

const include: Inline = (words, at) => {
  const end = nextCall(words, at)
  const file = words.args[at]
  const shown = isSynopsis(words.state) ? `#include <${file?.value ?? ''}>` : `<${file?.value ?? ''}>`
  words.line.put(runs(words, shown, 'B'))
  return putRest(words, at + 1, end)
}

/** `.Pf prefix Macro words`: nothing between them. */
const prefix: Inline = (words, at) => {
  if (at >= words.end) return at
  words.line.put(runs(words, words.args[at]!.value, 'R'))
  words.line.tighten()
  return at + 1
}

const tighten: Inline = ({ line }, at) => {
  line.tighten()
  return at
}
const apostrophe: Inline = ({ line }, at) => {
  line.close("'")
  line.tighten()
  return at
}

/** A macro that shows set words for the first word behind it. */
const setWords =
  (toWords: (name: string, next: string) => string, takes = 1): Inline =>
  (words, at) => {
    const end = nextCall(words, at)
    const own = words.args.slice(at, end).map((arg) => (isSign(arg) ? undefined : arg.value))
    const first = own[0] ?? ''
    const second = first === '' ? '' : (own[1] ?? '')
    words.line.put(runs(words, toWords(first, takes === 2 ? second : ''), 'R'))
    const taken = first === '' ? 0 : takes === 2 && second !== '' ? 2 : 1
    return putRest(words, at + taken, end)
  }

/** `.Lk address words`. */
const hyperlink: Inline = (words, at) => {
  const [address, ...title] = words.args.slice(at, words.end)
  const signs = title.findIndex(isSign)
  const named = signs < 0 ? title : title.slice(0, signs)
  const label = named.map(({ value }) => value).join(' ')
  if (label !== '') words.line.put(runs(words, `${label}:`, 'I'))
  words.line.put(runs(words, address?.value ?? '', 'R'))
  return putRest(words, at + 1 + named.length, words.end)
}

/** `.Nd what it does`. */
const description: Inline = (words, at) => {
  words.line.word('—')
  return at
}

const author: Inline = (words, at) => {
  if (words.args[at]?.value === '-split' || words.args[at]?.value === '-nosplit') return words.end
  const end = nextCall(words, at)
  const name = words.args.slice(at, end).filter((arg) => !isSign(arg))
  if (name.length > 0 && words.state.section.startsWith('AUTHOR'))
    words.state.authors.push(
      name
        .map(({ value }) =>
          runs(words, value, 'R')
            .map(({ text }) => text)
            .join(''),
        )
        .join(' '),
    )
  return inFont('An')(words, at)
}

const system = (name: string): Inline => setWords((version) => (version === '' ? name : `${name} ${version}`))

const nothing: Inline = (_, at) => at

/** Every macro that a line may call, but those that enclose. */
export const callable: ReadonlyMap<string, Inline> = new Map<string, Inline>([
  ...Object.keys(fonts).map((name): [string, Inline] => [name, inFont(name)]),
  ['An', author],
  ['Fl', flag],
  ['Nm', pageName],
  ['Xr', reference],
  ['Fn', call],
  ['Fo', openCall],
  ['Fc', closeCall],
  ['Fa', argument],
  ['In', include],
  ['Pf', prefix],
  ['Ns', tighten],
  ['Ap', apostrophe],
  ['Lk', hyperlink],
  ['Nd', description],
  ['St', setWords((name) => standardWords(name))],
  ['Lb', setWords((name) => libraryWords(name))],
  ['At', setWords((name) => attWords(name))],
  ['Bx', setWords(bsdWords, 2)],
  ['Ux', setWords((name) => (name === '' ? 'UNIX' : `UNIX ${name}`))],
  ...[...systems].map(([name, words]): [string, Inline] => [name, system(words)]),
  ...[...explicitOpen].map(([name, sign]): [string, Inline] => [name, opens(sign)]),
  ...[...explicitClose].map(([name, sign]): [string, Inline] => [name, closes(sign)]),
  ['Eo', custom(false)],
  ['Ec', custom(true)],
  ['Xo', nothing],
  ['Xc', nothing],
  ['Ta', nothing],
])

function opens(sign: string): Inline {
  return (words, at) => {
    words.line.open(sign)
    return at
  }
}

function closes(sign: string): Inline {
  return (words, at) => {
    words.line.close(sign)
    return at
  }
}

/** `.Eo <` and `.Ec >`: signs that the page names. */
function custom(isEnd: boolean): Inline {
  return (words, at) => {
    const has = at < words.end && !isCall(words, at)
    const sign = has ? runs(words, words.args[at]!.value, 'R') : []
    if (isEnd) words.line.tighten()
    words.line.put(sign)
    if (!isEnd) words.line.tighten()
    return at + (has ? 1 : 0)
  }
}

/** Whether a macro begins a line of its own here. */
export const beginsLine = (state: State, name: string): boolean => isSynopsis(state) && ownLine.has(name)

/** Carries out all calls from a place to the end. */
export function callAll(words: Words, from: number): void {
  let at = from
  while (at < words.end) {
    const arg = words.args[at]!
    if (!isCall(words, at)) {
      putWord(words, arg, 'R')
      at += 1
    } else at = callOne(words, arg.value, at + 1)
  }
}

/** Carries out one macro. @returns the place behind what it took */
export function callOne(words: Words, name: string, at: number): number {
  const marks = name === 'Aq' ? angles(words, at) : enclosures.get(name)
  return marks ? enclose(words, marks, at) : (callable.get(name)?.(words, at) ?? at)
}

/** Mail addresses stand in the signs that mail programs use. */
function angles({ state, args }: Words, at: number): readonly [string, string] {
  const isMail = args[at]?.value === 'Mt' || args.slice(0, at).some(({ value }) => value === 'An')
  return isMail || state.isAuthorLine ? ['<', '>'] : ['⟨', '⟩']
}

/** Marks around the rest of the line, but for signs that close it. */
function enclose(words: Words, [open, close]: readonly [string, string], at: number): number {
  let end = words.end
  while (end > at && isSign(words.args[end - 1]!) && isClosing(words.args[end - 1]!.value)) end -= 1
  words.state.machine.budget.checkDepth(words.depth)
  words.line.open(open)
  callAll({ ...words, end, depth: words.depth + 1 }, at)
  words.line.close(close)
  return putRest(words, end, words.end)
}
