/** The upper line of a prompt of two lines. */

const ornament = /[\u2500-\u259F]/u
const account = /[\w.-]+@[\w.-]+/u
const showsPlace = /(?:^|[\s:[({])(?:~|\/[\w.-])|(?:^|\s)[a-z_][\w.-]* (?:on|at) [\w.-]+(?: in |$)/u

/** What stands in brackets of any kind may come and go. */
const groups = /\[[^\]]*\]|‹[^‹›]*›|«[^«»]*»|⟨[^⟨⟩]*⟩/gu

/** The head of a line whose upper line is one for sure: an editor was switched on in it, and both are edited at once. */
export const EDITED_HEAD = '\u0000'

/** How a line begins that may be the upper one of a prompt; empty where it cannot be. */
export function headKey(text: string): string {
  if (text.length > 200 || !(ornament.test(text[0] ?? '') || account.test(text) || showsPlace.test(text)))
    return ''
  // A prompt of one line is not the head of the next, unless what stands behind its sign is the place and stays.
  const sign = /[$#%>❯➜λ»›] (?=\S)/u.exec(text.replace(groups, (group) => ' '.repeat(group.length)))
  if (sign) return showsPlace.test(text.slice(sign.index + 1)) ? upToPlace(leveled(text)) : ''
  const found = account.exec(text)
  if (found) return leveled(text.slice(0, found.index)) + found[0]
  const [first = '', second = ''] = leveled(text).split(' ')
  return /[\p{L}]{2}/u.test(first) ? first : `${first} ${second}`
}

/** What stands behind the place comes and goes: a branch, a time, how the last command ended. */
const upToPlace = (text: string): string => /^.*?(?:^|[\s:[({])p(?=[\s\])}]|$)/u.exec(text)?.[0] ?? text

function leveled(text: string): string {
  return text
    .replace(/\d{1,2}:\d{2}(?::\d{2})?/gu, 't')
    .replace(/(^|[\s:[({])(?:~[^\s\])}]*|\/[^\s\])}]+)/gu, '$1p')
    .replace(/\d+/gu, 'n')
    .trimEnd()
}
