/**
 * Builds the program into dist/: the page (dist/renderer), the Electron shell (dist/app) and the server for a plain
 * browser (dist/host). `node build/build.mjs` builds all of it; `ensureBuilt` builds when a source is newer.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build as bundle } from 'esbuild'
import { build as buildPage } from 'vite'
import { pageConfig } from './page.config.mjs'

/** The project's folder. */
export const root = fileURLToPath(new URL('..', import.meta.url))
/** What the program is made of; a change in any of these makes dist stale. */
const sources = ['app', 'renderer', 'shared', 'build', 'package.json', 'package-lock.json']
/** What a build ends with; its time is the build's time. */
const lastBuilt = join(root, 'dist/host/server.mjs')

/**
 * Builds everything; takes a few seconds. The new build takes the old one's place only when all of it is there, so that
 * a program that runs from dist meanwhile never finds half of one.
 */
export async function build() {
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))
  const out = join(root, `.cache/build-${process.pid}`)
  try {
    await buildInto(out, version)
    const old = `${out}-before`
    if (existsSync(join(root, 'dist'))) renameSync(join(root, 'dist'), old)
    renameSync(out, join(root, 'dist'))
    rmSync(old, { recursive: true, force: true })
  } finally {
    rmSync(out, { recursive: true, force: true })
  }
}

async function buildInto(/** @type {string} */ out, /** @type {string} */ version) {
  mkdirSync(out, { recursive: true })
  await buildPage(pageConfig(root, join(out, 'renderer'), version))
  await Promise.all([
    bundle(shell('app/main.ts', join(out, 'app/main.cjs'), 'node18')),
    bundle(shell('app/preload.ts', join(out, 'app/preload.cjs'), 'chrome114')),
    bundle({ ...shell('build/server.ts', join(out, 'host/server.mjs'), 'node20'), format: 'esm' }),
  ])
}

/** Builds when there is no build yet or a source is newer than it. Says so through `say`. */
export async function ensureBuilt(/** @type {(sentence: string) => void} */ say) {
  const builtAt = statSync(lastBuilt, { throwIfNoEntry: false })?.mtimeMs
  if (builtAt !== undefined && newestSource() <= builtAt) return
  say(
    builtAt === undefined ? 'Building the program.' : 'The sources are newer than the build; building again.',
  )
  await build()
}

/**
 * @param {string} entry
 * @param {string} outfile
 * @param {string} target
 * @returns {import('esbuild').BuildOptions}
 */
function shell(entry, outfile, target) {
  return {
    entryPoints: [join(root, entry)],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target,
    external: ['electron'],
    sourcemap: true,
    legalComments: 'none',
    logLevel: 'warning',
  }
}

function newestSource() {
  return Math.max(...sources.map((source) => newestBelow(join(root, source))))
}

/** @returns {number} */
function newestBelow(/** @type {string} */ path) {
  const stats = statSync(path)
  if (!stats.isDirectory()) return stats.mtimeMs
  return Math.max(stats.mtimeMs, ...readdirSync(path).map((name) => newestBelow(join(path, name))))
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const begun = performance.now()
  await build()
  console.log(`Built into dist/ in ${((performance.now() - begun) / 1000).toFixed(1)} s.`)
}
