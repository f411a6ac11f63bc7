/** Commands that run another command, with what they change about who runs it where. Each row names its source. */
import { toOptionRules, type OptionRules } from '../options/arguments.ts'

/** How the other command is given: as words; as a text for a shell (words joined by blanks); by an option. */
export type Handing =
  | { readonly as: 'words' }
  | { readonly as: 'text' }
  | { readonly as: 'first word' }
  | { readonly as: 'option'; readonly option: string }

export interface Wrapper {
  /** Names of the program, and the words that follow it. */
  readonly names: readonly string[]
  readonly subcommands: readonly string[]
  readonly source: string
  readonly rules: OptionRules
  readonly handing: Handing
  /** How many operands stand before the command, and what the first of them is. */
  readonly operands: number
  readonly firstOperand?: 'host' | 'container' | 'root'
  /** The option that says who runs it, and who does where it is not given. */
  readonly userOption: readonly string[]
  readonly user: string | null
  /** Options with which there is no other command. */
  readonly without: readonly string[]
  /** `NAME=value` may stand before the command. */
  readonly takesAssignments: boolean
  readonly isRepeated: boolean
  /** Words are added that nobody has written: `xargs`. */
  readonly addsWords: boolean
  /** Nothing about the command is different but how long, how nicely or how visibly it runs. */
  readonly isHarmless: boolean
}

interface Row {
  readonly source: string
  readonly options?: string
  readonly as?: 'words' | 'text' | 'first word' | `-${string}`
  readonly operands?: number
  readonly first?: 'host' | 'container' | 'root'
  readonly userOption?: string
  readonly user?: string
  readonly without?: string
  readonly takesAssignments?: true
  readonly isRepeated?: true
  readonly addsWords?: true
  readonly isHarmless?: true
}

const exec =
  '-d,--detach -e,--env= --env-file= -i,--interactive -t,--tty -u,--user= -w,--workdir= --privileged --detach-keys= -l,--latest --preserve-fds= --index= -T,--no-tty'
const shell =
  '-e -x -v -u -l -i -n -r -p -s -o= -O= --norc --noprofile --login --posix --rcfile= --init-file='

const rows: Readonly<Record<string, Row>> = {
  sudo: {
    source: 'sudo(8)',
    options:
      '-A,--askpass -b,--background -B,--bell -C,--close-from= -D,--chdir= -E,--preserve-env=? -e,--edit -g,--group= -H,--set-home -h,--host= -i,--login -K,--remove-timestamp -k,--reset-timestamp -l,--list -N,--no-update -n,--non-interactive -P,--preserve-groups -p,--prompt= -R,--chroot= -r,--role= -S,--stdin -s,--shell -T,--command-timeout= -t,--type= -U,--other-user= -u,--user= -V,--version -v,--validate',
    userOption: '-u --user',
    user: 'root',
    without: '-e --edit -l --list -v --validate -V --version -K --remove-timestamp',
    takesAssignments: true,
  },
  doas: { source: 'doas(1)', options: '-C= -L -n -s -u=', userOption: '-u', user: 'root', without: '-L -C' },
  pkexec: {
    source: 'pkexec(1)',
    options: '--user= --disable-internal-agent --keep-cwd',
    userOption: '--user',
    user: 'root',
  },
  setpriv: {
    source: 'setpriv(1)',
    options:
      '--reuid= --regid= --clear-groups --init-groups --keep-groups --groups= --inh-caps= --ambient-caps= --bounding-set= --no-new-privs --reset-env -d,--dump --list-caps',
    userOption: '--reuid',
    without: '-d --dump',
  },
  runuser: {
    source: 'runuser(1)',
    options:
      '-u,--user= -g,--group= -G,--supp-group= -l,--login -m,-p,--preserve-environment -f,--fast -s,--shell= -P,--pty -w,--whitelist-environment= -c,--command=',
    as: '--command',
    userOption: '-u --user',
    user: 'root',
  },
  env: {
    source: 'env(1)',
    options:
      '-i,--ignore-environment -u,--unset= -C,--chdir= -0,--null -v,--debug --block-signal=? --default-signal=? --ignore-signal=?',
    takesAssignments: true,
  },
  nice: { source: 'nice(1)', options: '-n,--adjustment=', isHarmless: true },
  ionice: {
    source: 'ionice(1)',
    options: '-c,--class= -n,--classdata= -t,--ignore -p,--pid= -P,--pgid= -u,--uid=',
    without: '-p --pid -P --pgid -u --uid',
    isHarmless: true,
  },
  chrt: {
    source: 'chrt(1)',
    options:
      '-b,--batch -d,--deadline -f,--fifo -i,--idle -o,--other -r,--rr -R,--reset-on-fork -v,--verbose -p,--pid= -m,--max',
    operands: 1,
    without: '-p --pid -m --max',
    isHarmless: true,
  },
  taskset: {
    source: 'taskset(1)',
    options: '-a,--all-tasks -c,--cpu-list -p,--pid',
    operands: 1,
    without: '-p --pid',
    isHarmless: true,
  },
  nohup: { source: 'nohup(1)', isHarmless: true },
  setsid: { source: 'setsid(1)', options: '-c,--ctty -f,--fork -w,--wait', isHarmless: true },
  stdbuf: { source: 'stdbuf(1)', options: '-i,--input= -o,--output= -e,--error=', isHarmless: true },
  time: {
    source: 'time(1)',
    options: '-p,--portability -v,--verbose -f,--format= -o,--output= -a,--append -q,--quiet',
    isHarmless: true,
  },
  timeout: {
    source: 'timeout(1)',
    options: '-s,--signal= -k,--kill-after= --preserve-status --foreground -v,--verbose',
    operands: 1,
    isHarmless: true,
  },
  strace: {
    source: 'strace(1)',
    options: '-f -ff -c -C -d -q -r -t -T -v -x -y -o= -e= -p= -s= -u= -E= -a= -S= -O= -P= -I= -b=',
    without: '-p',
    isHarmless: true,
  },
  unbuffer: { source: 'unbuffer(1)', options: '-p', isHarmless: true },
  'systemd-inhibit': {
    source: 'systemd-inhibit(1)',
    options: '--what= --who= --why= --mode= --list --no-pager',
    without: '--list',
    isHarmless: true,
  },
  'systemd-cat': {
    source: 'systemd-cat(1)',
    options: '-t,--identifier= -p,--priority= --stderr-priority= --level-prefix=',
    isHarmless: true,
  },
  'systemd-run': {
    source: 'systemd-run(1)',
    options:
      '--scope -u,--unit= -p,--property= --description= --slice= --slice-inherit -r,--remain-after-exit --send-sighup --service-type= --uid= --gid= --nice= --working-directory= -d,--same-dir -E,--setenv= -t,--pty -P,--pipe -q,--quiet --on-active= --on-boot= --on-startup= --on-unit-active= --on-unit-inactive= --on-calendar= --timer-property= --no-block --wait -G,--collect -S,--shell --user --system -H,--host= -M,--machine=',
    userOption: '--uid',
    without: '-S --shell',
  },
  flock: {
    source: 'flock(1)',
    options:
      '-s,--shared -x,-e,--exclusive -u,--unlock -n,--nb,--nonblock -w,--wait,--timeout= -o,--close -E,--conflict-exit-code= -F,--no-fork -c,--command --verbose',
    operands: 1,
    isHarmless: true,
  },
  chroot: {
    source: 'chroot(8)',
    options: '--userspec= --groups= --skip-chdir',
    operands: 1,
    first: 'root',
    userOption: '--userspec',
  },
  'arch-chroot': {
    source: 'common practice',
    options: '-u= -N -r',
    operands: 1,
    first: 'root',
    userOption: '-u',
  },
  nsenter: {
    source: 'nsenter(1)',
    options:
      '-a,--all -t,--target= -m,--mount=? -u,--uts=? -i,--ipc=? -n,--net=? -N,--net-socket= -p,--pid=? -U,--user=? -C,--cgroup=? -T,--time=? -S,--setuid= -G,--setgid= --preserve-credentials -r,--root=? -w,--wd=? -W,--wdns=? -e,--env -F,--no-fork -Z,--follow-context',
    userOption: '-S --setuid',
    operands: 0,
  },
  unshare: {
    source: 'unshare(1)',
    options:
      '-i,--ipc=? -m,--mount=? -n,--net=? -p,--pid=? -u,--uts=? -U,--user=? -C,--cgroup=? -T,--time=? -f,--fork --kill-child=? --mount-proc=? -r,--map-root-user -c,--map-current-user --map-auto --propagation= --setgroups= -R,--root= -w,--wd= -S,--setuid= -G,--setgid=',
    userOption: '-S --setuid',
  },
  'ip netns exec': { source: 'ip-netns(8)', operands: 1, first: 'container' },
  'systemd-nspawn': {
    source: 'systemd-nspawn(1)',
    options:
      '-D,--directory= -M,--machine= -i,--image= -u,--user= -b,--boot -q,--quiet -x,--ephemeral --bind= --bind-ro= --capability= --private-network --network-veth -n -E,--setenv= --chdir= -a,--as-pid2 -U --pipe -P',
    userOption: '-u --user',
    without: '-b --boot',
  },
  'machinectl shell': {
    source: 'machinectl(1)',
    options: '--uid= -E,--setenv= -q,--quiet',
    operands: 1,
    first: 'container',
    userOption: '--uid',
    user: 'root',
  },
  'docker exec': {
    source: 'docker-exec(1)',
    options: exec,
    operands: 1,
    first: 'container',
    userOption: '-u --user',
  },
  'podman exec': {
    source: 'podman-exec(1)',
    options: exec,
    operands: 1,
    first: 'container',
    userOption: '-u --user',
  },
  'docker container exec': {
    source: 'docker-exec(1)',
    options: exec,
    operands: 1,
    first: 'container',
    userOption: '-u --user',
  },
  'docker compose exec': {
    source: 'common practice',
    options: exec,
    operands: 1,
    first: 'container',
    userOption: '-u --user',
  },
  'docker-compose exec': {
    source: 'common practice',
    options: exec,
    operands: 1,
    first: 'container',
    userOption: '-u --user',
  },
  'kubectl exec': {
    source: 'common practice',
    options: '-i,--stdin -t,--tty -c,--container= -n,--namespace= -q,--quiet',
    operands: 1,
    first: 'container',
  },
  'lxc exec': {
    source: 'common practice',
    options: '--user= --group= --cwd= --env= -t -T -n',
    operands: 1,
    first: 'container',
    userOption: '--user',
    user: 'root',
  },
  'incus exec': {
    source: 'common practice',
    options: '--user= --group= --cwd= --env= -t -T -n',
    operands: 1,
    first: 'container',
    userOption: '--user',
    user: 'root',
  },
  'pct exec': { source: 'common practice', operands: 1, first: 'container', user: 'root' },
  ssh: {
    source: 'ssh(1)',
    options:
      '-4 -6 -A -a -C -f -G -g -K -k -M -N -n -q -s -T -t -V -v -X -x -Y -y -B= -b= -c= -D= -E= -e= -F= -I= -i= -J= -L= -l= -m= -O= -o= -P= -p= -Q= -R= -S= -W= -w=',
    as: 'text',
    operands: 1,
    first: 'host',
    userOption: '-l',
    without: '-N -G -V -Q -O -W',
  },
  watch: {
    source: 'watch(1)',
    options:
      '-b,--beep -c,--color -C,--no-color -d,--differences=? -e,--errexit -g,--chgexit -n,--interval= -p,--precise -q,--equexit= -r,--no-rerun -t,--no-title -w,--no-wrap -x,--exec',
    as: 'text',
    isRepeated: true,
    isHarmless: true,
  },
  xargs: {
    source: 'xargs(1)',
    options:
      '-0,--null -a,--arg-file= -d,--delimiter= -E= -e=? -I= -i=? -L= -l=? -n,--max-args= -o,--open-tty -P,--max-procs= -p,--interactive -r,--no-run-if-empty -s,--max-chars= -t,--verbose -x,--exit --show-limits --process-slot-var=',
    isRepeated: true,
    addsWords: true,
  },
  su: {
    source: 'su(1)',
    options:
      '-c,--command= -l,--login -g,--group= -G,--supp-group= -m,-p,--preserve-environment -f,--fast -P,--pty -s,--shell= -w,--whitelist-environment=',
    as: '--command',
    user: 'root',
  },
  'sh|dash|bash|ksh|zsh|ash|rbash': { source: 'sh(1)', options: `-c ${shell}`, as: 'first word' },
  eval: { source: 'POSIX.1-2017', as: 'text', isHarmless: true },
  command: { source: 'POSIX.1-2017', options: '-p -v -V', without: '-v -V', isHarmless: true },
  builtin: { source: 'bash(1)', isHarmless: true },
  exec: { source: 'POSIX.1-2017', options: '-c -l -a=', isHarmless: true },
}

function toWrapper(key: string, row: Row): Wrapper {
  const [names = '', ...subcommands] = key.split(' ')
  const list = (line: string | undefined): readonly string[] => (line === undefined ? [] : line.split(' '))
  const as = row.as ?? 'words'
  return {
    names: names.split('|'),
    subcommands,
    source: row.source,
    rules: toOptionRules(`${row.options ?? ''} >`),
    handing: as.startsWith('-')
      ? { as: 'option', option: as }
      : { as: as as 'words' | 'text' | 'first word' },
    operands: row.operands ?? 0,
    ...(row.first === undefined ? {} : { firstOperand: row.first }),
    userOption: list(row.userOption),
    user: row.user ?? null,
    without: list(row.without),
    takesAssignments: row.takesAssignments ?? false,
    isRepeated: row.isRepeated ?? false,
    addsWords: row.addsWords ?? false,
    isHarmless: row.isHarmless ?? false,
  }
}

export const wrappers: readonly Wrapper[] = Object.entries(rows).map(([key, row]) => toWrapper(key, row))
