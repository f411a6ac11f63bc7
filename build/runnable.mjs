/** Says whether a program that is here can run here: its shared libraries, and the sandbox of Chromium and Electron. */
import { spawnSync } from 'node:child_process'
import { existsSync, realpathSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { isSuperuser } from './programs.mjs'

/** The Debian packages that bring, with what they depend on, every library that Electron asks a system for. */
export const electronLibraryPackages = ['libgtk-3-0', 'libnss3', 'libasound2', 'libgbm1']
const electronLibraries = ['libgtk-3.so.0', 'libnss3.so', 'libasound.so.2', 'libgbm.so.1']
/** The helper of Chromium's sandbox for systems without user namespaces: beside the program, and where Debian has it. */
const sandboxHelper = 'chrome-sandbox'
const debianHelperFolder = '/usr/lib/chromium'

/**
 * Says whether the system lacks libraries that Electron needs. Without a program to ask, the usual four are looked for.
 *
 * @param {string | null} program an Electron program, or null when none is here yet
 */
export function lacksElectronLibraries(program) {
  if (process.platform !== 'linux') return false
  if (program !== null) return outputOf('ldd', [program]).includes('not found')
  const known = outputOf('/sbin/ldconfig', ['-p'])
  // Where nothing is known of the libraries, the program itself has to say.
  return known !== '' && electronLibraries.some((library) => !known.includes(library))
}

/**
 * Why the sandbox of a Chromium or an Electron cannot work here, as the end of a sentence; null when it can.
 * https://chromium.googlesource.com/chromium/src/+/main/docs/linux/sandboxing.md: on Linux it needs an account other than
 * the superuser, and user namespaces or the setuid helper.
 */
export function maybeSandboxHindrance(/** @type {string} */ program) {
  if (process.platform !== 'linux') return null
  if (isSuperuser()) return 'this is the superuser, for whom it cannot work'
  if (hasSandboxHelper(program) || hasUserNamespaces()) return null
  return 'this system lets ordinary accounts have no user namespaces'
}

function hasSandboxHelper(/** @type {string} */ program) {
  const beside = existsSync(program) ? dirname(realpathSync(program)) : null
  const isDebians = program === '/usr/bin/chromium'
  return [beside, isDebians ? debianHelperFolder : null].some((folder) => {
    if (folder === null) return false
    const stats = statSync(join(folder, sandboxHelper), { throwIfNoEntry: false })
    return stats !== undefined && stats.uid === 0 && (stats.mode & 0o4000) !== 0
  })
}

/** Where the tool that tries it is missing, the program itself has to say, so the answer is yes. */
function hasUserNamespaces() {
  const tried = spawnSync('unshare', ['--user', '--map-root-user', 'true'], { stdio: 'ignore' })
  return tried.error !== undefined || tried.status === 0
}

/** What a tool prints, in English; '' where there is no such tool. */
function outputOf(/** @type {string} */ tool, /** @type {string[]} */ words) {
  const run = spawnSync(tool, words, { encoding: 'utf8', env: { ...process.env, LC_ALL: 'C' } })
  return run.stdout ?? ''
}
