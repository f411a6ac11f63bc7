/** Commands that undo one another, as data, and whether one command undoes another. */
import { argumentsOf } from './effects/lookup.ts'
import { toQuoted, toWordText } from './normal/quote.ts'
import type { ScriptWord } from './reading/tree.ts'
import { toSeen, type SeenCommand } from './seen.ts'
import { hasOption } from './options/arguments.ts'

/**
 * Which operands of the two must be the same. `all`: as sets. `first`, `last`: that one of the earlier and the first of the
 * later. `either`: the later one's only operand is the first or last of the earlier. `turned`: two, the other way round.
 * `none`: neither looks at any.
 */
type Match = 'all' | 'first' | 'last' | 'either' | 'turned' | 'none'

/** A command, and one that takes back what it did. Options in the second word are needed there. */
type Pair = readonly [does: string, undoes: string, match: Match, source: string]

const both = (one: string, other: string, match: Match, source: string): readonly Pair[] => [
  [one, other, match, source],
  [other, one, match, source],
]

/** Verbs may have alternatives: `remove|purge`. The first is what is proposed. */
export const undoPairs: readonly Pair[] = [
  ...both('systemctl enable', 'systemctl disable', 'all', 'systemctl(1)'),
  ...both('systemctl start', 'systemctl stop', 'all', 'systemctl(1)'),
  ...both('systemctl mask', 'systemctl unmask', 'all', 'systemctl(1)'),
  ...both('service start', 'service stop', 'all', 'service(8)'),
  ...both('rc-update add', 'rc-update del', 'all', 'rc-update(8)'),
  ['apt|apt-get|aptitude install', 'apt|apt-get|aptitude remove|purge|autopurge', 'all', 'apt(8)'],
  ['apt|apt-get|aptitude remove', 'apt|apt-get|aptitude install', 'all', 'apt(8)'],
  ...both('apt-mark hold', 'apt-mark unhold', 'all', 'apt-mark(8)'),
  ...both('apt-mark auto', 'apt-mark manual', 'all', 'apt-mark(8)'),
  ...both('dnf|yum install', 'dnf|yum remove|erase', 'all', 'dnf(8)'),
  ...both('apk add', 'apk del', 'all', 'apk(8)'),
  ...both('snap install', 'snap remove', 'all', 'snap(8)'),
  ...both('flatpak install', 'flatpak uninstall', 'all', 'flatpak(1)'),
  ...both('pip|pip3|pipx install', 'pip|pip3|pipx uninstall', 'all', 'pip(1)'),
  ...both('npm install|i|add', 'npm uninstall|remove|rm', 'all', 'npm-install(1)'),
  ...both('gem install', 'gem uninstall', 'all', 'gem(1)'),
  ['add-apt-repository', 'add-apt-repository -r|--remove', 'all', 'add-apt-repository(1)'],
  ['mkdir', 'rmdir', 'all', 'mkdir(1), rmdir(1)'],
  ['mkdir', 'rm', 'all', 'mkdir(1), rm(1)'],
  ['rmdir', 'mkdir', 'all', 'rmdir(1), mkdir(1)'],
  ['touch', 'rm', 'all', 'touch(1), rm(1)'],
  ['mkfifo', 'rm', 'all', 'mkfifo(1), rm(1)'],
  ['ln', 'rm|unlink', 'last', 'ln(1), rm(1)'],
  ['cp', 'rm', 'last', 'cp(1), rm(1)'],
  ['mv', 'mv', 'turned', 'mv(1)'],
  ['git mv', 'git mv', 'turned', 'git-mv(1)'],
  ['git add', 'git reset|restore', 'all', 'git-reset(1)'],
  ['git stash push', 'git stash pop', 'none', 'git-stash(1)'],
  ['git clone', 'rm', 'last', 'git-clone(1)'],
  ...both('git remote add', 'git remote remove|rm', 'first', 'git-remote(1)'),
  ['mount', 'umount', 'either', 'mount(8), umount(8)'],
  ['umount', 'mount', 'either', 'umount(8), mount(8)'],
  ...both('swapon', 'swapoff', 'all', 'swapon(8)'),
  ...both('modprobe', 'modprobe -r|--remove', 'all', 'modprobe(8)'),
  ...both('insmod', 'rmmod', 'all', 'insmod(8), rmmod(8)'),
  ...both('ip addr|address|a add', 'ip addr|address|a del|delete', 'all', 'ip-address(8)'),
  ...both('ip route|r add', 'ip route|r del|delete', 'all', 'ip-route(8)'),
  ...both('ip rule add', 'ip rule del|delete', 'all', 'ip-rule(8)'),
  ...both('ip neigh|neighbour|n add', 'ip neigh|neighbour|n del|delete', 'all', 'ip-neighbour(8)'),
  ...both('ip link|l add', 'ip link|l del|delete', 'first', 'ip-link(8)'),
  ...both('ip netns add', 'ip netns del|delete', 'all', 'ip-netns(8)'),
  ...both('ifup', 'ifdown', 'all', 'ifup(8)'),
  ...both('wg-quick up', 'wg-quick down', 'all', 'wg-quick(8)'),
  ...both('nmcli connection|con|c up', 'nmcli connection|con|c down', 'all', 'nmcli(1)'),
  ...both('brctl addbr', 'brctl delbr', 'all', 'brctl(8)'),
  ...both('brctl addif', 'brctl delif', 'all', 'brctl(8)'),
  ...both('ufw enable', 'ufw disable', 'none', 'ufw(8)'),
  ...both(
    'iptables|ip6tables -A|--append|-I|--insert',
    'iptables|ip6tables -D|--delete',
    'all',
    'iptables(8)',
  ),
  ...both('nft add', 'nft delete', 'first', 'nft(8)'),
  ['useradd|adduser', 'userdel|deluser', 'last', 'useradd(8), userdel(8)'],
  ['groupadd|addgroup', 'groupdel|delgroup', 'last', 'groupadd(8), groupdel(8)'],
  ...both('passwd -l|--lock', 'passwd -u|--unlock', 'all', 'passwd(1)'),
  ...both('usermod -L|--lock', 'usermod -U|--unlock', 'all', 'usermod(8)'),
  ...both('a2ensite', 'a2dissite', 'all', 'a2ensite(8)'),
  ...both('a2enmod', 'a2dismod', 'all', 'a2enmod(8)'),
  ...both('a2enconf', 'a2disconf', 'all', 'a2enconf(8)'),
  ['docker|podman run', 'docker|podman rm', 'none', 'docker-run(1), docker-rm(1)'],
  ...both('docker|podman start', 'docker|podman stop', 'all', 'docker-start(1)'),
  ...both('docker|podman pause', 'docker|podman unpause', 'all', 'docker-pause(1)'),
  ['docker|podman pull', 'docker|podman rmi', 'all', 'docker-pull(1)'],
  ['docker|podman volume create', 'docker|podman volume rm', 'all', 'docker-volume(1)'],
  ['docker|podman network create', 'docker|podman network rm', 'all', 'docker-network(1)'],
  ['docker|podman compose up', 'docker|podman compose down', 'none', 'common practice'],
  ['docker-compose up', 'docker-compose down', 'none', 'common practice'],
  ...both('virsh start', 'virsh shutdown|destroy', 'all', 'virsh(1)'),
  ...both('virsh define', 'virsh undefine', 'none', 'virsh(1)'),
  ['kubectl apply|create', 'kubectl delete', 'none', 'common practice'],
  ['helm install', 'helm uninstall|delete', 'first', 'common practice'],
  ['pvcreate', 'pvremove', 'all', 'pvcreate(8), pvremove(8)'],
  ['vgcreate', 'vgremove', 'first', 'vgcreate(8), vgremove(8)'],
  ['vgextend', 'vgreduce', 'all', 'vgextend(8), vgreduce(8)'],
  ['vgreduce', 'vgextend', 'all', 'vgreduce(8), vgextend(8)'],
  ['zpool create', 'zpool destroy', 'first', 'zpool-create(8)'],
  ...both('zpool import', 'zpool export', 'first', 'zpool-import(8)'),
  ['zfs create|snapshot|snap|clone', 'zfs destroy', 'last', 'zfs-destroy(8)'],
  ['zfs hold', 'zfs release', 'all', 'zfs-hold(8)'],
  ...both('zfs mount', 'zfs unmount|umount', 'all', 'zfs-mount(8)'),
  ['btrfs subvolume|sub create|snapshot', 'btrfs subvolume|sub delete', 'last', 'btrfs-subvolume(8)'],
  ['cryptsetup open|luksOpen', 'cryptsetup close|luksClose', 'last', 'cryptsetup(8)'],
  ['losetup', 'losetup -d|--detach', 'none', 'losetup(8)'],
  ['createdb', 'dropdb', 'all', 'createdb(1), dropdb(1)'],
  ['createuser', 'dropuser', 'all', 'createuser(1), dropuser(1)'],
  ['crontab', 'crontab -r', 'none', 'crontab(1)'],
  ['systemctl link', 'systemctl disable', 'all', 'systemctl(1)'],
  ['setenforce 0', 'setenforce 1', 'none', 'setenforce(8)'],
  ['setenforce 1', 'setenforce 0', 'none', 'setenforce(8)'],
  ...both('timedatectl set-ntp true', 'timedatectl set-ntp false', 'none', 'timedatectl(1)'),
]

interface Side {
  readonly name: string
  readonly verbs: readonly (readonly string[])[]
  readonly options: readonly string[]
  readonly names: readonly string[]
}

function toSide(written: string): Side {
  const [names = '', ...rest] = written.split(' ')
  return {
    name: names.split('|')[0]!,
    names: names.split('|'),
    verbs: rest.filter((one) => !one.startsWith('-')).map((one) => one.split('|')),
    options: rest.filter((one) => one.startsWith('-')).flatMap((one) => one.split('|')),
  }
}

const sides = undoPairs.map(([does, takesBack, match, source]) => ({
  does: toSide(does),
  undoes: toSide(takesBack),
  match,
  source,
}))

/** The operands behind the verbs, null where a command is another. */
function maybeOperands(side: Side, seen: SeenCommand): readonly ScriptWord[] | null {
  if (seen.name === null || !side.names.includes(seen.name)) return null
  const args = argumentsOf(seen)
  if (side.options.length > 0 && !hasOption(args, side.options)) return null
  // `service name start`: the verb stands behind.
  const operands = seen.name === 'service' ? args.operands.slice().reverse() : args.operands
  const isSame = side.verbs.every((verbs, n) => verbs.includes(operands[n]?.value ?? ''))
  return isSame ? operands.slice(side.verbs.length) : null
}

/**
 * Whether a command takes back what an earlier one did: all of it or a part (some of its packages). Null where it does
 * not, or where that is not known. It does not look at places; on two machines nothing undoes anything.
 */
export function undoes(later: string | SeenCommand, earlier: string | SeenCommand): 'whole' | 'part' | null {
  const [before, ...others] = toSeen(earlier)
  if (before === undefined) return null
  // An earlier text of several commands is taken back in part at most.
  if (others.length > 0) {
    const found = [before, ...others].map((one) => undoes(later, one))
    return found.every((one) => one === 'whole') ? 'whole' : found.some((one) => one !== null) ? 'part' : null
  }
  const found = toSeen(later).map((one) => undoesOne(one, before))
  return found.includes('whole') ? 'whole' : found.includes('part') ? 'part' : null
}

/** By what a command can be found that takes back another: see `undoKeys`. */
export interface UndoKeys {
  readonly does: ReadonlySet<string>
  readonly undoes: ReadonlySet<string>
}

/**
 * One command undoes an earlier one only where a key that it undoes is a key that the earlier one does: so that among many
 * commands few need to be compared.
 */
export function undoKeys(given: string | SeenCommand): UndoKeys {
  const keys = { does: new Set<string>(), undoes: new Set<string>() }
  for (const seen of toSeen(given))
    sides.forEach((pair, n) => {
      for (const which of ['does', 'undoes'] as const) {
        const operands = maybeOperands(pair[which], seen)
        if (operands === null) continue
        if (pair.match === 'none') keys[which].add(`${n}`)
        else for (const operand of operands) keys[which].add(`${n} ${keyOf(operand)}`)
      }
    })
  return keys
}

function undoesOne(later: SeenCommand, earlier: SeenCommand): 'whole' | 'part' | null {
  for (const pair of sides) {
    const did = maybeOperands(pair.does, earlier)
    const takenBack = maybeOperands(pair.undoes, later)
    if (did === null || takenBack === null) continue
    const found = compared(pair.match, did, takenBack)
    if (found === 'whole' && isPartly(later, earlier)) return 'part'
    if (found !== null) return found
  }
  return null
}

const isNow = (seen: SeenCommand): boolean => hasOption(argumentsOf(seen), ['--now'])

/** `enable --now` starts, too; `disable` alone does not stop. */
function isPartly(later: SeenCommand, earlier: SeenCommand): boolean {
  return earlier.name === 'systemctl' && isNow(earlier) && !isNow(later)
}

const keyOf = ({ value, text }: ScriptWord): string => (value ?? text).replace(/\.service$|(?<=.)\/$/gu, '')

function compared(
  match: Match,
  did: readonly ScriptWord[],
  takenBack: readonly ScriptWord[],
): 'whole' | 'part' | null {
  const [done, undone] = [did.map(keyOf), takenBack.map(keyOf)]
  switch (match) {
    case 'none':
      return undone.every((one) => done.length === 0 || done.includes(one)) ? 'whole' : null
    case 'turned':
      return done.length === 2 && undone.length === 2 && done[0] === undone[1] && done[1] === undone[0]
        ? 'whole'
        : null
    case 'first':
      return done.length > 0 && undone.includes(done[0]!) ? 'whole' : null
    case 'last':
      return done.length > 0 && undone.includes(done.at(-1)!) ? 'whole' : null
    case 'either':
      return undone.some((one) => one === done[0] || one === done.at(-1)) ? 'whole' : null
    case 'all': {
      const left = done.filter((one) => !undone.includes(one))
      if (done.length === 0 || left.length === done.length) return null
      return left.length === 0 ? 'whole' : 'part'
    }
  }
}

/**
 * A command that would take back what one did, with the same operands; null where the table has none. It is a proposal: what a
 * file held before does not come back by it.
 */
export function undoOf(given: string | SeenCommand): string | null {
  const found = toSeen(given)
  const [seen] = found
  if (seen === undefined || found.length !== 1 || seen.isRepeated || seen.hasUnknownWords) return null
  for (const { does, undoes: back, match } of sides) {
    const operands = maybeOperands(does, seen)
    if (operands === null || match === 'none') continue
    const name = back.names.includes(seen.name ?? '') ? seen.name! : back.name
    const verbs = back.verbs.map((one) => one[0]!)
    const needed = seen.name === 'systemctl' && isNow(seen) ? ['--now'] : []
    const rest = proposed(match, operands)
    if (rest.length === 0) return null
    return [toQuoted(name), ...verbs, ...needed, ...back.options.slice(0, 1), ...rest.map(toWordText)].join(
      ' ',
    )
  }
  return null
}

function proposed(match: Match, operands: readonly ScriptWord[]): readonly ScriptWord[] {
  if (match === 'turned') return operands.length === 2 ? [operands[1]!, operands[0]!] : []
  if (match === 'first') return operands.slice(0, 1)
  if (match === 'last' || match === 'either') return operands.slice(-1)
  return operands
}
