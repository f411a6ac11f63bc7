/** Functions, their arguments and headers, as mdoc(7) names them. */
import type { Run } from '../roff/style.ts'
import { isSynopsis } from './page-state.ts'
import { isSign, nextCall, putRest, putWord, runs, type Inline } from './words.ts'

/** `.Fn name "int one" two`. */
export const call: Inline = (words, at) => {
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

export const openCall: Inline = (words, at) => {
  words.line.put(runs(words, words.args[at]?.value ?? '', 'B'))
  words.line.tighten()
  words.line.open('(')
  words.state.fnArgs = 0
  return Math.min(words.end, at + 1)
}

export const closeCall: Inline = (words, at) => {
  words.line.close(isSynopsis(words.state) ? ');' : ')')
  words.state.fnArgs = null
  return at
}

/** Arguments between `.Fo` and `.Fc`, or named in a text. */
export const argument: Inline = (words, at) => {
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

export const include: Inline = (words, at) => {
  const end = nextCall(words, at)
  const file = words.args[at]
  const shown = isSynopsis(words.state) ? `#include <${file?.value ?? ''}>` : `<${file?.value ?? ''}>`
  words.line.put(runs(words, shown, 'B'))
  return putRest(words, at + 1, end)
}
