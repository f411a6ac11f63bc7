/** Reads the network log that Chromium writes with `--log-net-log=FILE`: the proof of what a session asked of the network. */
import { readFileSync } from 'node:fs'

/** What a session asked of the network. */
export interface NetworkUse {
  /** How many events the log holds; a log without events proves nothing. */
  readonly events: number
  /** Every address that a request was begun for. */
  readonly addresses: readonly string[]
  /** Every host name that was to be resolved. */
  readonly names: readonly string[]
  /** Every `address:port` that a TCP or UDP socket was connected to. */
  readonly peers: readonly string[]
}

interface NetLog {
  readonly constants: { readonly logEventTypes: Readonly<Record<string, number>> }
  readonly events: readonly { readonly type: number; readonly params?: Readonly<Record<string, unknown>> }[]
}

/** The switch that makes a session write its log. */
export function netLogSwitches(path: string): string[] {
  return [`--log-net-log=${path}`, '--net-log-capture-mode=Everything']
}

/** Reads a session's log, also one that was cut off when its program was killed. */
export function readNetLog(path: string): NetworkUse {
  const log = parseLog(readFileSync(path, 'utf8'))
  const nameOf = new Map(Object.entries(log.constants.logEventTypes).map(([name, type]) => [type, name]))
  const values = (isWanted: (name: string) => boolean, key: string): string[] => {
    const events = log.events.filter((event) => isWanted(nameOf.get(event.type) ?? ''))
    const found = events.map((event) => event.params?.[key]).filter((value) => typeof value === 'string')
    return [...new Set(found)]
  }
  return {
    events: log.events.length,
    addresses: values(
      (name) => /^(URL_REQUEST|URL_LOADER|WEBSOCKET|SOCKET_STREAM|CORS_REQUEST)/.test(name),
      'url',
    ),
    names: values((name) => name.startsWith('HOST_RESOLVER'), 'host'),
    peers: [
      ...values((name) => /^(TCP_CONNECT|UDP_CONNECT)/.test(name), 'address'),
      ...values((name) => name === 'UDP_BYTES_SENT', 'address'),
    ],
  }
}

/** What of a session's network use left the machine or asked to: empty for a silent one. */
export function foreignUse(use: NetworkUse): string[] {
  return [
    ...use.addresses.filter((address) => !isOwnScheme(address) && !isLoopback(address)),
    ...use.names
      .filter((name) => !/^(https?:\/\/)?(127\.0\.0\.1|localhost)(:\d+)?$/.test(name))
      .map((name) => `resolve ${name}`),
    ...use.peers
      .filter((peer) => !/^(127\.0\.0\.1|\[::1\]):\d+$/.test(peer))
      .map((peer) => `connect ${peer}`),
  ]
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
