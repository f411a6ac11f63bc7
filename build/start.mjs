/**
 * Starts Stillroom: in Electron where that can be had, else in a Chromium window, else as an address to open.
 *
 *   npm start                     picks by itself and says which and why
 *   npm start -- --browser        a Chromium window, also where Electron is here
 *   npm start -- --address        serves the page and prints the address; opens no window
 *
 * Switches after these go to the window's program unchanged, for instance --user-data-dir=FOLDER.
 */
import { spawn } from 'node:child_process'
import { mkdirSync } from 'node:fs'
import { homedir } from 'node:os'
import { join } from 'node:path'
import { build, ensureBuilt, root } from './build.mjs'
import {
  fetchElectron,
  hasDisplay,
  isSuperuser,
  maybeChromium,
  maybeElectron,
  quietSwitches,
} from './programs.mjs'
import { electronLibraryPackages, lacksElectronLibraries, maybeSandboxHindrance } from './runnable.mjs'

const own = new Set(['--browser', '--address', '--electron', '--no-build', '--rebuild'])
const passedOn = process.argv.slice(2).filter((word) => !own.has(word))

await start()

async function start() {
  if (isAsked('--rebuild')) await build()
  else if (!isAsked('--no-build')) await ensureBuilt(console.log)
  const choice = chooseHost()
  console.log(choice.why)
  if (choice.host === 'electron') startElectron(choice.program)
  else await startBrowser(choice.program)
}

/** @returns {{ host: 'electron', program: string, why: string } | { host: 'browser', program: string | null, why: string }} */
function chooseHost() {
  if (isAsked('--address')) return { host: 'browser', program: null, why: 'Serving the page only, as asked.' }
  if (!hasDisplay()) {
    const why =
      'There is no display here (neither DISPLAY nor WAYLAND_DISPLAY is set), so the page is served as an address.'
    return { host: 'browser', program: null, why }
  }
  const electron = isAsked('--browser') ? null : (maybeElectron() ?? maybeFetchedElectron())
  const hindrance = isAsked('--browser') ? 'as asked' : electronHindrance(electron)
  if (electron !== null && hindrance === null)
    return { host: 'electron', program: electron, why: `Starting in Electron (${electron}).` }
  if (isAsked('--electron')) throw new Error(`Stillroom was not started in Electron, ${hindrance}.`)
  const chromium = maybeChromium()
  if (chromium === null) {
    const why = `Serving the page as an address, ${hindrance} and no Chromium is installed (on Debian: apt-get install chromium).`
    return { host: 'browser', program: null, why }
  }
  const unsafe = sandboxHindrance(chromium)
  if (unsafe === null)
    return { host: 'browser', program: chromium, why: `Starting in a window of ${chromium}, ${hindrance}.` }
  const why = `Serving the page as an address, ${hindrance} and ${chromium} has no sandbox: ${unsafe}.`
  return { host: 'browser', program: null, why }
}

/** Why the window cannot be Electron's, as the end of a sentence; null when it can. @param {string | null} program */
function electronHindrance(program) {
  if (program === null) return 'because Electron cannot be had here'
  if (lacksElectronLibraries(program))
    return `because Electron needs libraries (on Debian: apt-get install ${electronLibraryPackages.join(' ')})`
  const unsafe = sandboxHindrance(program)
  return unsafe === null ? null : `because Electron's sandbox cannot work (${unsafe})`
}

/** Why a window would be without the sandbox that was not asked to be off. The superuser's is off, which is said. */
function sandboxHindrance(/** @type {string} */ program) {
  return isSuperuser() || passedOn.includes('--no-sandbox') ? null : maybeSandboxHindrance(program)
}

function maybeFetchedElectron() {
  console.log("Electron's program is not here yet; fetching it once from its download host (about 110 MB).")
  return fetchElectron() ? maybeElectron() : null
}

function startElectron(/** @type {string} */ program) {
  runWindow(program, [root, ...sandboxSwitches(), ...passedOn])
}

async function startBrowser(/** @type {string | null} */ program) {
  // Built from build/server.ts, so it is looked up by its address.
  /** @type {typeof import('./server.ts')} */
  const host = await import(new URL('../dist/host/server.mjs', import.meta.url).href)
  const port = host.choosePort(process.env)
  const warning = host.maybePortWarning(port)
  if (warning !== null) console.log(warning)
  const started = await host.startServer(join(root, 'dist/renderer'), port)
  if (!started.ok) {
    console.log(started.sentence)
    process.exitCode = started.code === 'running' ? 0 : 1
    return
  }
  console.log(`Stillroom is at ${started.address} – it serves this machine only. Ctrl+C ends it.`)
  if (program === null) return onEnd(() => process.exit(0))
  const profile = passedOn.some((word) => word.startsWith('--user-data-dir='))
    ? []
    : [`--user-data-dir=${ownProfile()}`]
  runWindow(program, [
    `--app=${started.address}`,
    ...profile,
    ...quietSwitches,
    ...sandboxSwitches(),
    ...passedOn,
  ])
}

/** The folder of the labs of the Chromium window (XDG Base Directory Specification 0.8), made when it is not there. */
function ownProfile() {
  const share = process.env.XDG_DATA_HOME || join(homedir(), '.local/share')
  const folder = join(share, 'stillroom', 'chromium')
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  return folder
}

function sandboxSwitches() {
  if (!isSuperuser() || passedOn.includes('--no-sandbox')) return []
  console.log(
    'Running as the superuser, for whom the sandbox cannot work; it is off. Use an ordinary account for real work.',
  )
  return ['--no-sandbox']
}

/** Runs the window's program and ends when it ends. */
function runWindow(/** @type {string} */ program, /** @type {string[]} */ words) {
  const child = spawn(program, words, { stdio: 'inherit' })
  child.on('error', (error) => {
    console.log(`${program} could not be started (${error.message}). Your labs are safe.`)
    process.exit(1)
  })
  child.on('exit', (code) => process.exit(code ?? 0))
  onEnd((signal) => child.kill(signal))
}

/** Listens to what ends this program from outside. @param {(signal: NodeJS.Signals) => void} end */
function onEnd(end) {
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) process.on(signal, end)
  // npm hands a signal to the shell that it runs this in, and not every shell hands it on; that the shell ended is seen.
  if (process.env.npm_lifecycle_event !== 'start' || process.platform === 'win32') return
  const shell = process.ppid
  const watch = setInterval(() => {
    if (process.ppid === shell) return
    clearInterval(watch)
    end('SIGTERM')
  }, 500)
}

function isAsked(/** @type {string} */ word) {
  return process.argv.includes(word)
}
