import { ensureBuilt } from '../../../build/build.mjs'
import { hasStageScript, maybeElectron, maybeStagedElectron } from '../../../build/programs.mjs'

/**
 * Before all specs: builds, since a stale build would be a test of something else, and finds an Electron for tests where
 * one can be staged. What is set in the environment here reaches the tests.
 */
export default async function buildFirst(): Promise<void> {
  await ensureBuilt(console.log)
  if (maybeElectron() !== null || !hasStageScript()) return
  const folder = maybeStagedElectron()
  if (folder !== null) process.env.ELECTRON_OVERRIDE_DIST_PATH = folder
}
