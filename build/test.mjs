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
import { join } from 'node:path'
import { root } from './build.mjs'
import { ensureTools } from './tools.mjs'

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

/** One program as one check: passed when it ends well. @param {string} title @param {string[]} words @returns {Count} */
function check(title, words) {
  return node(title, words) ? { passed: 1, failed: 0, skipped: 0 } : { passed: 0, failed: 1, skipped: 0 }
}

/** Unit and standards checks. @returns {Count} */
function unit() {
  const file = join(reports, 'unit.json')
  const reporters = ['--reporter=dot', '--reporter=json', `--outputFile.json=${file}`]
  // Outside a terminal colours are only noise between the words.
  const env = process.stdout.isTTY ? process.env : { ...process.env, NO_COLOR: '1' }
  const isGood = node('Unit and standards', [binaryOf('vitest', 'vitest'), 'run', ...reporters], env)
  const report = maybeReport(file)
  if (report === null) return { passed: 0, failed: 1, skipped: 0 }
  for (const title of report.testResults.flatMap(skippedTitles)) console.log(`Skipped: ${title}`)
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
  for (const reason of skippedReasons(report.suites)) console.log(`Skipped: ${reason}`)
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

/** What was skipped end to end, each with its reason. @param {any[]} suites @returns {string[]} */
function skippedReasons(suites) {
  return suites.flatMap((suite) => [
    ...suite.specs.flatMap((/** @type {any} */ spec) =>
      spec.tests
        .filter((/** @type {any} */ test) => test.status === 'skipped')
        .map((/** @type {any} */ test) => `[${test.projectName}] ${spec.title}${reasonOf(test)}`),
    ),
    ...skippedReasons(suite.suites ?? []),
  ])
}

/** @param {any} test @returns {string} */
function reasonOf(test) {
  const notes = test.annotations.filter((/** @type {any} */ note) => note.type === 'skip' && note.description)
  return notes.map((/** @type {any} */ note) => ` (${note.description})`).join('')
}

/** @param {string} title @param {string[]} words @param {NodeJS.ProcessEnv} [env] */
function node(title, words, env = process.env) {
  console.log(`\n== ${title}`)
  const begun = performance.now()
  const run = spawnSync(process.execPath, words, { cwd: root, env, stdio: ['ignore', 'inherit', 'inherit'] })
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

/** @param {Count} one @param {Count} other @returns {Count} */
function add(one, other) {
  return {
    passed: one.passed + other.passed,
    failed: one.failed + other.failed,
    skipped: one.skipped + other.skipped,
  }
}
