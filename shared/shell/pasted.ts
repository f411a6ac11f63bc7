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
  let state: Typed = { text: '', isPrompted: false }
  for (const line of text.split('\n')) {
    const read = pastedLine(line, from, state)
    if (read.pasted) found.push(read.pasted)
    state = read.state
    from += line.length + 1
  }
  return found
}

/** What was typed so far of the last command, and whether it had a prompt. */
interface Typed {
  readonly text: string
  readonly isPrompted: boolean
}

interface ReadLine {
  readonly pasted: Pasted | null
  readonly state: Typed
}

function pastedLine(line: string, from: number, state: Typed): ReadLine {
  const isOpen = state.text !== '' && !isComplete(state.text)
  const goesOn = (more: string): Typed => ({ ...state, text: `${state.text}\n${more}` })
  if (isOpen) {
    const further = state.isPrompted ? (/^> ?/u.exec(line)?.[0] ?? '') : ''
    const to = from + further.length
    const pasted: Pasted | null = further === '' ? null : { is: 'continuation', from, to, isRoot: false }
    return { pasted, state: goesOn(line.slice(further.length)) }
  }
  const prompted = maybePrompted(line)
  if (prompted?.isSure && !prompted.isInner && prompted.command.trim() !== '') {
    const isRoot = prompted.prompt.trimEnd().endsWith('#')
    const pasted: Pasted = { is: 'prompt', from, to: from + prompted.prompt.length, isRoot }
    return { pasted, state: { text: prompted.command, isPrompted: true } }
  }
  if (!state.isPrompted) return { pasted: null, state: { text: line, isPrompted: false } }
  const isOutput = line.trim() !== '' && commandLikelihood(line) < 1
  return { pasted: isOutput ? { is: 'output', from, to: from + line.length, isRoot: false } : null, state }
}
