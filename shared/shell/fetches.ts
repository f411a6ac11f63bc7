/** What a command fetches from a network, so that it can be had beforehand. */
import { argumentsOf } from './effects/lookup.ts'
import { hasOption, maybeValue, valuesOf, type Arguments } from './options/arguments.ts'
import type { ScriptWord } from './reading/tree.ts'
import { toSeen, type SeenCommand } from './seen.ts'

export type FetchedKind = 'package' | 'image' | 'key' | 'download' | 'repository' | 'index'

export interface Fetched {
  readonly kind: FetchedKind
  /** As given, a package without its version. Null where it is not written: an expansion, or all that is old. */
  readonly name: string | null
  /** The version, tag or branch that was asked for, null where none was. */
  readonly version: string | null
  /** The program that fetches it. */
  readonly tool: string
  readonly from: number
  readonly to: number
}

/** `which`: operands behind the verbs: all of them, the first, addresses only, or none. */
interface FetchRow {
  readonly programs: readonly string[]
  readonly verbs: readonly string[]
  readonly kind: FetchedKind
  readonly which: 'all' | 'first' | 'addresses' | 'none' | 'images' | 'option'
  readonly option?: readonly string[]
}

const row = (
  programs: string,
  verbs: string,
  kind: FetchedKind,
  which: FetchRow['which'],
  option?: string,
): FetchRow => ({
  programs: programs.split('|'),
  verbs: verbs === '' ? [] : verbs.split('|'),
  kind,
  which,
  ...(option === undefined ? {} : { option: option.split('|') }),
})

/** After the manual pages of the programs; those without one in Debian after common practice. */
export const fetchRows: readonly FetchRow[] = [
  row('apt|apt-get|aptitude', 'install|reinstall|download|source|build-dep', 'package', 'all'),
  row('apt|apt-get|aptitude', 'upgrade|full-upgrade|dist-upgrade|safe-upgrade', 'package', 'none'),
  row('apt|apt-get|aptitude|apt-file|apk', 'update', 'index', 'none'),
  row('apt|apt-get|dpkg', '', 'download', 'addresses'),
  row('debootstrap', '', 'repository', 'addresses'),
  row('add-apt-repository|apt-add-repository', '', 'repository', 'first'),
  row('apt-key', 'adv', 'key', 'option', '--recv-keys|--fetch-keys'),
  row('dnf|yum', 'install|reinstall|upgrade|update|downgrade|groupinstall', 'package', 'all'),
  row('dnf|yum', 'makecache', 'index', 'none'),
  row('zypper', 'install|in', 'package', 'all'),
  row('apk', 'add', 'package', 'all'),
  row('apk', 'upgrade', 'package', 'none'),
  row('rpm', '', 'download', 'addresses'),
  row('snap', 'install|refresh', 'package', 'all'),
  row('flatpak', 'install|update', 'package', 'all'),
  row('flatpak', 'remote-add', 'repository', 'addresses'),
  row('pip|pip3|pipx|uv', 'install|download|wheel', 'package', 'all'),
  row('npm|pnpm|yarn', 'install|i|ci|add', 'package', 'all'),
  row('npx', '', 'package', 'first'),
  row('gem', 'install', 'package', 'all'),
  row('cargo', 'install|add', 'package', 'all'),
  row('cargo', 'fetch|update', 'index', 'none'),
  row('go', 'install|get', 'package', 'all'),
  row('composer', 'require|install|update', 'package', 'all'),
  row('cpan|cpanm', '', 'package', 'all'),
  row('ansible-galaxy', 'install', 'package', 'all'),
  row('docker|podman|nerdctl', 'pull', 'image', 'first'),
  row('docker|podman|nerdctl', 'run|create', 'image', 'first'),
  row('docker|podman|docker-compose', 'compose|pull', 'image', 'images'),
  row('skopeo', 'copy|inspect', 'image', 'first'),
  row('lxc|incus', 'launch|init', 'image', 'first'),
  row('machinectl', 'pull-tar|pull-raw', 'image', 'first'),
  row('virt-builder', '', 'image', 'first'),
  row('virt-install', '', 'download', 'option', '--location|-l|--cdrom'),
  row('kubectl', 'apply|create', 'download', 'option', '-f|--filename'),
  row('helm', 'repo', 'repository', 'addresses'),
  row('helm', 'install|upgrade|pull', 'package', 'addresses'),
  row('curl|wget|aria2c|axel|lftp', '', 'download', 'addresses'),
  row('gpg', '', 'key', 'option', '--recv-keys|--fetch-keys'),
  row('gpg', '', 'key', 'option', '--locate-keys|--locate-external-keys'),
  row('ssh-keyscan', '', 'key', 'all'),
  row('git', 'clone', 'repository', 'first'),
  row('git', 'pull|fetch|submodule', 'repository', 'none'),
  row('svn', 'checkout|co', 'repository', 'first'),
  row('rsync|scp', '', 'download', 'addresses'),
  row('fwupdmgr', 'update|refresh|install', 'download', 'none'),
  row('rustup|nvm|pyenv', 'install', 'package', 'all'),
]

const address =
  /^(?:[a-z][a-z0-9+.-]*:\/\/|(?:[\w.-]+@)?[\w-]+(?:\.[\w-]+)*\.[\w-]+:(?:\/|~|\w)|(?:[\w.-]+@)?[A-Za-z][\w.-]*::?[^\\/]*\/)/u
const bareHost = /^(?:[\w-]+\.)+[a-z]{2,}(?:[/:?]|$)/u

/** Packages, images, keys and downloads that a text or a command wants, in the order in which they are written. */
export function whatItFetches(given: string | SeenCommand): Fetched[] {
  return toSeen(given).flatMap(fetchedBy)
}

function fetchedBy(seen: SeenCommand): Fetched[] {
  if (seen.name === null || isDry(seen)) return []
  const args = argumentsOf(seen)
  const verb = args.operands[0]?.value ?? ''
  return fetchRows
    .filter(
      ({ programs, verbs }) => programs.includes(seen.name!) && (verbs.length === 0 || verbs.includes(verb)),
    )
    .flatMap((one) => fetchedAs(one, args, seen))
}

/** What only says what it would do fetches nothing. */
function isDry(seen: SeenCommand): boolean {
  const args = argumentsOf(seen)
  if (['apt', 'apt-get', 'aptitude'].includes(seen.name ?? '')) return hasOption(args, ['-s', '--simulate'])
  return seen.name === 'curl' && hasOption(args, ['-I', '--head', '-T', '--upload-file'])
}

function fetchedAs(one: FetchRow, args: Arguments, seen: SeenCommand): Fetched[] {
  const operands = args.operands.slice(one.verbs.length === 0 ? 0 : 1)
  const make = (word: ScriptWord): Fetched => toFetched(one.kind, word, seen)
  switch (one.which) {
    case 'all':
      return fromAll(one, operands, args, seen)
    case 'first':
      return operands.slice(0, 1).map(make)
    case 'addresses':
      return operands.filter((word) => isAddress(word, seen)).map(make)
    case 'option':
      return one.option === undefined ? [] : fromOption(one.option, args).filter(isRemote).map(make)
    case 'images': {
      const isFetching = operands.some(({ value }) =>
        ['up', 'pull', 'run', 'build', 'create'].includes(value ?? ''),
      )
      return isFetching || seen.name === 'docker-compose' ? [unnamed(one.kind, seen)] : []
    }
    case 'none':
      return [unnamed(one.kind, seen)]
  }
}

function fromAll(
  one: FetchRow,
  operands: readonly ScriptWord[],
  args: Arguments,
  seen: SeenCommand,
): Fetched[] {
  const lists = ['pip', 'pip3'].includes(seen.name ?? '') ? valuesOf(args, ['-r', '--requirement']) : []
  const isTold = operands.length > 0 || lists.length > 0
  // `npm ci`, `composer install`: what a file in the folder names.
  if (!isTold) return [unnamed(one.kind, seen)]
  const named = operands.filter((word) => !/^(?:\.{0,2}\/|\.{1,2}$)/u.test(word.text))
  return [
    ...named.map((word) => toFetched(one.kind, word, seen)),
    ...lists.map(() => unnamed(one.kind, seen)),
  ]
}

/** The values of an option: one for each use, and for `--recv-keys` the operands. */
function fromOption(names: readonly string[], args: Arguments): readonly ScriptWord[] {
  if (!hasOption(args, names)) return []
  const value = maybeValue(args, names)
  const isAdv = args.operands[0]?.value === 'adv'
  return value === null ? args.operands.slice(isAdv ? 1 : 0) : valuesOf(args, names)
}

/** Keys have numbers; all else is fetched only from an address. */
const isRemote = ({ value, text }: ScriptWord): boolean =>
  address.test(value ?? text) ||
  /^(?:0x)?[0-9A-Fa-f]{8,40}$/u.test(value ?? text) ||
  value === null ||
  /@/u.test(value)

function isAddress(word: ScriptWord, { name, words }: SeenCommand): boolean {
  const text = (word.value ?? word.text).replace(/^["']/u, '')
  if (['rsync', 'scp'].includes(name ?? '')) return word !== words.at(-1) && /^[\w.@-]+:/u.test(text)
  if (/^(?:curl|wget)$/u.test(name ?? ''))
    return address.test(text) || bareHost.test(text) || word.value === null
  return /^[a-z][a-z0-9+.-]*:\/\//u.test(text)
}

function unnamed(kind: FetchedKind, { name, from, to }: SeenCommand): Fetched {
  return { kind, name: null, version: null, tool: name ?? '', from, to }
}

const versioned: Readonly<Record<string, RegExp>> = {
  apt: /^([^=/]+?)(?:[=/]([^=]+))?[+-]?$/u,
  pip: /^([^=<>!~@;]+)(?:(?:[=<>!~]=+|[<>@])(.+))?$/u,
  npm: /^(@?[^@]+)(?:@(.+))?$/u,
  go: /^([^@]+)(?:@(.+))?$/u,
}

function toFetched(kind: FetchedKind, { value, from, to }: ScriptWord, seen: SeenCommand): Fetched {
  const tool = seen.name ?? ''
  const fetched = { kind, name: value, version: null, tool, from, to }
  if (value === null) return fetched
  if (kind === 'image') return { ...fetched, ...imageOf(value) }
  if (kind !== 'package') return fetched
  const family = tool.startsWith('apt')
    ? 'apt'
    : /^(?:pip|uv)/u.test(tool)
      ? 'pip'
      : tool === 'go'
        ? 'go'
        : 'npm'
  const isNode = ['npm', 'pnpm', 'yarn', 'npx', 'go', 'cargo'].includes(tool)
  if (family === 'npm' && !isNode) return fetched
  const [, name = value, version = null] = versioned[family]!.exec(value) ?? []
  return { ...fetched, name, version }
}

/** An image's tag or digest; a colon before a slash is a port. */
function imageOf(value: string): Pick<Fetched, 'name' | 'version'> {
  const [, name = value, version = null] = /^(.+?)(?:@(sha256:.+)|:([^:/]+))?$/u.exec(value) ?? []
  const tag = /:([^:/@]+)$/u.exec(value)?.[1] ?? null
  return { name, version: version ?? tag }
}
