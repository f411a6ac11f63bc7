/** Commands that give the program one is in another prompt, as its own manual has it: `.prompt`, `sys.ps1 =`, `\set PROMPT1`. */
import type { InnerPrompt } from './programs.ts'

const setting = /(?:^|[\s.\\_])(?:prompt|ps)\d?\b/iu
const quoted = /"((?:[^"\\]|\\.)+)"|'((?:[^'\\]|\\.)+)'/gu

/** The prompt of a program behind a command that sets it to a text; the second text is the prompt for further lines. */
export function maybeSetPrompt(before: InnerPrompt, command: string): InnerPrompt | null {
  if (!setting.test(command)) return null
  const [own, further] = Array.from(command.matchAll(quoted), ([, double, single]) => double ?? single ?? '')
  if (own === undefined || own.trim() === '') return null
  return { ...before, prompt: atHead(own), further: further === undefined ? before.further : atHead(further) }
}

/** A text at the head of a line. Where nothing was typed, trimming has taken its blanks off. */
function atHead(text: string): RegExp {
  const plain = text.trimEnd()
  const blanks = text.length - plain.length
  const escaped = plain.replace(/[\\^$.*+?()[\]{}|/]/gu, String.raw`\$&`)
  return new RegExp(`^${escaped}${blanks > 0 ? `(?: {${blanks}}|$)` : ''}`, 'u')
}
