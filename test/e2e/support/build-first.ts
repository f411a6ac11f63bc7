import { ensureBuilt } from '../../../build/build.mjs'

/** The specs look at the program as it is built; a stale build would be a test of something else. */
export default async function buildFirst(): Promise<void> {
  await ensureBuilt(console.log)
}
