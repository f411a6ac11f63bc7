/** Prompts in typed text: whether a line surely is a command behind one. */
import { isComplete, splitCommands } from '../../shell/commands.ts'
import { commandLikelihood } from '../../shell/likely.ts'
import { commandNames } from '../../shell/names.ts'
import { innerPrompts } from '../terminal/prompts/programs.ts'

/** A line taken for a prompt and what was typed there. */
export interface Prompted {
  /** The prompt with the blank behind it. */
  readonly prompt: string
  /** What stands behind it; empty where nothing was typed. */
  readonly command: string
  /** Whether the line is a prompt by itself, or only where prompts of that kind stand around it. */
  readonly isSure: boolean
  /** Whether it is the prompt of a program that is no shell. */
  readonly isInner: boolean
}

/** `user@host:~$ `, `[user@host dir]# `, `user@host ~ % `, with a time or an environment before it. */
const account =
  /^((?:\([^()]*\) ?)?(?:\[?\d\d:\d\d(?::\d\d)?\]? )?[[(]?[a-z_][\w.-]*@[A-Za-z][\w.-]*(?:[: ](?:[~/][^\s$#%>\])]*|[\w.-]+))?(?: ?\([^()]*\))?[\])]? ?[$#%>❯])(?: (.*)|$)/u
/** `~/src $ `, `/etc # `, `[~]$ `. */
const folder = /^(\[?[~/][\w./~-]*\]? ?[$#%❯])(?: (.*)|$)/u
/** `sh-5.2$ `, `gate% `, `router(config)# `. */
const name = /^([a-z][\w.-]*(?:\([\w-]+\))?[$#%])(?: (.*)|$)/u
/** Signs that stand in few texts. */
const rare = /^((?:\S{1,3} )?[❯➜»])(?: +(.*)|$)/u
const bare = /^([$#%])(?: (.*)|$)/u
/** Their prompts are a quotation, a box or a sign of Markdown too. */
const likeText: ReadonlySet<string> = new Set(['python', 'node', 'nslookup', 'lua', 'R', 'bluetoothctl'])
/** Programs with a prompt that no sentence begins with. */
const inner = innerPrompts.filter(({ name: program }) => !likeText.has(program))

/** How long the prompt of such a program is at the head of a line; 0 where none stands there. */
function innerLength(text: string): number {
  // A time of day and a `>` open a line of a talk.
  if (/^\d{1,2}:\d\d>/u.test(text)) return 0
  return Math.max(0, ...inner.map(({ prompt }) => prompt.exec(text)?.[0].length ?? 0))
}

/** What a line reads like behind its indent, or null where it is no prompt, not even perhaps. */
export function maybePrompted(line: string): Prompted | null {
  const indent = /^[ \t]*/u.exec(line)?.[0] ?? ''
  const found = promptedHere(line.slice(indent.length))
  return found && { ...found, prompt: indent + found.prompt }
}

function promptedHere(text: string): Prompted | null {
  const inside = innerLength(text)
  if (inside > 0)
    return { prompt: text.slice(0, inside), command: text.slice(inside), isSure: true, isInner: true }
  const named = account.exec(text)
  if (named) return toPrompted(named, text, isAfterAccount(named[1]!, named[2]))
  const placed = folder.exec(text)
  if (placed) return toPrompted(placed, text, isTyped(placed[2], 0))
  const shell = name.exec(text)
  if (shell) return isTyped(shell[2], 1) ? toPrompted(shell, text, true) : null
  const seldom = rare.exec(text)
  if (seldom) return toPrompted(seldom, text, isTyped(seldom[2], 0))
  const plain = bare.exec(text)
  return plain && toPrompted(plain, text, isBareSure(plain[1]!, plain[2] ?? ''))
}

function toPrompted(match: RegExpExecArray, text: string, isSure: boolean): Prompted {
  const command = match[2] ?? ''
  return { prompt: text.slice(0, text.length - command.length), command, isSure, isInner: false }
}

/** An account and a sign are a prompt, unless a sentence follows: an address at the head of a remark. */
function isAfterAccount(prompt: string, command: string | undefined): boolean {
  const hasPlace = /[~/:\])]/u.test(prompt)
  if (command === undefined || command.trim() === '') return hasPlace
  return hasPlace ? commandLikelihood(command) > -3 : isTyped(command, 0)
}

function isTyped(command: string | undefined, least: number): boolean {
  const words = command?.trim() ?? ''
  if (/^(?:for|while|until|if|case)\s.*[;)]/u.test(words)) return true
  if (words === '' || /^(?:is|are|the|a|an|was|and|or|of|to|for|in|on)\b/iu.test(words)) return false
  return commandLikelihood(words) >= least
}

/** A sign alone: `$` is rarely anything else at the head of a line; `#` is a heading; `%` is many things. */
function isBareSure(sign: string, command: string): boolean {
  if (sign === '$') return isTyped(command, -1) && !/^\d/u.test(command)
  if (sign === '%') return commandLikelihood(command) >= 2
  return isSureCommand(command) || (/\\$|<<-?\s?['"]?\w/u.test(command) && commandLikelihood(command) >= 2)
}

/** What may follow a name so that the two together are a command and no heading. */
const verbs: Readonly<Record<string, RegExp>> = {
  apt: /^(?:update|upgrade|full-upgrade|install|remove|purge|autoremove|search|show|list|policy)$/u,
  'apt-get': /^(?:update|upgrade|dist-upgrade|install|remove|purge|autoremove|clean)$/u,
  dnf: /^(?:update|upgrade|install|remove|search|info)$/u,
  apk: /^(?:add|del|update|upgrade|info)$/u,
  systemctl:
    /^(?:start|stop|restart|reload|status|enable|disable|daemon-reload|mask|unmask|is-active|list-units|list-timers|cat|edit|show)$/u,
  git: /^(?:add|clone|commit|pull|push|status|log|diff|checkout|switch|branch|fetch|merge|rebase|stash|init|reset|show)$/u,
  docker: /^(?:ps|run|exec|logs|build|pull|images|stop|start|restart|rm|rmi|inspect|compose)$/u,
  podman: /^(?:ps|run|exec|logs|build|pull|images|stop|start|restart|rm|rmi|inspect)$/u,
  ip: /^(?:a|addr|address|l|link|r|route|neigh|rule)$/u,
  ufw: /^(?:allow|deny|enable|disable|status|reload)$/u,
  zfs: /^(?:list|create|destroy|snapshot|send|receive|set|get|mount)$/u,
  zpool: /^(?:status|list|create|import|export|scrub|replace|add)$/u,
  npm: /^(?:install|ci|run|start|test|update)$/u,
  nmcli: /^(?:con|connection|dev|device|general|radio)$/u,
  wg: /^(?:show|genkey|pubkey|set)$/u,
  kubectl: /^(?:get|describe|apply|delete|logs|exec)$/u,
}

/**
 * Whether a text without a prompt surely is a command: its name is one, and an option, a path, an operator or a verb
 * of that command stands with it, and a shell could read it.
 */
export function isSureCommand(text: string): boolean {
  const [first = '', second = ''] = text.trim().split(/\s+/u)
  if (first === '' || /\p{L}[.!?:,]$/u.test(text.trimEnd())) return false
  const score = commandLikelihood(text)
  const isKnown = Object.hasOwn(verbs, first) && verbs[first]!.test(second)
  const isLed = /^(?:sudo|doas)$/u.test(first) && (commandNames.has(second) || second.startsWith('-'))
  if (score < 3 && !(score >= 2 && (isKnown || isLed))) return false
  return splitCommands(text).every(({ problem }) => problem === null)
}

const printers =
  /^(?:(?:sudo|doas) )?(?:cat|bat|less|more|head|tail|tac|nl|grep|egrep|rg|sed|awk|man|info|diff|sort|cut|zcat|strings|echo|printf|history|curl|wget|jq|journalctl|dmesg|git)\b/u

/** Whether a command answers with text that someone wrote. */
export function isPrinter(command: string): boolean {
  return printers.test(command.trim())
}

/** How many lines a command may take. */
const MOST_LINES = 200

/**
 * How many of the lines from the first one on make up a command. One where it would never end, since then it is not
 * what was typed.
 * @param lines the command without its prompt, then what follows it; further prompts (`> `) are left out of account
 */
export function linesOfCommand(lines: readonly string[]): number {
  const first = lines[0] ?? ''
  if (isComplete(first)) return 1
  let withPrompts = first
  let without = first
  for (let count = 2; count <= Math.min(lines.length, MOST_LINES); count += 1) {
    const line = lines[count - 1]!
    // Only a here-document goes on over an empty line; a quote that is left open is a slip or a text.
    if (line.trim() === '' && !without.includes('<<')) return 1
    withPrompts += `\n${line.replace(/^> ?/u, '')}`
    without += `\n${line}`
    if (isComplete(withPrompts) || isComplete(without)) return count
  }
  return 1
}
