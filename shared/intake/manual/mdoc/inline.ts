/** Macros of mdoc(7) within a line: each may be called on a line of another, and takes the words up to the next one. */
import { enclosures, explicitClose, explicitOpen } from './enclosures.ts'
import { argument, call, closeCall, include, openCall } from './functions.ts'
import { isClosing } from './line.ts'
import { isSynopsis, type State } from './page-state.ts'
import * as phrases from './phrases.ts'
import { attWords, bsdWords, libraryWords, standardWords, systems } from './set-names.ts'
import { isCall, isSign, putRest, putWord, runs, type Inline, type Words } from './words.ts'

/** These stand on lines of their own in the section SYNOPSIS. */
const ownLine = new Set(['Cd', 'Fd', 'Ft', 'Vt', 'In', 'Fn', 'Fo', 'Nm'])

/** Every macro that a line may call, but those that enclose. */
export const callable: ReadonlyMap<string, Inline> = new Map<string, Inline>([
  ...Object.keys(phrases.fonts).map((name): [string, Inline] => [name, phrases.inFont(name)]),
  ['An', phrases.author],
  ['Fl', phrases.flag],
  ['Nm', phrases.pageName],
  ['Xr', phrases.reference],
  ['Fn', call],
  ['Fo', openCall],
  ['Fc', closeCall],
  ['Fa', argument],
  ['In', include],
  ['Pf', phrases.prefix],
  ['Ns', phrases.tighten],
  ['Ap', phrases.apostrophe],
  ['Lk', phrases.hyperlink],
  ['Nd', phrases.description],
  ['St', phrases.setWords((name) => standardWords(name))],
  ['Lb', phrases.setWords((name) => libraryWords(name))],
  ['At', phrases.setWords((name) => attWords(name))],
  ['Bx', phrases.setWords(bsdWords, 2)],
  ['Ux', phrases.setWords((name) => (name === '' ? 'UNIX' : `UNIX ${name}`))],
  ...[...systems].map(([name, words]): [string, Inline] => [name, phrases.system(words)]),
  ...[...explicitOpen].map(([name, sign]): [string, Inline] => [name, opens(sign)]),
  ...[...explicitClose].map(([name, sign]): [string, Inline] => [name, closes(sign)]),
  ['Eo', custom(false)],
  ['Ec', custom(true)],
  ['Xo', phrases.nothing],
  ['Xc', phrases.nothing],
  ['Ta', phrases.nothing],
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
