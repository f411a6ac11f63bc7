/** The place that a prompt shows. */
import type { Form } from './candidate.ts'
import type { PromptPlace } from './line.ts'

const nothing: PromptPlace = { host: null, user: null, directory: null, folder: null, isRoot: false }
/** `~`, `~/logger`, `/srv/logger`: up to a blank or what ends it in a prompt. */
const directory = /(?:^|[\s:[({])(~(?:[\w.-]*)(?:\/[^\s\])}:]*)?|\/[^\s\])}:]*)/u
/** Behind a colon it is a folder and its branch. */
const account = /(?<![\w.:/-])([\w.-]+)(?:@| @ )([\w.-]+)/u
const said = /(?<![\w./~-])([a-z_][\w.-]*) (?:on|at) ([\w.-]+)(?: in (\S+))?/u
const hostFirst = /^([\w.-]+):(\S+) ([a-z_][\w.-]*)$/u
const shellName = /^(?:ba|z|da|k)?sh(?:-[\d.]+)?$/u

/** What a prompt says of user, host and directory, from what stands before its sign. */
export function placeOf(body: string, sign: string, form: Form): PromptPlace {
  // On `router#` the sign is of another language than a shell's.
  const isShells = form !== 'other' && (form !== 'name' || shellName.test(body))
  const base = { ...nothing, isRoot: sign === '#' && isShells }
  const known = directory.exec(body)?.[1] ?? null
  const found = account.exec(body)
  if (found)
    return { ...base, user: found[1] ?? null, host: found[2] ?? null, ...where(known, behind(body, found)) }
  const first = hostFirst.exec(body.trim())
  if (first)
    return { ...base, host: first[1] ?? null, user: first[3] ?? null, ...where(known, first[2] ?? null) }
  const words = said.exec(body)
  if (words)
    return { ...base, user: words[1] ?? null, host: words[2] ?? null, ...where(known, words[3] ?? null) }
  if (form === 'name') return { ...base, host: maybeHost(body) }
  return { ...base, ...where(known, form === 'folder' && /^\S+$/u.test(body) ? body : null) }
}

/** The word behind an account: the name of a folder, where no path stands there. */
function behind(body: string, found: RegExpExecArray): string | null {
  const rest = body.slice(found.index + found[0].length)
  return /^[\s:]+([^\s\])}:]+)/u.exec(rest)?.[1] ?? null
}

function where(path: string | null, word: string | null): Pick<PromptPlace, 'directory' | 'folder'> {
  // Behind a path a comma is the prompt's.
  if (path !== null) return { directory: path.replace(/[,;]$/u, ''), folder: null }
  return { directory: null, folder: word }
}

/** `gate%`, `router(config)#`. A shell without settings shows its own name: `bash-5.2$`. */
function maybeHost(body: string): string | null {
  const name = body.replace(/\([^()]*\)/gu, '').trim()
  return shellName.test(name) ? null : name
}

/** Takes from the second what the first does not know. */
export function joinPlaces(own: PromptPlace, around: PromptPlace): PromptPlace {
  return {
    host: own.host ?? around.host,
    user: own.user ?? around.user,
    directory: own.directory ?? around.directory,
    folder: own.folder ?? (own.directory === null ? around.folder : null),
    isRoot: own.isRoot,
  }
}
