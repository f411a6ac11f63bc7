/** Where a prompt may end in a line, and what kind of prompt that would be. */
import type { PromptPlace } from './line.ts'
import { placeOf } from './place.ts'

/**
 * - `account`: it names user and host
 * - `folder`: it shows a directory
 * - `name`: one word and a sign, as `gate%` or `router(config)#`
 * - `sign`: a sign that stands in few texts, such as `❯`
 * - `bare`: nothing but `$`, `#`, `%` or `>`, perhaps with ornaments
 * - `other`: words before a sign
 */
export type Form = 'account' | 'folder' | 'name' | 'sign' | 'bare' | 'other'

/** A possible prompt: the beginning of a line up to a sign and a blank. */
export interface Candidate {
  /** Shape, sign and blanks: what all prompts of one setting share. */
  readonly key: string
  readonly form: Form
  /** What does not change while one shell runs: the account, the name. Empty where nothing is known to stay. */
  readonly identity: string
  /** The first word with the sign behind it, where one directly follows: `t gate:`. Empty where it is a path. */
  readonly anchor: string
  /** The shape of what stands before the account. */
  readonly leadShape: string
  /** The prompt with times and numbers levelled, to see whether it recurs. */
  readonly literal: string
  /** How many characters stand before the command. */
  readonly length: number
  /** What stands behind the prompt. */
  readonly rest: string
  /** What stands before the sign, which shows the place. */
  readonly body: string
  readonly sign: string
}

const usualSigns = '$#%>'
const rareSigns = '❯➜λ»›▶⟩→⇒⟫❱➤ᐅ▸'
const openers = new Map([
  ['›', '‹'],
  ['»', '«'],
  ['⟩', '⟨'],
])
const signAt = new RegExp(`([${usualSigns}])\\1?(?=\\s|$)|[${rareSigns}](?=\\s|$)`, 'gu')
/** Behind a colon it is a folder and its branch. */
const account = /(?<![\w.:/-])[\w.-]+@[\w.-]+/u
/** `host:directory user`, with the sign directly behind. */
const hostFirst = /^([A-Za-z][\w.-]*):\S+ ([a-z_][\w.-]*)$/u
const leveled: readonly (readonly [RegExp, string])[] = [
  [/\d{4}-\d{2}-\d{2}/gu, 'd'],
  [/\d{1,2}:\d{2}(?::\d{2})?(?: ?[AP]M)?/gu, 't'],
]
/** Longer beginnings of a line are no prompts. */
const longest = 160
const mostSigns = 3

/** Where the prompt says that its command runs. */
export const placeAt = ({ body, sign, form }: Candidate): PromptPlace => placeOf(body, sign, form)

/** All candidates of a line, from left to right. */
export function candidatesOf(text: string): Candidate[] {
  const found: Candidate[] = []
  const led = signLed.exec(text)
  if (led) return [signLedCandidate(text, led)]
  const head = text.slice(0, longest)
  for (const { 0: sign, index } of head.matchAll(signAt)) {
    // A sign three times, as `###` and `>>>`, is a heading, a quotation, or Python's own.
    if (usualSigns.includes(sign[0] ?? '') && head[index - 1] === sign[0]) continue
    // What closes a bracket ends no prompt.
    const opener = openers.get(sign)
    if (opener !== undefined && head.slice(0, index).includes(opener)) continue
    // A sign that is set in is a code block's, or a quotation's.
    if (index > 0 && head.slice(0, index).trim() === '') continue
    found.push(candidateAt(text, index, sign))
    if (found.length === mostSigns) break
  }
  return found
}

/**
 * All candidates of a line in which a line editor was switched on, which is a prompt for sure: any sign may end it.
 * @param editedAt where the cursor stood when it was
 */
export function editedCandidatesOf(text: string, editedAt: number): Candidate[] {
  const usual = candidatesOf(text)
  const others: Candidate[] = []
  for (const { 0: sign, index } of text.slice(0, longest).matchAll(anySignAt)) {
    if (index < 1 || usual.some(({ length }) => length === index + 2)) continue
    others.push(candidateAt(text, index, sign))
    if (others.length === mostSigns) break
  }
  // zsh has shown the prompt before.
  const ended = [...usual, ...others].filter(
    ({ length }) => length === Math.min(editedAt, text.length) && editedAt > 0,
  )
  return ended.length > 0 ? ended : [...usual, ...others]
}

const anySignAt = /[^\p{L}\p{N}\s"'`()[\]{}/\\~.,=-](?=\s|$)/gu

/** `➜  folder git:(branch) ✗ `: the sign stands first, with two blanks behind it. */
const signLed = /^([➜→❯»]) {2}(\S+)(?: \w+:\([^)]*\))?(?: [✗✘×])?(?: |$)/u

function signLedCandidate(text: string, [prompt, sign = '', word = '']: RegExpExecArray): Candidate {
  const key = `${sign}  w`
  return {
    key,
    form: 'folder',
    identity: '',
    anchor: '',
    leadShape: '',
    literal: key + sign,
    length: prompt.length,
    rest: text.slice(prompt.length),
    body: word,
    sign,
  }
}

function candidateAt(text: string, index: number, sign: string): Candidate {
  const body = text.slice(0, index)
  // One blank belongs to the prompt. Where nothing was typed, trimming has taken it off.
  const length = Math.min(text.length, index + sign.length + 1)
  const rest = text.slice(length)
  const shape = shapeOf(body)
  const form = formOf(body, shape, sign)
  const leadShape = account.test(body) ? shape.slice(0, shape.indexOf('@')).trim() : ''
  const identity = form === 'account' ? accountIn(body) : form === 'name' ? withoutGroups(body) : ''
  const literal = level(body) + sign
  return {
    key: `${form === 'account' ? '@ ' : ''}${shape}${sign}`,
    form,
    identity,
    anchor:
      /^[^\p{L}\p{N}~/]*(?:[dt] [^\p{L}\p{N}~/]*)?\p{L}[\p{L}\p{N}_.-]+[:)\]}]/u.exec(level(body))?.[0] ?? '',
    leadShape,
    literal,
    length,
    rest,
    body,
    sign,
  }
}

/** `user@host`, and `host:… user` where the prompt has it in that order. */
function accountIn(body: string): string {
  const found = hostFirst.exec(body)
  return account.exec(body)?.[0] ?? (found ? `${found[2]}@${found[1]}` : '')
}

function level(body: string): string {
  return leveled.reduce((text, [pattern, letter]) => text.replace(pattern, letter), body)
}

/** Parts in parentheses come and go: a branch, an environment, a mode. */
function withoutGroups(body: string): string {
  return body.replace(/\s*\([^()]*\)\s?/gu, '')
}

/** The shape of a prompt: words, paths and numbers become `w`, what stands between them stays. */
export function shapeOf(body: string): string {
  return level(withoutGroups(body))
    .replace(new RegExp(account.source, 'gu'), '@')
    .replace(/[~/…][^\s\])}:]*|[\p{L}\p{N}_.+-]+/gu, (word) => (/^[dt]$/u.test(word) ? word : 'w'))
    .replace(/\s+/gu, ' ')
}

/** Not a sentence with an address in it: few words before the account, and more than the account before a `>`. */
function isAccountPrompt(body: string, shape: string, sign: string): boolean {
  const words = withoutGroups(body.slice(0, account.exec(body)?.index ?? 0)).match(/\p{L}{2,}/gu) ?? []
  return words.length <= 1 && !(sign === '>' && /@ $/u.test(shape))
}

function formOf(body: string, shape: string, sign: string): Form {
  if (account.test(body) && (shape.match(/w/gu) ?? []).length <= 4 && isAccountPrompt(body, shape, sign))
    return 'account'
  if (hostFirst.test(body) && usualSigns.includes(sign)) return 'account'
  if (shape.trim() === '' || !/[w@]/u.test(shape)) return rareSigns.includes(sign) ? 'sign' : 'bare'
  if (/(?:^|[\s:[(])(?:~|\/)/u.test(body) && (shape.match(/w/gu) ?? []).length <= 3) return 'folder'
  if (/^[A-Za-z][\w.-]*$/u.test(withoutGroups(body))) return 'name'
  return rareSigns.includes(sign) && (shape.match(/w/gu) ?? []).length <= 4 ? 'sign' : 'other'
}
