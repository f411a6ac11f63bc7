/** Finds the programs that a start or a test run needs. Nothing here installs or downloads anything by itself. */
import { spawnSync } from 'node:child_process'
import { accessSync, constants, existsSync, readFileSync } from 'node:fs'
import { delimiter, join, resolve } from 'node:path'
import { root } from './build.mjs'

/** Where a script may lie that stages an Electron for tests, and then prints its folder on its last line. */
const stageScript = resolve(root, '../shared/electron-runtime/stage')
const chromiumNames = [
  'chromium',
  'chromium-browser',
  'google-chrome-stable',
  'google-chrome',
  'microsoft-edge',
]
const chromiumPlaces = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
]

/** What keeps a Chromium window from calling out: the page needs this machine only. */
export const quietSwitches = [
  '--no-first-run',
  '--no-default-browser-check',
  '--no-pings',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-domain-reliability',
  '--disable-sync',
  '--disable-default-apps',
  '--disable-extensions',
  '--webrtc-ip-handling-policy=disable_non_proxied_udp',
  '--force-webrtc-ip-handling-policy=disable_non_proxied_udp',
  '--disable-features=MediaRouter,OptimizationHints,Translate',
  // Whatever the browser still asks for by itself ends here: no proxy listens on the discard port (RFC 863). This machine's
  // own addresses go past a proxy always.
  '--proxy-server=http://127.0.0.1:9',
]

/** The path of a program that stands in PATH, null when there is none. */
export function maybeProgram(/** @type {string} */ name) {
  const folders = (process.env.PATH ?? '').split(delimiter)
  return folders.map((folder) => join(folder, name)).find(isProgram) ?? null
}

/** The path of a Chromium or a browser built from it: PLAYWRIGHT_CHROMIUM, else one of PATH, else null. */
export function maybeChromium() {
  const named = process.env.PLAYWRIGHT_CHROMIUM
  if (named !== undefined && named !== '') return isProgram(named) ? named : null
  return (
    chromiumNames.map(maybeProgram).find((path) => path !== null) ?? chromiumPlaces.find(isProgram) ?? null
  )
}

/** The path of an Electron program that is here already: ELECTRON_OVERRIDE_DIST_PATH, else the npm package's, else null. */
export function maybeElectron() {
  const folder = process.env.ELECTRON_OVERRIDE_DIST_PATH
  const named = readText(join(root, 'node_modules/electron/path.txt')) ?? 'electron'
  const path = folder ? join(folder, named) : join(root, 'node_modules/electron/dist', named)
  return isProgram(path) ? path : null
}

/** Says whether there is a script beside the project that stages an Electron for tests. */
export function hasStageScript() {
  return existsSync(stageScript)
}

/**
 * Stages the Electron for tests and gives its folder, null when that failed. May fetch from the npm registry, and as the
 * superuser installs the libraries that it needs.
 */
export function maybeStagedElectron() {
  const run = spawnSync(stageScript, {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
    timeout: 300_000,
  })
  const folder = (run.stdout ?? '').trim().split('\n').at(-1) ?? ''
  return run.status === 0 && isProgram(join(folder, 'electron')) ? folder : null
}

/** Fetches Electron's program into node_modules, from its own download host. Says whether it is here now. */
export function fetchElectron() {
  const script = join(root, 'node_modules/electron/install.js')
  if (!existsSync(script)) return false
  spawnSync(process.execPath, [script], { stdio: 'ignore', timeout: 600_000 })
  return maybeElectron() !== null
}

/** Says whether windows can be shown: always on macOS and Windows, elsewhere with a display. */
export function hasDisplay() {
  if (process.platform === 'darwin' || process.platform === 'win32') return true
  return Boolean(process.env.DISPLAY) || Boolean(process.env.WAYLAND_DISPLAY)
}

/** Says whether this runs as the superuser of a Debian-like system, who may install packages. */
export function canInstallPackages() {
  return isSuperuser() && maybeProgram('apt-get') !== null
}

/** Says whether this runs as the superuser, for whom Chromium's sandbox does not work. */
export function isSuperuser() {
  return process.getuid?.() === 0
}

function isProgram(/** @type {string} */ path) {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}

function readText(/** @type {string} */ path) {
  return existsSync(path) ? readFileSync(path, 'utf8').trim() : null
}
