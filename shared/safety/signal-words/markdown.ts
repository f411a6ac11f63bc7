/**
 * A caution as Markdown:
 *
 *     **Warning:** Mains voltage stands on the terminals.
 *
 *     *If not avoided:* a shock that can kill.
 *
 *     *To avoid it:* Pull the plug.
 *
 * Paragraphs and emphasis only, so that every reader of CommonMark shows it as it is meant, and a person can write it by hand.
 * A text without these words is a hazard as a whole.
 */
import type { Paragraph, RootContent } from 'mdast'
import { maybeTree } from '../../markdown/parse.ts'
import { signalWordMeanings, signalWords, type Caution, type SignalWord } from './caution.ts'

const leads = [
  ['consequence', 'If not avoided'],
  ['avoidance', 'To avoid it'],
] as const
type LaterPart = (typeof leads)[number][0]

/** Writes a caution. Parts that are empty are left out; a text that begins like another part is escaped. */
export function cautionToMarkdown(caution: Caution): string {
  const hazard = kept(caution.hazard)
  const head =
    caution.signal === null
      ? withoutSignal(hazard)
      : joined(`**${signalWordMeanings[caution.signal].word}:**`, hazard)
  const later = leads.flatMap(([part, words]) => {
    const text = kept(caution[part])
    return text === '' ? [] : [joined(`*${words}:*`, text)]
  })
  return [head, ...later].filter((text) => text !== '').join('\n\n')
}

/** A list, a quotation or a fence begins on a line of its own. */
function joined(lead: string, text: string): string {
  const [first] = maybeTree(text)?.children ?? []
  if (text === '') return lead
  return first === undefined || first.type === 'paragraph' ? `${lead} ${text}` : `${lead}\n\n${text}`
}

/** Trimmed, and without paragraphs that would be read as the start of another part. */
function kept(text: string): string {
  const starts = (maybeTree(text)?.children ?? []).flatMap((node) =>
    maybeLead(node) ? [node.position!.start.offset!] : [],
  )
  return starts.reduceRight((made, at) => `${made.slice(0, at)}\\${made.slice(at)}`, text).trim()
}

/** Where a caution without a signal word begins like one with it, its sign is escaped. */
function withoutSignal(text: string): string {
  return maybeSignal(text) ? `\\${text}` : text
}

/** Reads a caution. Never fails: a text that names no part is a hazard. */
export function cautionFromMarkdown(text: string): Caution {
  const tree = maybeTree(text)
  const signal = maybeSignal(text)
  const read: Record<'hazard' | LaterPart, string> = { hazard: '', consequence: '', avoidance: '' }
  let part: 'hazard' | LaterPart = 'hazard'
  let at = signal?.end ?? 0
  for (const node of tree?.children ?? []) {
    const lead = maybeLead(node)
    if (!lead) continue
    read[part] = join(read[part], text.slice(at, node.position!.start.offset))
    part = lead.part
    at = lead.end
  }
  read[part] = join(read[part], text.slice(at))
  return { signal: signal?.word ?? null, ...read }
}

/** A part that is named twice has both texts. */
function join(before: string, text: string): string {
  return [before, text.trim()].filter((one) => one !== '').join('\n\n')
}

/** The signal word that a caution's text begins with. */
export function signalWordOf(text: string): SignalWord | null {
  return maybeSignal(text)?.word ?? null
}

/**
 * The signal word at the start, strong or plain, with a colon or an exclamation mark, in capitals or not; and where it ends.
 * Forms that people wrote by hand are read, the first of the list above is written.
 */
function maybeSignal(text: string): { readonly word: SignalWord; readonly end: number } | undefined {
  const match = /^\s*(?:(\*\*|__)(\p{L}+)(?:[:!]\1|\1[:!])|(\p{L}+)[:!])(?=\s|$)\s*/u.exec(text)
  const named = (match?.[2] ?? match?.[3])?.toLowerCase()
  const word = signalWords.find((one) => one === named)
  return match && word ? { word, end: match[0].length } : undefined
}

function maybeLead(node: RootContent): { readonly part: LaterPart; readonly end: number } | undefined {
  if (node.type !== 'paragraph') return undefined
  const words = maybeEmphasis(node)
  const found = leads.find(([, lead]) => words?.text.toLowerCase() === `${lead.toLowerCase()}:`)
  return found && words && { part: found[0], end: words.end }
}

function maybeEmphasis(node: Paragraph): { readonly text: string; readonly end: number } | undefined {
  const [first] = node.children
  if (first?.type !== 'emphasis' || first.children.length !== 1 || first.children[0]!.type !== 'text')
    return undefined
  return { text: first.children[0].value, end: first.position!.end.offset! }
}
