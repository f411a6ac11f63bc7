/** Services that a command needs to work, and those that a command takes away or rebuilds. */
import { effectOf } from './effects.ts'
import type { TouchedKind } from './effects.ts'
import { argumentsOf } from './effects/lookup.ts'
import { whatItFetches } from './fetches.ts'
import { maybeValue } from './options/arguments.ts'
import { toSeen, type SeenCommand } from './seen.ts'

export type Need =
  | 'network'
  | 'name resolution'
  | 'ssh'
  | 'systemd'
  | 'docker'
  | 'podman'
  | 'kubernetes'
  | 'libvirt'
  | 'postgresql'
  | 'mysql'
  | 'redis'
  | 'web'
  | 'mail'
  | 'ldap'
  | 'ntp'
  | 'cron'
  | 'mqtt'
  | 'ups'
  | 'firewall'

interface NeedRow {
  readonly programs: readonly string[]
  readonly needs: readonly Need[]
  readonly source: string
}

const needRow = (programs: string, needs: string, source: string): NeedRow => ({
  programs: programs.split('|'),
  needs: needs.split(', ') as Need[],
  source,
})

/** What a program needs whatever it is told to do. */
export const needRows: readonly NeedRow[] = [
  needRow('systemctl|journalctl|loginctl|systemd-run|systemd-analyze|busctl', 'systemd', 'systemctl(1)'),
  needRow('hostnamectl|timedatectl|localectl|networkctl|machinectl|coredumpctl', 'systemd', 'systemd(1)'),
  needRow('resolvectl', 'systemd, name resolution', 'resolvectl(1)'),
  needRow('docker|docker-compose', 'docker', 'docker(1)'),
  needRow('kubectl|helm', 'network, kubernetes', 'common practice'),
  needRow('virsh|virt-install|virt-clone', 'libvirt', 'virsh(1)'),
  needRow('dig|host|nslookup|delv|drill|kdig', 'network, name resolution', 'dig(1)'),
  needRow('ssh|scp|sftp|sshfs|ssh-copy-id|ssh-keyscan|mosh', 'network, ssh', 'ssh(1)'),
  needRow(
    'psql|pg_dump|pg_dumpall|pg_restore|createdb|dropdb|createuser|dropuser|vacuumdb|pg_isready|pg_basebackup',
    'postgresql',
    'psql(1)',
  ),
  needRow('mysql|mariadb|mysqldump|mariadb-dump|mysqladmin|mariadb-admin', 'mysql', 'mariadb(1)'),
  needRow('redis-cli', 'redis', 'redis-cli(1)'),
  needRow('ldapsearch|ldapadd|ldapmodify|ldapdelete|ldappasswd', 'ldap', 'ldapsearch(1)'),
  needRow('chronyc|ntpq', 'ntp', 'chronyc(1)'),
  needRow('ntpdate', 'network, ntp', 'ntpdate(8)'),
  needRow('mail|mailx|sendmail|mailq|postqueue|postsuper', 'mail', 'sendmail(1)'),
  needRow('mosquitto_pub|mosquitto_sub', 'mqtt', 'mosquitto_pub(1)'),
  needRow('upsc|upscmd|upsrw', 'ups', 'upsc(8)'),
  needRow('crontab|at|batch', 'cron', 'crontab(1)'),
  needRow('ufw|firewall-cmd', 'firewall', 'ufw(8)'),
  needRow('ansible|ansible-playbook|rsync', 'network, ssh', 'ansible(1)'),
]

interface Provider {
  readonly need: Need
  /** Names of units, packages and daemons, without `.service`. */
  readonly names: RegExp
  readonly files: RegExp
  readonly kinds: readonly TouchedKind[]
  readonly source: string
}

const provider = (
  need: Need,
  names: RegExp,
  files: RegExp,
  source: string,
  kinds: TouchedKind[] = [],
): Provider => ({
  need,
  names,
  files,
  kinds,
  source,
})

const none = /^$/u

/** Which units, packages, files and things a need rests on. */
export const providers: readonly Provider[] = [
  provider(
    'network',
    /^(?:networking|systemd-networkd|NetworkManager|network-manager|ifupdown\d*|netplan(?:\.io)?|dhcpcd\d*|isc-dhcp-client|wpa_?supplicant|wg-quick@.*|hostapd|network)$/u,
    /^\/etc\/(?:network\/|netplan\/|NetworkManager\/|systemd\/network\/|dhcp\/|wpa_supplicant\/|wireguard\/)/u,
    'interfaces(5), systemd.network(5)',
    ['interface'],
  ),
  provider(
    'name resolution',
    /^(?:systemd-resolved|resolvconf|openresolv|bind9?|named|unbound|dnsmasq|pdns(?:-recursor|-server)?|knot(?:-resolver)?|nscd|pihole-FTL|libnss-resolve)$/u,
    /^\/etc\/(?:resolv\.conf|nsswitch\.conf|hosts|systemd\/resolved\.conf|bind\/|unbound\/|dnsmasq)/u,
    'resolv.conf(5), nsswitch.conf(5)',
  ),
  provider(
    'ssh',
    /^(?:sshd?|openssh-server|dropbear)$/u,
    /^\/etc\/ssh\/(?:sshd_config|ssh_host_)/u,
    'sshd(8)',
  ),
  provider('systemd', /^(?:systemd|dbus)$/u, /^\/etc\/systemd\/system\.conf/u, 'systemd(1)'),
  provider(
    'docker',
    /^(?:docker(?:\.io|-ce)?|containerd(?:\.io)?|dockerd)$/u,
    /^\/etc\/docker\//u,
    'dockerd(8)',
  ),
  provider('podman', /^podman$/u, /^\/etc\/containers\//u, 'podman(1)'),
  provider(
    'kubernetes',
    /^(?:kubelet|k3s|k3s-agent|kube.*|microk8s)$/u,
    /^\/etc\/(?:kubernetes|rancher)\//u,
    'common practice',
  ),
  provider('libvirt', /^(?:libvirtd|virtqemud|libvirt-daemon.*)$/u, /^\/etc\/libvirt\//u, 'libvirtd(8)'),
  provider('postgresql', /^postgresql(?:[-@].*)?$/u, /^\/etc\/postgresql\//u, 'postgres(1)'),
  provider(
    'mysql',
    /^(?:mysqld?|mariadb|(?:mysql|mariadb|default-mysql)-server.*)$/u,
    /^\/etc\/mysql\//u,
    'mariadbd(8)',
  ),
  provider('redis', /^redis(?:-server|-sentinel)?$/u, /^\/etc\/redis\//u, 'redis-server(1)'),
  provider(
    'web',
    /^(?:nginx(?:-.*)?|apache2|httpd|caddy|haproxy|lighttpd)$/u,
    /^\/etc\/(?:nginx|apache2|httpd|caddy|haproxy|lighttpd)\//u,
    'nginx(8), apache2(8)',
  ),
  provider(
    'mail',
    /^(?:postfix|exim4?(?:-.*)?|sendmail|opensmtpd|dovecot(?:-.*)?)$/u,
    /^\/etc\/(?:postfix|exim4|dovecot|mail)\//u,
    'postfix(1)',
  ),
  provider('ldap', /^(?:slapd|389-ds(?:-base)?|sssd)$/u, /^\/etc\/(?:ldap|sssd)\//u, 'slapd(8)'),
  provider(
    'ntp',
    /^(?:chronyd?|ntp(?:d|sec)?|systemd-timesyncd|openntpd)$/u,
    /^\/etc\/(?:chrony|ntp)/u,
    'chronyd(8)',
  ),
  provider('cron', /^(?:cron|crond|cronie|anacron|atd)$/u, none, 'cron(8)'),
  provider('mqtt', /^mosquitto$/u, /^\/etc\/mosquitto\//u, 'mosquitto(8)'),
  provider('ups', /^(?:nut(?:-.*)?|apcupsd|upsd)$/u, /^\/etc\/(?:nut|apcupsd)\//u, 'upsd(8)'),
  provider(
    'firewall',
    /^(?:nftables|ufw|firewalld|iptables(?:-persistent)?|netfilter-persistent|firewall)$/u,
    /^\/etc\/(?:nftables|ufw|iptables|firewalld)/u,
    'nft(8)',
  ),
]

/** What a text or a command needs to be there, its wrappers with it. */
export function needsOf(given: string | SeenCommand): Need[] {
  return unique(toSeen(given).flatMap(needed))
}

function needed(seen: SeenCommand): Need[] {
  const names = [seen.name ?? '', ...seen.wrappers.map(({ name }) => name.split(' ')[0]!)]
  const listed = needRows.filter(({ programs }) => names.some((name) => programs.includes(name)))
  const { effects } = effectOf(seen)
  const isFar = effects.includes('network') || whatItFetches(seen).length > 0
  const needs = [...listed.flatMap((row) => row.needs), ...(isFar ? (['network'] as const) : [])]
  // Programs of databases talk to the same machine unless they are told another.
  const host = maybeValue(argumentsOf(seen), ['-h', '--host'])
  const all: Need[] =
    host !== null && listed.length > 0 && !/^(?:localhost|127\.|\/)/u.test(host.value ?? '')
      ? [...needs, 'network']
      : needs
  if (seen.name === 'rsync' && !isFar) return []
  return all.includes('network') && namesHost(seen) ? [...all, 'name resolution'] : all
}

const numeric = /^(?:\d{1,3}(?:\.\d{1,3}){3}|\[?[0-9a-f]*:[0-9a-f:.]+\]?)$/iu

/** Whether a far end is given by name. Where none is written, a configuration names it, and so by name. */
function namesHost({ words, wrappers, host }: SeenCommand): boolean {
  if (wrappers.some(({ name }) => name === 'ssh')) return host.is !== 'named' || !numeric.test(host.name)
  const values = words.slice(1).flatMap(({ value }) => (value === null ? [] : [value]))
  const ends = values.map(
    (value) => /^(?:[a-z+.-]+:\/\/)?(?:[^@/]*@)?(\[[^\]]+\]|[^/:]+)/iu.exec(value)?.[1] ?? value,
  )
  return !ends.some((end, n) => numeric.test(end) || numeric.test(values[n]!))
}

/** Which needs a text or a command disturbs: it stops, removes, installs or rewrites what they rest on. */
export function disturbsOf(given: string | SeenCommand): Need[] {
  return unique(toSeen(given).flatMap(disturbed))
}

function disturbed(seen: SeenCommand): Need[] {
  const changed = effectOf(seen).touches.filter(({ how }) => how !== 'read')
  return providers
    .filter(({ names, files, kinds, need }) =>
      changed.some(({ kind, name }) => {
        if (kinds.includes(kind)) return true
        if (kind === 'setting') return name === need
        if (name === null) return false
        return kind === 'file'
          ? files.test(name)
          : ['service', 'package'].includes(kind) && names.test(bare(name))
      }),
    )
    .map(({ need }) => need)
}

/** A package without its version, a unit without its type. */
const bare = (name: string): string => name.replace(/[=/].*$|\.(?:service|socket|timer)$/gu, '')

const unique = (needs: readonly Need[]): Need[] => [...new Set(needs)]
