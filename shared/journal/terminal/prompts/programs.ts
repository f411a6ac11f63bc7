/** Programs with a prompt of their own, and commands that lead to another prompt or out of one. */
import { splitCommands } from '../../../shell/commands.ts'
import type { SimpleCommand } from '../../../shell/syntax.ts'

export interface InnerPrompt {
  readonly name: string
  /** The whole prompt with the blank behind it, at the head of a line. */
  readonly prompt: RegExp
  /** The prompt for a further line of the same command. */
  readonly further: RegExp | null
  /** Names of commands that start it. */
  readonly by: RegExp
}

/** Prompts as the programs' own manuals show them. */
export const innerPrompts: readonly InnerPrompt[] = [
  {
    name: 'python',
    prompt: /^>>>(?: |$)/u,
    further: /^\.\.\.(?: |$)/u,
    by: /^(?:python[\d.]*|pypy\d*|pdb)$/u,
  },
  {
    name: 'ipython',
    prompt: /^In \[\d+\]:(?: |$)/u,
    further: /^ {3,}\.{3}:(?: |$)/u,
    by: /^(?:ipython\d*|jupyter)$/u,
  },
  { name: 'sqlite', prompt: /^sqlite>(?: |$)/u, further: /^ {3}\.\.\.>(?: |$)/u, by: /^sqlite3?$/u },
  {
    name: 'mysql',
    prompt: /^(?:mysql|MariaDB \[[^\]]*\])>(?: |$)/u,
    further: /^ +[-'"`]>(?: |$)|^ +\/\*>(?: |$)/u,
    by: /^(?:mysql|mariadb)$/u,
  },
  { name: 'postgres', prompt: /^\w+=[#>](?: |$)/u, further: /^\w+[-('"*$][#>](?: |$)/u, by: /^psql$/u },
  {
    name: 'redis',
    prompt: /^[\w.:[\]-]+:\d+(?:\[\d+\])?>(?: |$)/u,
    further: null,
    by: /^(?:redis|valkey)-cli$/u,
  },
  { name: 'gdb', prompt: /^\((?:gdb|lldb)\)(?: |$)/u, further: /^ *>(?: |$)/u, by: /^(?:gdb|lldb)$/u },
  { name: 'pdb', prompt: /^\(Pdb\)(?: |$)/u, further: null, by: /^(?:python[\d.]*|pdb\d?)$/u },
  { name: 'parted', prompt: /^\(parted\)(?: |$)/u, further: null, by: /^parted$/u },
  { name: 'fdisk', prompt: /^Command \(m for help\):(?: |$)/u, further: null, by: /^fdisk$/u },
  { name: 'gdisk', prompt: /^Command \(\? for help\):(?: |$)/u, further: null, by: /^gdisk$/u },
  {
    name: 'ftp',
    prompt: /^(?:s?ftp|lftp [^>]*|tftp|telnet)>(?: |$)/u,
    further: null,
    by: /^(?:[slt]?ftp|telnet)$/u,
  },
  { name: 'node', prompt: /^>(?: |$)/u, further: /^(?:\.\.\.|\|)(?: |$)/u, by: /^node(?:js)?$/u },
  { name: 'nslookup', prompt: /^>(?: |$)/u, further: null, by: /^nslookup$/u },
  {
    name: 'irb',
    prompt: /^irb\([^)]*\):\d+(?::\d+)?>(?: |$)/u,
    further: /^irb\([^)]*\):\d+(?::\d+)?[*"'](?: |$)/u,
    by: /^irb$/u,
  },
  { name: 'ghci', prompt: /^(?:ghci|Prelude)>(?: |$)/u, further: null, by: /^ghci$/u },
  { name: 'lua', prompt: /^>(?: |$)/u, further: /^>>(?: |$)/u, by: /^lua[\d.]*$/u },
  { name: 'R', prompt: /^>(?: |$)/u, further: /^\+(?: |$)/u, by: /^R$/u },
  { name: 'chronyc', prompt: /^chronyc>(?: |$)/u, further: null, by: /^chronyc$/u },
  { name: 'nmcli', prompt: /^nmcli>(?: |$)/u, further: null, by: /^nmcli$/u },
  { name: 'virsh', prompt: /^virsh #(?: |$)/u, further: null, by: /^virsh$/u },
  { name: 'bluetoothctl', prompt: /^\[[^\]]+\][#>](?: |$)/u, further: null, by: /^bluetoothctl$/u },
  { name: 'openssl', prompt: /^OpenSSL>(?: |$)/u, further: null, by: /^openssl$/u },
  { name: 'ipmitool', prompt: /^ipmitool>(?: |$)/u, further: null, by: /^ipmitool$/u },
]

/**
 * Whether a program would ask for a further line of what was typed. True where that is not known: then its prompt for
 * further lines decides.
 */
export function wantsMore(name: string, typed: string): boolean {
  if (/^(?:sqlite|mysql|postgres)$/u.test(name))
    return !/;\s*$|\\[gG]\s*$|^\s*$/u.test(typed) && !/^[.\\]\w/u.test(typed)
  if (!/^i?python$/u.test(name)) return true
  // A block goes on up to an empty line.
  if (typed.includes('\n')) return !typed.endsWith('\n') || hasOpen(typed)
  return /[:\\]\s*(?:#.*)?$/u.test(typed) || /^\s*@/u.test(typed) || hasOpen(typed)
}

/** Whether a line could be typed to a program: a statement of SQL begins with a word, a bracket or a remark. */
export function mayBeTyped(name: string, line: string): boolean {
  return !/^(?:sqlite|mysql|postgres)$/u.test(name) || /^\s*(?:$|[A-Za-z.\\(;/-])/u.test(line)
}

/** Whether a bracket or a long string of Python is open. */
function hasOpen(typed: string): boolean {
  const long = (typed.match(/"""|'''/gu) ?? []).length % 2 === 1
  const bare = typed.replace(/"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'|#.*/gu, '')
  const count = (signs: RegExp): number => (bare.match(signs) ?? []).length
  return long || count(/[([{]/gu) > count(/[)\]}]/gu)
}

/** Commands that run another in the words behind them. */
const carriers = /^(?:sudo|doas|env|exec|command|nohup|time|nice|stdbuf|setsid|builtin|systemd-run)$/u
const shells = /^-?(?:ba|z|da|k|fi|c|tc|a)?sh$/u
/** Programs whose answer is text that someone wrote, which may look like any prompt. */
const printers =
  /^(?:cat|bat|less|more|most|head|tail|tac|nl|pr|grep|[ef]grep|zgrep|rg|sed|awk|gawk|man|info|diff|colordiff|cut|sort|uniq|paste|fold|fmt|column|zcat|xzcat|strings|xxd|hexdump|od|echo|printf|print|history|fc|type|declare|typeset|alias|curl|wget|jq|yq|tee|journalctl|dmesg|git|env|set|view|script|scriptreplay)$/u

/** What a command leads to: another shell's prompt, the prompt of a program, or nothing of the kind. */
export type Opening = { readonly kind: 'shell' } | { readonly kind: 'inner'; readonly name: string } | null

interface Run {
  readonly name: string
  readonly args: readonly string[]
}

/** The programs that a command runs, without what carries them. */
function runsOf(command: string): Run[] {
  const simple = splitCommands(command).flatMap((one) => one.simple)
  return simple.flatMap((one) => maybeRun(one) ?? [])
}

function maybeRun({ words }: SimpleCommand): Run | null {
  const texts = words.map((word) => word.value ?? word.text)
  let at = 0
  while (at < texts.length - 1 && carriers.test(texts[at] ?? '')) {
    const carrier = texts[at]
    at++
    while (at < texts.length && /^-|=/u.test(texts[at] ?? '')) {
      const flag = texts[at] ?? ''
      if (carrier === 'sudo' && /^-[is]$|^--(?:login|shell)$/u.test(flag) && at === texts.length - 1)
        return { name: 'sudo', args: [flag] }
      at += carrier === 'sudo' && /^-[ughpCT]$/u.test(flag) ? 2 : 1
    }
  }
  const name = texts[at]
  return name === undefined
    ? null
    : { name: name.slice(name.lastIndexOf('/') + 1), args: texts.slice(at + 1) }
}

/** What a command may lead to. */
export function openingOf(command: string): Opening {
  for (const { name, args } of runsOf(command)) {
    const inner = innerPrompts.find(({ by }) => by.test(name))
    const isSet = args.some((arg) => arg === '-i') || !hasScript(name, args)
    if (inner && isSet) return { kind: 'inner', name: inner.name }
    if (opensShell(name, args)) return { kind: 'shell' }
  }
  return /(?:^|[\s;])(?:PS1|PROMPT)=/u.test(command) ? { kind: 'shell' } : null
}

/** Whether an interpreter is given something to run, so that it asks nothing. */
function hasScript(name: string, args: readonly string[]): boolean {
  const plain = args.filter((arg) => !arg.startsWith('-'))
  if (/^(?:python|pypy|node|lua|irb)/u.test(name)) return plain.length > 0 || args.includes('-c')
  if (/^sqlite/u.test(name)) return plain.length > 1
  if (/^(?:chronyc|nmcli|virsh|openssl|ipmitool|nslookup|bluetoothctl)$/u.test(name)) return args.length > 0
  return false
}

function opensShell(name: string, args: readonly string[]): boolean {
  const plain = args.filter((arg) => !arg.startsWith('-'))
  if (name === 'ssh' || name === 'mosh') return args.includes('-t') || sshWords(args) === 1
  if (name === 'su' || name === 'runuser') return !args.includes('-c')
  if (name === 'sudo' || name === 'doas') return args.some((arg) => /^-[is]$|^--(?:login|shell)$/u.test(arg))
  if (shells.test(name)) return plain.length === 0 && !args.includes('-c')
  if (
    /^(?:docker|podman|kubectl|lxc|incus|nsenter|unshare|chroot|systemd-nspawn|machinectl|virsh|arch-chroot)$/u.test(
      name,
    )
  ) {
    return true
  }
  return /^(?:login|newgrp|source|\.|enable|configure|conf|activate|conda|nix-shell|tmux|screen|minicom|picocom|cu|tio|telnet|rlogin|script|set|exit|quit|end|disable)$/u.test(
    name,
  )
}

/** How many words of an ssh command are no options: the host, and what runs there. */
function sshWords(args: readonly string[]): number {
  let count = 0
  for (let n = 0; n < args.length; n++) {
    const arg = args[n] ?? ''
    if (/^-[bcDEeFIiJLlmOopQRSWw]$/u.test(arg)) n++
    else if (!arg.startsWith('-')) count++
  }
  return count
}

/** Whether what a command prints is text that someone wrote. */
export function isPrinter(command: string): boolean {
  return runsOf(command).some(
    ({ name, args }) => printers.test(name) || (name === 'ssh' && args.some((arg) => printers.test(arg))),
  )
}

/** Whether a command leads back to the prompt before. Nothing typed may be the key for the end of input. */
export function isEnding(command: string): boolean {
  return (
    command === '' ||
    /^[.\\]?(?:exit|logout|quit|bye|end|q|disable|poweroff|reboot|halt|shutdown)\b/u.test(command.trim())
  )
}
