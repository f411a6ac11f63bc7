/**
 * `npm run package [-- targets]`: packages the program into release/. Without targets it makes the unpacked Linux
 * program, which needs no network where an Electron is here already (ELECTRON_OVERRIDE_DIST_PATH, or node_modules).
 */
import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { build as packageProgram } from 'electron-builder'
import { build, root } from './build.mjs'
import { fetchElectron, hasStageScript, maybeElectron, maybeStagedElectron } from './programs.mjs'

/** For end-to-end runs: into release/inspectable, with the one switch left on that a test driver needs to attach. */
const isInspectable = process.argv.includes('--inspectable')
const targets = process.argv.slice(2).filter((word) => word !== '--inspectable')
await build()
const electron = maybeElectron() ?? maybeOtherElectron()
if (electron === null) {
  console.log(
    'Electron is not here and cannot be fetched: set ELECTRON_OVERRIDE_DIST_PATH to its folder. Nothing was packaged.',
  )
  process.exit(1)
}
const electronDist = dirname(electron)
const electronVersion = readFileSync(join(electronDist, 'version'), 'utf8').trim().replace(/^v/, '')
console.log(`Packaging with Electron ${electronVersion} from ${electronDist}.`)
await packageProgram({
  projectDir: root,
  linux: targets.length === 0 ? ['dir'] : targets,
  publish: 'never',
  config: {
    extends: 'electron-builder.yml',
    electronDist,
    electronVersion,
    ...(isInspectable && {
      directories: { output: 'release/inspectable' },
      electronFuses: { enableNodeCliInspectArguments: true },
    }),
  },
})

function maybeOtherElectron() {
  if (hasStageScript()) {
    const folder = maybeStagedElectron()
    if (folder !== null)
      console.log('This Electron is old and for tests only: do not give the program to anybody.')
    return folder === null ? null : join(folder, 'electron')
  }
  console.log('Electron is not here; fetching it once from its download host (about 110 MB).')
  return fetchElectron() ? maybeElectron() : null
}
