/** Locks as the W3C's Web Locks API has them, exclusive ones alone: whoever asks first holds it first. */
import type { FindLocks } from '../../../renderer/workers/findService.ts'

export function createLocks(): FindLocks {
  const last = new Map<string, Promise<unknown>>()
  /** How many hold or wait for each. */
  const asked = new Map<string, number>()
  type Act = (lock: Lock | null) => unknown
  const count = (name: string, by: number): void => void asked.set(name, (asked.get(name) ?? 0) + by)
  const request = (name: string, ...rest: [Act] | [LockOptions, Act]): Promise<unknown> => {
    const [options, act] = rest.length === 1 ? [{}, rest[0]] : rest
    if (options.ifAvailable && (asked.get(name) ?? 0) > 0) return Promise.resolve(act(null))
    count(name, 1)
    const turn = (last.get(name) ?? Promise.resolve())
      .catch(() => undefined)
      .then(() => act({ name, mode: 'exclusive' }))
      .finally(() => count(name, -1))
    last.set(name, turn)
    return turn
  }
  return { request: request }
}
