/** What the check of a seal says to the person. */
import type { SealedTable, SealHead } from './model.ts'

/** Why a chain does not hold. */
export const breakCodes = [
  'number',
  'unreadable',
  'hash',
  'before',
  'label',
  'doubled',
  'taken',
  'missing',
  'changed',
  'words',
  'unmatched',
  'no salt',
  'salt left',
  'no mask',
  'unsealed',
  'shown',
  'stray salt',
  'head',
  'bytes',
] as const
export type BreakCode = (typeof breakCodes)[number]

/** The first place where a journal is not as it was sealed. */
export interface SealBreak {
  readonly code: BreakCode
  /** The seal's number; null for a record that has no seal, and for a noted head. */
  readonly number: number | null
  /** The record; null where none is named. */
  readonly of: { readonly table: SealedTable | 'texts'; readonly id: string } | null
  /** The place in the record, such as `text` or `place.host`; null for the record as a whole. */
  readonly field: string | null
}

const things: Readonly<Record<SealedTable | 'texts', string>> = {
  entries: 'an entry',
  revisions: 'an amendment',
  withdrawals: 'a withdrawal',
  marks: 'something set on an entry',
  strikes: 'a strike',
  texts: 'an entry',
}

/** What stands at a place of a sealed record, for people. */
export function fieldName(field: string): string {
  const last = field.split('.').at(-1)!
  return fieldNames[last] ?? 'a detail'
}

const fieldNames: Readonly<Record<string, string>> = {
  text: 'the text',
  host: 'the host name',
  user: 'the user',
  directory: 'the directory',
  log: 'the name of the log',
  path: 'the path of the file',
  owner: 'the owner of the file',
  group: 'the group of the file',
  mode: 'the mode of the file',
  reason: 'the reason',
  now: 'the text',
}

/** Where it breaks and why, in one or two sentences, with what still holds and what to do next. */
export function breakSentence(at: SealBreak): string {
  return `${whatIsWrong(at)} ${whatHolds(at.number)} Nothing was changed by checking; compare with a backup or an earlier export to see what stood there.`
}

function whatHolds(number: number | null): string {
  if (number === null) return 'All that the seals name is as it was sealed.'
  return number === 1 ? 'This is the first seal.' : `Seals 1 to ${number - 1} hold.`
}

function whatIsWrong({ code, number, of, field }: SealBreak): string {
  const seal = `Seal ${number ?? '?'}`
  const thing = of ? things[of.table] : 'a record'
  const words = field === null ? 'a text' : fieldName(field)
  switch (code) {
    case 'number':
      return `Where seal ${number} should stand, another one stands: a seal was removed, added or moved.`
    case 'unreadable':
      return `${seal} cannot be read.`
    case 'hash':
      return `${seal} was changed: its SHA-256 is not the one that it was made with.`
    case 'before':
      return `${seal} does not follow the seal before it: a seal before it was changed, removed or made anew.`
    case 'label':
      return `${seal} stands under a number, project or record that is not its own.`
    case 'doubled':
      return `${seal} seals ${thing} that was sealed before.`
    case 'taken':
      return `${seal} names a struck-out text that no seal before it holds.`
    case 'missing':
      return `${seal} was put on ${thing} that is gone or cannot be put together any more.`
    case 'changed':
      return `${seal} was put on ${thing} that says something else now (its moment, its kind or what it belongs to).`
    case 'words':
      return `${seal} was put on ${thing} in which ${words} is not what was sealed.`
    case 'unmatched':
      return `${seal} was put on ${thing} in which ${words} was not what was sealed even before something was struck out of it.`
    case 'no salt':
      return `${seal} was put on ${thing} in which ${words} cannot be checked: its salt is gone, and no strike says why.`
    case 'salt left':
      return `${seal} still has the salt of ${words}, out of which something was struck.`
    case 'no mask':
      return `${seal} was put on ${thing} in which ${words} is said to be struck out, but shows no mark of it.`
    case 'unsealed':
      return `There is ${thing} without a seal: it came into the journal past the program, or its seal was removed from the end.`
    case 'shown':
      return 'An entry shows a text that is not the one that its revisions make.'
    case 'stray salt':
      return 'There is a salt that belongs to no seal.'
    case 'bytes':
      return `${seal} names a picture or file whose bytes are not those that were sealed.`
    case 'head':
      return number === null
        ? 'The head that was noted is not in this journal: it was made anew, or cut off before that head.'
        : `${seal} is not the one that was noted: the journal was made anew.`
  }
}

/** What it means that all holds. */
export function heldSentence(count: number, struck: number, late: number, head: SealHead | null): string {
  if (head === null) return 'Nothing is sealed yet: this journal is empty.'
  const parts = [
    `All ${count} seals hold: nothing that was sealed was changed since.`,
    struck > 0
      ? `${struck === 1 ? 'One text was' : `${struck} texts were`} struck out in part; the rest stands as the strike left it.`
      : '',
    late > 0
      ? `${late === 1 ? 'One seal was' : `${late} seals were`} made when sealing was introduced, and vouch for what stood then.`
      : '',
    `The head is seal ${head.number}. Note its SHA-256 elsewhere, so that nobody can make the whole journal anew unseen.`,
  ]
  return parts.filter((part) => part !== '').join(' ')
}
