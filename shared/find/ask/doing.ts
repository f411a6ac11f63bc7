/** Which words of a question are verbs, as far as their order and endings tell. */

const subjects = new Set('i you we they it he she one people somebody someone anybody anyone'.split(' '))
const modals = new Set('can could should would might must shall will'.split(' '))
const determiners = new Set('the a an our my this that these those your'.split(' '))
/** Before a word in `-ing` they make a noun of it: after signing. */
const prepositions = new Set('after before by during for in on'.split(' '))

/**
 * Verbs stand behind `to`, a pronoun or a modal verb, or at the end of the words that follow `do`, `does` and `did`; or they
 * end in `-ing`, or in `-ed` with nothing behind them that they could describe.
 *
 * @param forms the question's words, folded
 * @param saysNothing of a word that only joins others
 */
export function doingIn(
  forms: readonly string[],
  saysNothing: (form: string) => boolean,
): ReadonlySet<string> {
  const isDoing = (form: string, at: number): boolean => {
    if (saysNothing(form)) return false
    const before = forms[at - 1] ?? ''
    const isLast = at === forms.length - 1 || saysNothing(forms[at + 1]!)
    if (before === 'to' || subjects.has(before) || modals.has(before)) return true
    if (/^[a-z]{3,}ing$/.test(form)) return !determiners.has(before) && !prepositions.has(before)
    return isLast && (/^[a-z]{3,}ed$/.test(form) || endsAskedSentence(forms, at, saysNothing))
  }
  return new Set(forms.filter(isDoing))
}

/** `does the backup timer fire`: the last of several words behind the auxiliary and an article. */
function endsAskedSentence(
  forms: readonly string[],
  at: number,
  saysNothing: (form: string) => boolean,
): boolean {
  let from = at
  while (from > 0 && !saysNothing(forms[from - 1]!)) from--
  if (from === at) return false
  while (from > 0 && determiners.has(forms[from - 1]!)) from--
  return /^(?:do|does|did)$/.test(forms[from - 1] ?? '')
}
