/** Commands that a person should look at twice: what wait for an answer, and what takes something away for good. */
import { effectOf, type Touched } from './effects.ts'
import { argumentsOf } from './effects/lookup.ts'
import { hasOption } from './options/arguments.ts'
import { toSeen, type SeenCommand } from './seen.ts'

export interface Interaction {
  /** `full screen`: it takes the terminal over. `asks`: it stops and waits for an answer. */
  readonly is: 'full screen' | 'asks'
  readonly program: string
  readonly source: string
}

interface InteractionRow {
  readonly is: Interaction['is']
  readonly programs: readonly string[]
  readonly verbs: readonly string[]
  /** It waits only where one of these is given. */
  readonly only?: readonly string[]
  /** It does not wait where one of these is given. */
  readonly unless?: readonly string[]
  /** It does not wait where something stands behind the first operands. */
  readonly most?: number
  readonly source: string
}

const editors =
  'vi|vim|nvim|nano|emacs|ne|mcedit|pico|ed|ex|micro|joe|editor|sensible-editor|visudo|vipw|vigr|sudoedit'

const line = (
  is: Interaction['is'],
  programs: string,
  source: string,
  more: { verbs?: string; only?: string; unless?: string; most?: number } = {},
): InteractionRow => ({
  is,
  programs: programs.split('|'),
  verbs: more.verbs?.split('|') ?? [],
  ...(more.only === undefined ? {} : { only: more.only.split(' ') }),
  ...(more.unless === undefined ? {} : { unless: more.unless.split(' ') }),
  ...(more.most === undefined ? {} : { most: more.most }),
  source,
})

export const interactionRows: readonly InteractionRow[] = [
  line('full screen', editors, 'sensible-editor(1)', { unless: '-c --check --version -es' }),
  line(
    'full screen',
    'less|more|most|pager|man|info|top|htop|atop|btop|iotop|iftop|nethogs|nmtui|mc|ncdu|cfdisk|cgdisk|raspi-config|tasksel|mutt|alsamixer|watch|byobu|vimdiff|w3m|lynx',
    '(1)',
    { unless: '-b -V --version -dump' },
  ),
  line('full screen', 'aptitude', 'aptitude(8)', { most: 0 }),
  line('full screen', 'tmux|screen', 'tmux(1)', { unless: '-d -dm -ls -S -X', most: 0 }),
  line('full screen', 'crontab', 'crontab(1)', { only: '-e' }),
  line('full screen', 'systemctl', 'systemctl(1)', { verbs: 'edit' }),
  line('full screen', 'apt|virsh|kubectl', 'apt(8)', { verbs: 'edit-sources|edit' }),
  line('full screen', 'dpkg-reconfigure', 'dpkg-reconfigure(8)', { unless: '-f --frontend' }),
  line('full screen', 'git', 'git-rebase(1)', { verbs: 'rebase|add', only: '-i --interactive -p --patch' }),
  line('full screen', 'git', 'git-commit(1)', {
    verbs: 'commit',
    unless: '-m --message -F --file -C --no-edit --dry-run --fixup',
  }),
  line('full screen', 'sudo', 'sudo(8)', { only: '-e --edit' }),
  line('asks', 'passwd', 'passwd(1)', {
    unless: '-l --lock -u --unlock -d --delete -S --status -e --expire -x -n -w -i',
  }),
  line(
    'asks',
    'chfn|chsh|smbpasswd|htpasswd|mysql_secure_installation|mariadb-secure-installation|newusers|bluetoothctl|vncpasswd',
    '(1)',
    { unless: '-s -b --shell' },
  ),
  line('asks', 'adduser', 'adduser(8)', {
    unless: '--disabled-password --system --disabled-login --group',
    most: 1,
  }),
  line('asks', 'fdisk|gdisk', 'fdisk(8)', { unless: '-l --list -x --list-details' }),
  line('asks', 'parted', 'parted(8)', { unless: '-s --script -l --list', most: 1 }),
  line('asks', 'sfdisk', 'sfdisk(8)', { unless: '-l --list -d --dump -J -V -s --delete --part-type' }),
  line('asks', 'apt|apt-get|aptitude', 'apt(8)', {
    verbs:
      'install|remove|purge|upgrade|full-upgrade|dist-upgrade|safe-upgrade|autoremove|build-dep|reinstall',
    unless: '-y --yes --assume-yes -s --simulate -d --download-only -qq',
  }),
  line('asks', 'dnf|yum', 'dnf(8)', {
    verbs: 'install|remove|upgrade|update|erase|autoremove',
    unless: '-y --assumeyes',
  }),
  line('asks', 'pacman', 'pacman(8)', { only: '-S --sync -R --remove -U --upgrade', unless: '--noconfirm' }),
  line('asks', 'add-apt-repository|apt-add-repository', 'add-apt-repository(1)', { unless: '-y --yes' }),
  line('asks', 'rm|mv|cp', '(1)', { only: '-i --interactive -I' }),
  line('asks', 'cryptsetup', 'cryptsetup(8)', {
    verbs: 'luksFormat|open|luksOpen|luksAddKey|luksChangeKey|luksRemoveKey|erase',
    unless: '-d --key-file',
  }),
  line('asks', 'lvremove|vgremove|pvremove|lvreduce', '(8)', { unless: '-y --yes -f --force' }),
  line('asks', 'ssh-keygen', 'ssh-keygen(1)', { unless: '-N -l -F -R -y -A -H -B -L -e -i' }),
  line('asks', 'gpg', 'gpg(1)', {
    only: '--gen-key --full-generate-key --generate-key --edit-key --delete-keys --delete-secret-keys',
    unless: '--batch --yes',
  }),
  line('asks', 'openssl', 'openssl-req(1ssl)', { verbs: 'req' }),
  line('asks', 'ssh', 'ssh(1)', { most: 1, unless: '-N -G -V -Q -O -f' }),
  line('asks', 'sftp|ftp|telnet|lftp|smbclient', '(1)', { unless: '-b -c -e' }),
  line('asks', 'su|bash|sh|zsh|dash|python|python3|node|irb|ghci|lua|bc|dc|gdb|nslookup', '(1)', {
    most: 0,
    unless: '-c -n --version -V --help -e',
  }),
  line('asks', 'sudo|doas', 'sudo(8)', { only: '-i --login -s --shell', most: 0 }),
  line('asks', 'mysql|mariadb|psql|sqlite3|redis-cli|mongosh', '(1)', {
    unless: '-e --execute -c --command -f --file -l --list --version',
    most: 1,
  }),
  line('asks', 'docker|podman', 'docker(1)', { verbs: 'login', unless: '-p --password --password-stdin' }),
  line('asks', 'docker|podman', 'docker-system-prune(1)', {
    verbs: 'system|volume|image|container|network',
    only: 'prune',
    unless: '-f --force',
  }),
  line('asks', 'certbot', 'certbot(1)', {
    verbs: 'certonly|run|register',
    unless: '-n --non-interactive --noninteractive',
  }),
  line('asks', 'read|select', 'bash(1)', {}),
  line('asks', 'ufw', 'ufw(8)', { verbs: 'enable|reset|delete', unless: '--force' }),
  line('asks', 'do-release-upgrade|grub-mkpasswd-pbkdf2', '(8)', { unless: '-f' }),
  line('asks', 'expect|minicom|picocom|cu', '(1)', {}),
  line('asks', 'npm', 'npm-init(1)', { verbs: 'init|login|adduser', unless: '-y --yes' }),
  line('asks', 'pip|pip3', 'pip(1)', { verbs: 'uninstall', unless: '-y --yes' }),
  line('asks', 'terraform|tofu', 'common practice', { verbs: 'apply|destroy', unless: '-auto-approve' }),
]

/** Whether a text or a command stops for a person; null where it does not, as far as the table knows. */
export function interactionOf(given: string | SeenCommand): Interaction | null {
  for (const seen of toSeen(given)) {
    const found = seen.name === null ? undefined : interactionRows.find((one) => waits(one, seen))
    if (found) {
      const source = found.source.startsWith('(') ? `${seen.name}${found.source}` : found.source
      return { is: found.is, program: seen.name!, source }
    }
  }
  return null
}

function waits({ programs, verbs, only, unless, most }: InteractionRow, seen: SeenCommand): boolean {
  if (!programs.includes(seen.name!)) return false
  const args = argumentsOf(seen)
  if (verbs.length > 0 && !verbs.includes(args.operands[0]?.value ?? '')) return false
  const isGiven = (names: readonly string[]): boolean =>
    hasOption(args, names) || args.operands.some(({ value }) => value !== null && names.includes(value))
  if (only !== undefined && !isGiven(only)) return false
  if (unless !== undefined && isGiven(unless)) return false
  // What is written to it answers: `echo x | passwd`, `mysql < file`.
  if (seen.redirections.some(({ operator }) => operator.startsWith('<'))) return false
  return most === undefined || args.operands.length <= most
}

export interface Destruction {
  readonly seen: SeenCommand
  /** What is lost, by name where it is known. */
  readonly lost: readonly Touched[]
  readonly sources: readonly string[]
}

/** The commands of a text after which something is lost for good. */
export function destructionsIn(given: string | SeenCommand): Destruction[] {
  return toSeen(given).flatMap((seen) => {
    const { effects, touches, sources } = effectOf(seen)
    if (!effects.includes('destroys')) return []
    return [{ seen, lost: touches.filter(({ how }) => how === 'destroyed'), sources }]
  })
}
