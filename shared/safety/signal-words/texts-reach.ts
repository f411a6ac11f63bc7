/** Access, network, names, time: service and reach. Each is a notice, since nobody gets hurt. */
import type { ReadyCaution } from './ready-texts.ts'

const loss = {
  harm: { worst: 'loss of data, equipment or service', ifNotAvoided: 'could' },
  defersTo: null,
} as const

export const reachTexts: readonly ReadyCaution[] = [
  {
    ...loss,
    id: 'lockout-ssh',
    title: 'Locking oneself out over ssh',
    caution: {
      signal: 'notice',
      hazard: 'The change takes effect on the connection by which you work.',
      consequence: 'You can lose access, and someone has to travel to the machine.',
      avoidance:
        'Keep a second session open, let `sshd -t` check the settings, and try a new login before you close the old one. Have a console ready.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['ssh', 'sshd', 'lockout', 'remote', 'login', 'key'],
  },
  {
    ...loss,
    id: 'lockout-firewall',
    title: 'Locking oneself out by a firewall',
    caution: {
      signal: 'notice',
      hazard: 'New rules of a firewall can drop your own connection.',
      consequence: 'You can lose access, and so can everyone who uses the machine.',
      avoidance:
        'Allow your own address first, and have the old rules come back by themselves after some minutes unless you confirm. Have a console ready.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['firewall', 'nftables', 'iptables', 'ufw', 'rules', 'lockout'],
  },
  {
    ...loss,
    id: 'cut-own-network',
    title: 'Changing the network that one is on',
    caution: {
      signal: 'notice',
      hazard: 'The change stops the interface, route or switch port by which you work.',
      consequence: 'The command may end half-way, with no way back in.',
      avoidance:
        'Work at the console, or let one job make the change and put it back by itself after some minutes. Note the present addresses and routes first.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['network', 'interface', 'route', 'vlan', 'switch', 'ip', 'netplan'],
  },
  {
    ...loss,
    id: 'dns-outage',
    title: 'Changing DNS',
    caution: {
      signal: 'notice',
      hazard:
        'Many services find each other by name, and answers are kept for as long as their time to live says.',
      consequence: 'A wrong record can stop logins, mail and updates for hours, also after it is mended.',
      avoidance:
        'Lower the time to live a day ahead, keep the old zone, check the new one before loading, and have the addresses of what you need on paper.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['dns', 'zone', 'record', 'ttl', 'bind', 'resolver', 'name'],
  },
  {
    ...loss,
    id: 'dhcp-outage',
    title: 'Changing DHCP',
    caution: {
      signal: 'notice',
      hazard:
        'Machines ask for their addresses anew when their leases end; two servers, or a wrong range, give wrong ones.',
      consequence: 'Machines lose the network one after another, some much later.',
      avoidance:
        'Keep the old settings, stop the old server before you start the new one, shorten the leases a day ahead, and have a machine with a fixed address ready.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['dhcp', 'lease', 'address', 'range', 'kea'],
  },
  {
    ...loss,
    id: 'certificate',
    title: 'Replacing or renewing certificates',
    caution: {
      signal: 'notice',
      hazard: 'Clients refuse a certificate that is expired, incomplete, or not for the name they ask for.',
      consequence: 'Every service behind it is out of reach at once.',
      avoidance:
        'Check names, dates and chain of the new one, keep the old one beside it, reload instead of restarting, and ask from another machine.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['certificate', 'tls', 'ssl', 'renew', 'expire', 'chain', 'ca'],
  },
  {
    ...loss,
    id: 'clock',
    title: 'Changing the clock',
    caution: {
      signal: 'notice',
      hazard: 'Logins, certificates, back-ups and databases rely on the time.',
      consequence: 'A jump can end sessions, make certificates invalid and put records out of order.',
      avoidance:
        'Let the time service slew the clock. Where it must jump, stop what writes first, and never set it back while a database runs.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['time', 'clock', 'ntp', 'chrony', 'date', 'zone'],
  },
  {
    ...loss,
    id: 'restart-remote',
    title: 'Restarting a machine that is far away',
    caution: {
      signal: 'notice',
      hazard: 'After this the machine is out of reach until it has started by itself.',
      consequence: 'If it stops at a question, a file system check or a fault, someone has to travel there.',
      avoidance:
        'See that nobody works on it, check that the last change lets it start, have a console or remote power, and someone who can go there.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['reboot', 'restart', 'shutdown', 'remote', 'kernel'],
  },
  {
    ...loss,
    id: 'permissions',
    title: 'Changing owners and modes of many files',
    caution: {
      signal: 'notice',
      hazard: 'The command changes owners or modes below a whole directory.',
      consequence:
        'Programs may stop working, logins by key may be refused, and secrets may be open to everyone.',
      avoidance:
        'Keep the present state (`getfacl -R`), name the narrowest directory, and try the command on one file first.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['chmod', 'chown', 'permission', 'mode', 'owner', 'recursive', 'acl'],
  },
  {
    ...loss,
    id: 'secrets-shown',
    title: 'Secrets on the screen and in logs',
    caution: {
      signal: 'notice',
      hazard:
        'What is typed in a command can be seen in the list of processes, in the shell’s history and in logs.',
      consequence: 'A password or key that was shown must be taken as known to others.',
      avoidance:
        'Give it by a prompt or a file that only its owner can read, and change it at once where it has been shown.',
    },
    why: 'Service is at stake and nobody is hurt: notice. Where people depend on the service for their safety, choose by what can happen to them.',
    words: ['secret', 'password', 'token', 'history', 'log', 'key'],
  },
]
