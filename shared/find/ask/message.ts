/**
 * What of a pasted message is always the same: its words without numbers, paths, names of hosts and of files. Two messages
 * are the same when the same words follow each other in both, whatever stands between them.
 */
import { fold } from '../index/fold.ts'
import { toWords } from '../tokens.ts'

/** Pairs of words that follow each other in a message. Empty for one word and for none. */
export type MessagePairs = ReadonlySet<string>

export function messagePairs(text: string): MessagePairs {
  const words = toWords(text)
    .map(({ written }) => fold(written))
    .filter(isAlwaysThere)
  return new Set(words.slice(1).map((word, at) => `${words[at]!} ${word}`))
}

/** Says whether what was typed looks like what a program printed, not like a sentence. */
export function isPasted(typed: string): boolean {
  return /: |["[\]=]|\.{3}|^\W*[45]\d\d [A-Z]/.test(typed)
}

/** How much of a message stands word behind word in a text, 0 to 1; 0 for a message of one word. */
export function shareOfMessage(message: MessagePairs, text: MessagePairs): number {
  let held = 0
  for (const pair of message) if (text.has(pair)) held++
  return message.size === 0 ? 0 : held / message.size
}

/** Letters alone, also with a hyphen or an apostrophe within: no number, path, host, unit or option. */
function isAlwaysThere(word: string): boolean {
  return /^\p{L}[\p{L}\p{M}'’-]*$/u.test(word)
}
