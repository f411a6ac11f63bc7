/** Reads the network log that Chromium writes with `--log-net-log=FILE`: the proof of what a session asked of the network. */
import { readFileSync } from 'node:fs'

/** What a session asked of the network. */
export interface NetworkUse {
  /** How many events the log holds; a log without events proves nothing. */
  readonly events: number
  /** Every address that a request was begun for. */
  readonly addresses: readonly string[]
  /** Every host name that was really looked up; what is only sought in the cache is not. */
  readonly names: readonly string[]
  /** Every `address:port` that a TCP connection was tried to or that a UDP socket sent something to. */
  readonly peers: readonly string[]
}

interface NetLog {
  readonly constants: { readonly logEventTypes: Readonly<Record<string, number>> }
  readonly events: readonly LoggedEvent[]
}
interface LoggedEvent {
  readonly type: number
  readonly source: { readonly id: number }
  readonly params?: Readonly<Record<string, unknown>>
}

/** The switch that makes a session write its log. */
export function netLogSwitches(path: string): string[] {
  return [`--log-net-log=${path}`, '--net-log-capture-mode=Everything']
}

/** Reads a session's log, also one that was cut off when its program was killed. */
export function readNetLog(path: string): NetworkUse {
  const log = parseLog(readFileSync(path, 'utf8'))
  const nameOf = new Map(Object.entries(log.constants.logEventTypes).map(([name, type]) => [type, name]))
  const named = log.events.map((event) => ({ ...event, name: nameOf.get(event.type) ?? '' }))
  const values = (isWanted: (event: (typeof named)[number]) => boolean, key: string): string[] => {
    const found = named.filter(isWanted).map((event) => event.params?.[key])
    return [...new Set(found.filter((value) => typeof value === 'string'))]
  }
  // Connecting a UDP socket sends nothing: Chromium does it to see whether there is a way to IPv6.
  const senders = new Set(
    named.filter((event) => event.name === 'UDP_BYTES_SENT').map((event) => event.source.id),
  )
  return {
    events: named.length,
    addresses: values(
      ({ name }) => /^(URL_REQUEST|URL_LOADER|WEBSOCKET|SOCKET_STREAM|CORS_REQUEST)/.test(name),
      'url',
    ),
    names: values(({ name }) => /^HOST_RESOLVER_\w*JOB$/.test(name), 'host'),
    peers: [
      ...values(({ name }) => name.startsWith('TCP_CONNECT'), 'address'),
      ...values(
        ({ name, source }) => /^UDP_(CONNECT|BYTES_SENT)$/.test(name) && senders.has(source.id),
        'address',
      ),
    ],
  }
}

/** What of a session's network use left the machine or asked to: empty for a silent one. */
export function foreignUse(use: NetworkUse): string[] {
  return [
    ...use.addresses.filter((address) => !isOwnScheme(address) && !isLoopback(address)),
    ...use.names.filter((name) => !isUnresolved(name)).map((name) => `resolve ${name}`),
    ...foreignPeers(use).map((peer) => `connect ${peer}`),
  ]
}

/** The machines other than this one that a session sent something to. */
export function foreignPeers(use: NetworkUse): string[] {
  return use.peers.filter((peer) => !/^(127\.0\.0\.1|\[::1\]):\d+$/.test(peer))
}

/** Says whether a name is this machine's, or the mark that resolver rules put in place of a name that is not looked up. */
function isUnresolved(name: string): boolean {
  return /^(https?:\/\/)?(127\.0\.0\.1|localhost|~notfound)(:\d+)?$/i.test(name)
}

function isOwnScheme(address: string): boolean {
  return /^(app:\/\/stillroom\/|devtools:|data:|blob:app:\/\/stillroom\/)/.test(address)
}

function isLoopback(address: string): boolean {
  return /^(blob:)?(https?|wss?):\/\/127\.0\.0\.1(:\d+)?\//.test(address)
}

function parseLog(text: string): NetLog {
  try {
    return JSON.parse(text) as NetLog
  } catch {
    return JSON.parse(`${text.trimEnd().replace(/,$/, '')}]}`) as NetLog
  }
}
