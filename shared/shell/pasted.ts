/** Prompts and output that were pasted into a command along with it. */
import { maybePrompted } from '../journal/tidy/prompts.ts'
import { isComplete } from './commands.ts'
import { commandLikelihood } from './likely.ts'

export interface Pasted {
  readonly is: 'prompt' | 'continuation' | 'output'
  readonly from: number
  readonly to: number
  /** Whether a prompt is root's: it ends with `#`. */
  readonly isRoot: boolean
}

/**
 * What in a text is no command: prompts (`$ `, `root@desk:~# `), further prompts (`> `), and the lines of output behind a
 * command that had a prompt. Places are those of the text; a mend takes just these out.
 */
export function findPasted(text: string): Pasted[] {
  const found: Pasted[] = []
  let from = 0
  /** What was typed so far of a command that had a prompt; null where none had one. */
  let typed: string | null = null
  for (const line of text.split('\n')) {
    const part = pastedLine(line, from, typed)
    found.push(...part.pasted)
    typed = part.typed
    from += line.length + 1
  }
  return found
}

interface ReadLine {
  readonly pasted: readonly Pasted[]
  readonly typed: string | null
}

function pastedLine(line: string, from: number, typed: string | null): ReadLine {
  const isOpen = typed !== null && !isComplete(typed)
  const further = isOpen ? /^> ?/u.exec(line) : null
  if (further) {
    const part: Pasted = { is: 'continuation', from, to: from + further[0].length, isRoot: false }
    return { pasted: [part], typed: `${typed}\n${line.slice(further[0].length)}` }
  }
  if (isOpen) return { pasted: [], typed: `${typed}\n${line}` }
  const prompted = maybePrompted(line)
  if (prompted?.isSure && !prompted.isInner && prompted.command.trim() !== '') {
    const to = from + prompted.prompt.length
    const isRoot = prompted.prompt.trimEnd().endsWith('#')
    return { pasted: [{ is: 'prompt', from, to, isRoot }], typed: prompted.command }
  }
  const isOutput = typed !== null && line.trim() !== '' && commandLikelihood(line) < 1
  return { pasted: isOutput ? [{ is: 'output', from, to: from + line.length, isRoot: false }] : [], typed }
}
