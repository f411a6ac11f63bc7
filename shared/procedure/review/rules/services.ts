/** The rule about services that a procedure takes away and needs. */
import type { SeenCommand } from '../../../shell/seen.ts'
import { faultAt, type Reading, type ReadRow } from '../reading.ts'
import { remembered, type Rule } from '../rule.ts'
import type { FaultPlace } from '../types.ts'

interface Service {
  readonly name: string
  /** Units and packages that provide it; a pattern for the whole name. */
  readonly by: RegExp
  /** Programs that do not work without it. */
  readonly needed: ReadonlySet<string>
}

const service = (name: string, by: RegExp, needed: string): Service => ({
  name,
  by,
  needed: new Set(needed.split(' ')),
})

/** After the manual pages of the programs; each talks to the service and fails without it. */
export const services: readonly Service[] = [
  service(
    'PostgreSQL',
    /^postgresql(?:@?[\w.-]*)?$/u,
    'psql pg_dump pg_dumpall pg_restore createdb dropdb createuser dropuser vacuumdb pg_isready reindexdb',
  ),
  service(
    'MariaDB',
    /^(?:mariadb|mysql|mysqld)(?:-server)?(?:@[\w.-]+)?$/u,
    'mysql mariadb mysqldump mariadb-dump mysqladmin mariadb-admin mysqlimport',
  ),
  service('Docker', /^(?:docker|docker\.io|docker-ce|containerd)(?:\.socket)?$/u, 'docker docker-compose'),
  service('libvirt', /^(?:libvirtd|virtqemud|libvirt-daemon(?:-system)?)$/u, 'virsh virt-install virt-clone'),
  service('chrony', /^chronyd?$/u, 'chronyc'),
  service(
    'the name server',
    /^(?:systemd-resolved|bind9|named|unbound|dnsmasq)$/u,
    'dig host nslookup resolvectl',
  ),
  service(
    'the network',
    /^(?:networking|NetworkManager|systemd-networkd|network-manager)$/u,
    'apt apt-get wget curl ping ssh scp rsync dig git nmcli',
  ),
  service('Redis', /^redis(?:-server)?(?:@[\w.-]+)?$/u, 'redis-cli'),
  service('CUPS', /^cups(?:d|-daemon)?$/u, 'lp lpr lpstat lpadmin lpq'),
  service('MQTT', /^mosquitto$/u, 'mosquitto_pub mosquitto_sub'),
  service('LDAP', /^slapd$/u, 'ldapsearch ldapadd ldapmodify ldapdelete ldappasswd'),
  service('fail2ban', /^fail2ban$/u, 'fail2ban-client'),
  service('nut', /^(?:nut-server|nut-driver|upsd)$/u, 'upsc upscmd upsrw'),
]

/** Of them, those that a command to a machine by name does not need where it talks to another one. */
const networked = new Set(['rsync'])

interface Down {
  readonly service: Service
  readonly row: ReadRow
}

const serviceRebuilt: Rule = {
  id: 'service rebuilt',
  name: 'No step needs what the procedure has taken away',
  why: 'A step that needs a service which is stopped or being rebuilt cannot be followed, and the notes about it may be gone as well.',
  source: remembered('systemctl(1), stop; the manual pages of the programs that talk to a service'),
  declares: [],
  find: needsWhileDown,
}

function needsWhileDown({ rows }: Reading): FaultPlace[] {
  const down = new Map<string, Down>()
  const faults: FaultPlace[] = []
  for (const row of rows)
    for (const command of row.commands) {
      const host = hostOf(row)
      for (const [key, { service: one, row: since }] of down)
        if (key.startsWith(`${host} `) && isNeededBy(one, command.seen))
          faults.push(
            faultAt(
              row,
              command.part,
              command,
              `“${command.seen.name}” needs ${one.name}, which step ${since.row.number} has taken away.`,
            ),
          )
      for (const one of services) {
        const act = actOn(one, command.seen)
        if (act === 'down') down.set(`${host} ${one.name}`, { service: one, row })
        if (act === 'up') down.delete(`${host} ${one.name}`)
      }
    }
  return faults
}

const hostOf = ({ row: { place } }: ReadRow): string => place?.machine ?? place?.host ?? ''

function isNeededBy({ name, needed }: Service, seen: SeenCommand): boolean {
  if (seen.name === null || !needed.has(seen.name)) return false
  // A copy from folder to folder needs no network.
  const isLocal =
    networked.has(seen.name) && !seen.words.some(({ value }) => value === null || /:/u.test(value))
  return !(name === 'the network' && isLocal)
}

const downWords = new Set(['stop', 'kill', 'mask', 'disable'])
const upWords = new Set([
  'start',
  'restart',
  'reload',
  'reload-or-restart',
  'enable',
  'condrestart',
  'try-restart',
])

/** What a command does to a service. Of `disable` and `enable` only those with `--now` do anything at once. */
function actOn({ by }: Service, seen: SeenCommand): 'down' | 'up' | null {
  const words = seen.words.slice(1).map(({ value }) => value ?? '')
  const names = words.filter((word) => by.test(word.replace(/\.(?:service|socket)$/u, '')))
  if (names.length === 0) return null
  if (seen.name === 'systemctl' || seen.name === 'service' || seen.name === 'rc-service') {
    const verb = words.find((word) => downWords.has(word) || upWords.has(word))
    if (verb === undefined) return null
    if ((verb === 'enable' || verb === 'disable') && !words.includes('--now')) return null
    return downWords.has(verb) ? 'down' : 'up'
  }
  if (seen.name === 'apt' || seen.name === 'apt-get') {
    if (words.some((word) => word === 'remove' || word === 'purge' || word === 'autoremove')) return 'down'
    return words.includes('install') || words.includes('reinstall') ? 'up' : null
  }
  return null
}

export const serviceRules: readonly Rule[] = [serviceRebuilt]
