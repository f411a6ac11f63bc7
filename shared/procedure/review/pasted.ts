/** Prompts and output that were copied along with the commands of a script. */
import { commandLikelihood } from '../../shell/likely.ts'
import { effectOf } from '../../shell/effects.ts'
import { seenCommands } from '../../shell/seen.ts'

export interface PastedLine {
  readonly is: 'prompt' | 'output'
  /** In the script, in UTF-16 code units: the prompt with the blank behind it, or the whole line. */
  readonly from: number
  readonly to: number
}

/** `name@host:folder$ `, `[name@host folder]# `, `host# `, `$ `, `> `. */
const prompt = /^\s*(?:\[?[\w.-]+@[\w.-]+[^$#%>\n]{0,80}[$#%>]|[\w.-]*[$%]|>|[\w.-]{2,20}[#>])\s+(?=\S)/u
/** A `#` is a comment unless a command stands behind it. */
const rootPrompt = /^#\s+(?=\S)/u

/** @param isLiteral whether a line, given by its start, stands in a here-document or within quotes */
export function findPasted(script: string, isLiteral: (from: number) => boolean): PastedLine[] {
  const found: PastedLine[] = []
  let at = 0
  for (const line of script.split('\n')) {
    const from = at
    at += line.length + 1
    if (isLiteral(from) || line.trim() === '') continue
    const sign = prompt.exec(line)?.[0] ?? (isRootPrompt(line) ? rootPrompt.exec(line)![0] : '')
    if (sign !== '') found.push({ is: 'prompt', from, to: from + sign.length })
    else if (isOutput(line)) found.push({ is: 'output', from, to: from + line.length })
  }
  return found
}

const isRootPrompt = (line: string): boolean => {
  const sign = rootPrompt.exec(line)?.[0]
  return sign !== undefined && commandLikelihood(line.slice(sign.length)) >= 2
}

function isOutput(line: string): boolean {
  if (/^\s|^[#)}\]]|\\$/u.test(line) || commandLikelihood(line) >= -0.5) return false
  const commands = seenCommands(line)
  return commands.length === 0 || commands.every((seen) => !effectOf(seen).isKnown && seen.name !== null)
}
