/** As much of English as instructions need: how they begin, what they join, and words that decide nothing. */

const list = (words: string): ReadonlySet<string> => new Set(words.trim().split(/\s+/))

/** Verbs that an instruction may begin with, in their plain form. */
const verbs = list(`
  accept activate add adjust agree aim align allow announce answer append apply approve archive arm arrange ask assign attach avoid
  back backup balance begin bind block blow book boot bore bring browse brush build burn buy call cancel carry change charge check
  choose clamp clean clear click clone close code collect comb come compare compile compress compute concatenate configure confirm
  connect convert cool copy correct count cover crank create cross cut cycle deactivate debug declare decide decompress decrypt define
  delete demount deny deploy describe detach determine dial dig dim direct disable discard disconnect dismount display divide do dock
  double download drag drain draw drill drive drop dry dump edit eject empty enable encrypt end ensure enter erase escape estimate
  evacuate evaluate examine exchange exit expand expect explain export expose extend extract fasten fetch file fill filter find finish
  fit fix flash flip flush fold follow force forget fork form format forward free freeze gather generate get give go grant grind
  ground group guard halt hand handle hang heat help hide hold identify import include increase inform insert inspect install invert
  invite isolate issue join jump keep kill label latch launch lay leak learn leave let level lift light limit line link list listen
  load lock log look loosen lower make map mark mask match measure melt merge mind mirror mix monitor mount move multiply name
  navigate note notify number observe omit open order organise organize override own pack paint park parse paste patch pause peel
  pick pin ping pipe place plan plot plug point poll pour power prepare press prevent print probe process program prohibit promote
  protect provide prove prune publish pull pump purge push put query quit raise read rebase reboot rebuild receive recharge reconnect
  record recover recreate recycle redirect reduce reenter refer refill reformat refresh refuse regenerate register regulate
  reinstall reject relabel release reload relock remember remount remove rename renew reopen reorder repair repeat rephrase replace
  reply report request reseat reserve reset reshape resize resolve rest restart restore restrict resume retain retry return reuse
  reverse revert review revoke rewind rewrite ring rinse roll rotate round route rub run salvage save say scan schedule scrape scroll
  scrub seal search seat secure see seek select send separate serve set settle shake share shield shift shorten show shrink shut
  sign signal sit skip slide snap solder sort space speak specify spin split spray spread squeeze stack stage stand start state stay
  stick stir stop store stow stretch strike strip submit subscribe subtract suspend swap sweep switch synchronise synchronize tag take
  tap tape teach tear tell test thread throw tick tidy tie tighten tilt time toggle touch trace track trail train transfer translate
  trigger trim trust try tune turn twist type unblock uncheck uncomment uncover undo unfold uninstall unload unlock unmask unmount
  unpack unplug unroll unscrew unseal unset untie unwrap unzip update upgrade upload use validate verify view visit vent wait wake
  walk warm warn wash watch weigh weld wet wind wipe wire withdraw work wrap write zero zip zoom
`)

/** Words for which a shorter one does, after plainlanguage.gov's list of simple words, kept in part from memory. */
export const plainerVerbs: Readonly<Record<string, string>> = {
  accomplish: 'do',
  acquire: 'get',
  actuate: 'start',
  ameliorate: 'improve',
  ascertain: 'find out',
  cease: 'stop',
  commence: 'begin',
  conduct: 'do',
  construct: 'build',
  discontinue: 'stop',
  dispatch: 'send',
  effect: 'make',
  effectuate: 'make',
  eliminate: 'remove',
  employ: 'use',
  endeavor: 'try',
  endeavour: 'try',
  execute: 'run',
  expedite: 'hurry',
  facilitate: 'help',
  finalise: 'finish',
  finalize: 'finish',
  furnish: 'give',
  implement: 'do',
  initialise: 'start',
  initialize: 'start',
  initiate: 'start',
  instantiate: 'make',
  leverage: 'use',
  locate: 'find',
  modify: 'change',
  obtain: 'get',
  perform: 'do',
  procure: 'get',
  proceed: 'go on',
  purchase: 'buy',
  relocate: 'move',
  render: 'make',
  retrieve: 'get',
  terminate: 'end',
  transmit: 'send',
  utilise: 'use',
  utilize: 'use',
}

export const isVerb = (word: string): boolean => {
  const bare = word.toLowerCase().replace(/^re-/, '')
  return verbs.has(bare) || Object.hasOwn(plainerVerbs, bare)
}

/** Words with which an instruction does not begin: it has a subject, or it asks. */
const subjects = list(`
  a an the this that these those there here it its you your we our they their he she i one all any both each every no none users
  operators please it's you'll you're we'll there's let's
`)
const isHelping = (word: string): boolean =>
  /^(?:is|are|was|were|be|been|should|must|shall|may|might|can|could|will|would|has|have|had|needs?|ought|gets?)$/u.test(
    word,
  )
const isNoun = (word: string): boolean => /.(?:tion|sion|ment|ance|ence|ity|ness|age|ure)s?$/u.test(word)

/** How a sentence goes about what it wants done. Places are those of the sentence. */
export interface Opening {
  /** Where the main clause begins, behind conditions, places and words of order. */
  readonly at: number
  readonly word: string
  readonly is: 'verb' | 'long word' | 'no verb' | 'unknown'
  /** A condition stands before it. */
  readonly isConditional: boolean
}

const conditions =
  /^(?:if|when|whenever|unless|once|while|where|as soon as|as long as|in case|provided|should|until|after|before)\b/iu
const places = /^(?:on|in|at|from|for|with|to|by|under|behind|within|inside|near|still|without)\b/iu
const orders =
  /^(?:and |but |then|now|next|first|second|third|finally|again|afterwards?|lastly|meanwhile|also|here|there|only|just|\p{L}+ly)\b,?\s+/iu
const labels = /^(?:\p{L}+ ){0,2}\p{L}+:\s+/u

/** Reads how a sentence begins. */
export function openingOf(sentence: string): Opening {
  let at = /^[\s"'“‘(*_]*/u.exec(sentence)![0].length
  let isConditional = false
  for (;;) {
    const rest = sentence.slice(at)
    const isCondition = conditions.test(rest)
    const behind = isCondition || places.test(rest) ? endOfClause(rest) : 0
    const step = behind || (orders.exec(rest)?.[0].length ?? 0) || labelLength(rest)
    if (step === 0) break
    isConditional ||= isCondition
    at += step
  }
  const word = /^[\p{L}\p{N}'’-]+/u.exec(sentence.slice(at))?.[0] ?? ''
  return { at, word, is: kindOf(word.toLowerCase(), sentence.slice(at)), isConditional }
}

/** Behind the comma, colon or “then” that closes a clause at the head; 0 where there is none. */
function endOfClause(text: string): number {
  return /^[^,:]*?(?:[,:]\s+(?:then\s+)?|\sthen\s+)/iu.exec(text)?.[0].length ?? 0
}

const labelLength = (text: string): number => {
  const label = labels.exec(text)?.[0] ?? ''
  return label !== '' && !isVerb(/^\p{L}+/u.exec(label)![0]) ? label.length : 0
}

function kindOf(word: string, clause: string): Opening['is'] {
  if (Object.hasOwn(plainerVerbs, word)) return 'long word'
  const [, second = '', third = ''] = clause.toLowerCase().split(/\s+/u)
  if (isHelping(second) || (verbs.has(word) && /^(?:of|is|are|was|were)$/u.test(second))) return 'no verb'
  if (/^(?:do|don't|never|avoid|be)$/u.test(word) || verbs.has(word)) return 'verb'
  if (word === '' || subjects.has(word) || /.ing$/u.test(word) || isNoun(word)) return 'no verb'
  return isHelping(third) ||
    clause
      .split(/\s+/u)
      .slice(1, 6)
      .some((one) => isHelping(one.toLowerCase()))
    ? 'no verb'
    : 'unknown'
}

/** An action within a sentence: where its verb stands. */
export interface Action {
  readonly at: number
  readonly verb: string
}

const object =
  /^\s+(?:the|a|an|it|them|this|that|these|those|your|its|their|all|each|every|both|one|two|three|\d|\ufffc|⁅|up|down|off|out|on|in|to|from|with|again|back|for|until|whether|what|who|how|\p{Lu})/u
/** Second verbs that only say how the first is done. */
const manner = new Set(['hold', 'see', 'press', 'try'])
/** Sentences with these forbid, point or leave alone; they are no further action. */
const passive = new Set([
  'note',
  'remember',
  'skip',
  'leave',
  'keep',
  'do',
  "don't",
  'never',
  'avoid',
  'be',
  'expect',
])

/** Points at another place of the text. */
const pointing = /^see (?:also |the |a )?(?:steps?|sections?|notes?|parts?|above|below|\ufffc)\b/iu

/** What a sentence tells the reader to do, one for each verb that it joins. */
export function actionsIn(sentence: string): Action[] {
  const opening = openingOf(sentence)
  if (opening.is !== 'verb' && opening.is !== 'long word') return []
  if (passive.has(opening.word.toLowerCase()) || pointing.test(sentence.slice(opening.at))) return []
  const first = { at: opening.at, verb: opening.word.toLowerCase() }
  const behind = opening.at + opening.word.length
  const joins = sentence
    .slice(behind)
    .matchAll(/(?:(,|;)\s+(and\s+)?(then\s+)?|\s(and|then)\s+(then\s+)?)(\p{L}[\p{L}-]*)/gu)
  const further = [...joins].flatMap((match): Action[] => {
    const verb = match[6]!.toLowerCase()
    const at = behind + match.index + match[0].length - verb.length
    const saysThen = /then\s+\p{L}+$/u.test(match[0])
    const rest = sentence.slice(at + verb.length)
    const isJoined = sentence.slice(behind, behind + match.index).trim() === ''
    if (!isVerb(verb) || verb !== match[6] || isJoined || (manner.has(verb) && !saysThen)) return []
    return saysThen || object.test(rest) ? [{ at, verb }] : []
  })
  return [first, ...further]
}

/** A condition that stands behind what it decides: where it begins. */
export function maybeLateCondition(sentence: string): number | undefined {
  const opening = openingOf(sentence)
  if (opening.is !== 'verb' && opening.is !== 'long word') return undefined
  const late = /[,\s](?:only\s+)?(if|when|unless|once|in case|as long as|provided that)\s/giu
  for (const match of sentence.slice(opening.at).matchAll(late)) {
    const at = opening.at + match.index
    const before = sentence.slice(opening.at, at)
    if (/\b(?:as|even|see|check|look|ask|know|test|tell|say|says|out|like|what|whether)$/iu.test(before))
      continue
    if (/^(?:see|check|find|ask|look|test|decide|determine|know)\b/iu.test(before) && /if/iu.test(match[1]!))
      continue
    if (
      /^\s?(?:if|when|unless|once)\s(?:needed|necessary|possible)/iu.test(sentence.slice(at)) ||
      before.trim() !== ''
    )
      return at + 1
  }
  return undefined
}
