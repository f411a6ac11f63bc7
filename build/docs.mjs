/**
 * Fetches Debian's documentation packages for tests: real pages, PDFs and manual pages. Nothing is installed; what is needed
 * of them is unpacked below `.cache/docs`, as it would lie below /usr/share.
 */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './build.mjs'
import { maybeProgram } from './programs.mjs'

const folder = join(root, '.cache/docs')

/** Packages, and what of them is unpacked: paths below /usr/share, a folder with all that is in it. */
const packages = /** @type {Readonly<Record<string, readonly string[]>>} */ ({
  'apache2-doc': ['doc/apache2-doc/manual/en', 'doc/apache2-doc/manual/style'],
  'bash-doc': ['doc/bash', 'info'],
  'db5.3-doc': ['doc/db5.3-doc'],
  'debian-handbook': ['doc/debian-handbook/html/en-US'],
  'debian-reference-en': ['debian-reference', 'doc/debian-reference-common'],
  'developers-reference': ['developers-reference'],
  'doxygen-doc': ['doc/doxygen/html'],
  'freebsd-manpages': ['man/man4'],
  'git-doc': ['doc/git-doc'],
  'git-man': ['man'],
  'graphviz-doc': ['doc/graphviz'],
  'installation-guide-amd64': ['doc/installation-guide-amd64'],
  'libcommons-lang3-java-doc': ['doc/libcommons-lang3-java/api/org/apache/commons/lang3'],
  'libglib2.0-doc': ['gtk-doc/html/glib'],
  'live-manual-pdf': ['doc/live-manual'],
  lvm2: ['man'],
  manpages: ['man'],
  mdadm: ['man'],
  'mkdocs-doc': ['doc/mkdocs'],
  'nodejs-doc': ['doc/nodejs/api'],
  'openssh-client': ['man'],
  'postfix-doc': ['doc/postfix'],
  'postgresql-doc-15': ['doc/postgresql-doc-15/html'],
  'python3.11-doc': [
    'doc/python3.11/html/library',
    'doc/python3.11/html/tutorial',
    'doc/python3.11/html/_static',
  ],
  rsync: ['man'],
  'rust-doc': ['doc/rust-doc/html/book', 'doc/rust-doc/html/std/option'],
  smartmontools: ['man'],
  systemd: ['man'],
  'util-linux': ['man'],
})

/**
 * Unpacks the packages that are not unpacked yet, and names the folder in DOCS_DIR, where tests look for it. A folder that
 * DOCS_DIR names already is taken as it is.
 */
export function ensureDocs() {
  if (process.env.DOCS_DIR) return
  const missing = Object.keys(packages).filter((name) => !existsSync(markOf(name)))
  if (missing.length > 0) fetch(missing)
  if (existsSync(join(folder, 'share'))) process.env.DOCS_DIR = join(folder, 'share')
}

/** @param {string[]} names */
function fetch(names) {
  if (['apt-get', 'dpkg-deb', 'tar'].some((program) => maybeProgram(program) === null)) {
    console.log(
      'Debian’s documentation packages cannot be had without apt-get: checks on real pages are skipped.',
    )
    return
  }
  console.log(
    `Fetching ${names.length} of Debian’s documentation packages for tests (up to 160 MB, once, into .cache/docs; nothing is installed).`,
  )
  const failed = names.filter((name) => !unpack(name))
  if (failed.length > 0) console.log(`Not to be had, checks on their pages are skipped: ${failed.join(' ')}.`)
}

/** @param {string} name @returns {boolean} whether it was fetched and unpacked */
function unpack(name) {
  const debs = join(folder, 'debs', name)
  const share = join(folder, 'share')
  mkdirSync(debs, { recursive: true })
  mkdirSync(share, { recursive: true })
  try {
    const words = ['-qq', '-o', 'Acquire::Retries=1', '-o', 'Acquire::http::Timeout=20', 'download', name]
    if (spawnSync('apt-get', words, { cwd: debs, stdio: 'ignore' }).status !== 0) return false
    const file = readdirSync(debs).find((one) => one.endsWith('.deb'))
    if (file === undefined) return false
    const wanted = packages[name]?.map((path) => `'./usr/share/${path}'`).join(' ') ?? ''
    // tar ends badly where one of several paths is not in the package, and has then unpacked the others.
    const line = `dpkg-deb --fsys-tarfile '${join(debs, file)}' | tar -x -C '${share}' --strip-components=3 ${wanted}`
    spawnSync('sh', ['-c', line], { stdio: 'ignore' })
    writeFileSync(markOf(name), '')
    return true
  } finally {
    rmSync(debs, { recursive: true, force: true })
  }
}

/** @param {string} name */
function markOf(name) {
  return join(folder, `${name}.unpacked`)
}
