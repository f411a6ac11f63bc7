/** Who runs a command and where, as far as the command line says. */
import type { ScriptWord } from '../reading/tree.ts'

/** The same as where the whole text is typed; someone or something else; or not to be known from the text. */
export type Party =
  { readonly is: 'same' } | { readonly is: 'named'; readonly name: string } | { readonly is: 'unknown' }

export const same: Party = { is: 'same' }
export const unknown: Party = { is: 'unknown' }
export const named = (name: string): Party => ({ is: 'named', name })

/** A user as an option names it; number 0 is root (POSIX.1-2017, 3.437: a process with appropriate privileges). */
export function toUser(word: ScriptWord | null): Party {
  if (word === null || word.value === null) return unknown
  const name = word.value.replace(/^#/u, '').replace(/:.*$/u, '')
  return named(name === '0' ? 'root' : name)
}

export interface Destination {
  readonly host: Party
  readonly user: Party
}

/** `user@host` and `ssh://user@host:port` (ssh(1)). Without a user it is the one that a configuration names, or the same. */
export function toDestination(word: ScriptWord | null): Destination {
  if (word === null || word.value === null) return { host: unknown, user: unknown }
  const bare = word.value.replace(/^ssh:\/\//u, '')
  const at = bare.lastIndexOf('@')
  const written = bare.slice(at + 1)
  const host = word.value.startsWith('ssh://') ? written.replace(/:\d+\/?$/u, '') : written
  return { host: named(host), user: at === -1 ? unknown : toUser({ ...word, value: bare.slice(0, at) }) }
}
