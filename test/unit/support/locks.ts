/** Locks as the W3C's Web Locks API has them, exclusive ones alone: whoever asks first holds it first. */
import type { FindLocks } from '../../../renderer/workers/findService.ts'

export function createLocks(): FindLocks {
  const last = new Map<string, Promise<unknown>>()
  const held = new Set<string>()
  type Act = (lock: Lock | null) => unknown
  const hold = async (name: string, act: Act): Promise<unknown> => {
    held.add(name)
    try {
      return await act({ name, mode: 'exclusive' } as Lock)
    } finally {
      held.delete(name)
    }
  }
  const request = (name: string, ...rest: [Act] | [LockOptions, Act]): Promise<unknown> => {
    const [options, act] = rest.length === 1 ? [{}, rest[0]] : rest
    if (options.ifAvailable && held.has(name)) return Promise.resolve(act(null))
    const turn = (last.get(name) ?? Promise.resolve()).catch(() => undefined).then(() => hold(name, act))
    last.set(name, turn)
    return turn
  }
  return { request: request as LockManager['request'] }
}
