/** Macros of mdoc(7) that set words in a font, or put words of their own. */
import type { Font } from '../roff/style.ts'
import { isCall, isSign, nextCall, putRest, putWord, runs, type Inline } from './words.ts'

export const fonts: Readonly<Record<string, Font>> = {
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

export const inFont =
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
export const flag: Inline = (words, at) => {
  const end = nextCall(words, at)
  const own = words.args.slice(at, end)
  if (own.every(isSign)) {
    words.line.word('-', 'B')
    if (own.length === 0 && end < words.end) words.line.tighten()
  }
  for (const arg of own) putWord(words, isSign(arg) ? arg : { value: `-${arg.value}`, isQuoted: true }, 'B')
  return end
}

export const pageName: Inline = (words, at) => {
  const { state } = words
  const given = words.args[at]
  const isGiven = given !== undefined && at < words.end && !isCall(words, at) && !isSign(given)
  if (isGiven && state.name === '') state.name = given.value
  if (!isGiven) words.line.put(runs(words, state.name, 'B'))
  return inFont('Nm')(words, at)
}

/** `.Xr name section`. */
export const reference: Inline = (words, at) => {
  const end = nextCall(words, at)
  const [name, section] = words.args.slice(at, end)
  if (name) words.line.put(runs(words, name.value, 'R'))
  if (!section) return end
  if (isSign(section)) return putRest(words, at + 1, end)
  words.line.close(`(${section.value})`)
  return putRest(words, at + 2, end)
}

/** `.Pf prefix Macro words`: nothing between them. */
export const prefix: Inline = (words, at) => {
  if (at >= words.end) return at
  words.line.put(runs(words, words.args[at]!.value, 'R'))
  words.line.tighten()
  return at + 1
}

export const tighten: Inline = ({ line }, at) => {
  line.tighten()
  return at
}
export const apostrophe: Inline = ({ line }, at) => {
  line.close("'")
  line.tighten()
  return at
}

/** A macro that shows set words for the first word behind it. */
export const setWords =
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
export const hyperlink: Inline = (words, at) => {
  const [address, ...title] = words.args.slice(at, words.end)
  const signs = title.findIndex(isSign)
  const named = signs < 0 ? title : title.slice(0, signs)
  const label = named.map(({ value }) => value).join(' ')
  if (label !== '') words.line.put(runs(words, `${label}:`, 'I'))
  words.line.put(runs(words, address?.value ?? '', 'R'))
  return putRest(words, at + 1 + named.length, words.end)
}

/** `.Nd what it does`. */
export const description: Inline = (words, at) => {
  words.line.word('—')
  return at
}

export const author: Inline = (words, at) => {
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

export const system = (name: string): Inline =>
  setWords((version) => (version === '' ? name : `${name} ${version}`))

export const nothing: Inline = (_, at) => at
