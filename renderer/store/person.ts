/** The name that a person gave for exports, if any: a setting of the program, read by all its windows. */
import type { LabRegistry } from '../db/labs.ts'

const SETTING = 'name for exports'
let name: string | null = null

/** Who acts, for Changes: the name as it was given, or null. */
export const who = (): string | null => name

/** Reads the name, and follows what other windows make of it. */
export async function followPerson(registry: LabRegistry): Promise<void> {
  const channel = new BroadcastChannel(SETTING)
  channel.onmessage = ({ data }: MessageEvent<unknown>) => take(data)
  take(await registry.findSetting(SETTING))
}

/** Keeps a name; an empty one takes it away. What was done before stays with the name that it has. */
export async function keepPerson(registry: LabRegistry, given: string): Promise<void> {
  take(given)
  await registry.keepSetting(SETTING, name)
  const channel = new BroadcastChannel(SETTING)
  channel.postMessage(name)
  channel.close()
}

function take(given: unknown): void {
  name = typeof given === 'string' && given.trim() !== '' ? given.trim() : null
}
