/** Ports: RFC 6335 §6 (0 to 65535, 0 reserved; system, user and dynamic ports) and the names of services (§5.1). */
import { right, wrong, type Mend, type TypeOfValue, type ValueCheck } from './types.ts'

/** Some of the names in the Service Name and Transport Protocol Port Number Registry (IANA). */
const ports: Readonly<Record<string, number>> = {
  ftp: 21,
  ssh: 22,
  telnet: 23,
  smtp: 25,
  domain: 53,
  bootps: 67,
  tftp: 69,
  http: 80,
  pop3: 110,
  sunrpc: 111,
  ntp: 123,
  imap: 143,
  snmp: 161,
  ldap: 389,
  https: 443,
  submission: 587,
  ldaps: 636,
  imaps: 993,
  pop3s: 995,
  nfs: 2049,
  mysql: 3306,
  postgresql: 5432,
}

/** The number, undefined where the text is no usable port. */
export function maybePort(text: string): number | undefined {
  return /^[1-9]\d{0,4}$/.test(text) && Number(text) <= 65535 ? Number(text) : undefined
}

function checkPort(text: string): ValueCheck {
  const port = maybePort(text)
  if (port !== undefined) return right(noteOf(port))
  if (/^0+$/.test(text))
    return wrong('range', 'Port 0 is reserved and cannot be asked for. A port is a number from 1 to 65535.')
  if (/^0\d+$/.test(text))
    return wrong(
      'form',
      'Write the port without leading zeros.',
      offer(text.replace(/^0+/, ''), 'Without leading zeros.'),
    )
  if (/^\d+$/.test(text)) return wrong('range', 'A port is a number from 1 to 65535.')
  const withProtocol = /^(\d{1,5})\/(?:tcp|udp|sctp|dccp)$/i.exec(text)?.[1] ?? /^:(\d{1,5})$/.exec(text)?.[1]
  if (withProtocol !== undefined)
    return wrong('form', 'A port is the number alone.', offer(withProtocol, 'The number alone.'))
  const known = Object.hasOwn(ports, text.toLowerCase()) ? ports[text.toLowerCase()] : undefined
  if (known !== undefined)
    return wrong(
      'form',
      `This is the name of a service. Its port is ${known} unless someone moved it.`,
      offer(String(known), 'The registered port of this service.'),
    )
  return wrong('form', 'A port is a number from 1 to 65535, as in 443.')
}

function noteOf(port: number): string | null {
  if (port <= 1023) return 'A system port: only root, or a program with that right, can listen on it.'
  return port >= 49152 ? 'A dynamic port: any program may be using it at the moment.' : null
}

function offer(text: string, sentence: string): Mend | null {
  return maybePort(text) === undefined ? null : { text, sentence }
}

export const port: TypeOfValue = {
  check: checkPort,
  canonical: (text) => (maybePort(text) === undefined ? null : text),
  example: '8443',
}
