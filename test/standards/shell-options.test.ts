/** The tables of options and effects against Debian's manual pages: what a row names is in the page that it comes from. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { describe, expect, it } from 'vitest'
import { effectRows } from '../../shared/shell/effects.ts'
import { optionTable } from '../../shared/shell/options/table.ts'

const folder = join(process.env.DOCS_DIR ?? '', 'man')

/** Manual pages by name, without section, as plain text with its dashes. */
function readPages(): Map<string, string> {
  const pages = new Map<string, string>()
  for (const section of ['man1', 'man8']) {
    const path = join(folder, section)
    if (process.env.DOCS_DIR === undefined || !existsSync(path)) continue
    for (const file of readdirSync(path).filter((one) => one.endsWith('.gz'))) {
      const source = gunzipSync(readFileSync(join(path, file))).toString('utf8')
      const name = file.replace(/\.\d\w*\.gz$/u, '')
      if (!pages.has(name)) pages.set(name, plainOf(source))
    }
  }
  return pages
}

/** roff with its fonts, dashes and the option macro of mdoc taken away (groff_char(7), mdoc(7)). */
const plainOf = (source: string): string =>
  source
    .replace(/^\.\\".*$/gmu, '')
    .replace(/\\f(?:\(..|\[[^\]]*\]|.)/gu, '')
    .replace(/\\(?:-|\(hy|\(mi|\[hy\])/gu, '-')
    .replace(/\\[&|^%:]/gu, '')
    .replace(/"/gu, '')
    .replace(/\bFl (?=[\w-])/gu, '-')

/** What later releases have than the pages that are fetched, and what programs take without saying so. */
const elsewhere = new Set(['systemctl soft-reboot', 'systemctl --no-legend'])

const pages = readPages()

/** Whether a page names an option, also where it writes letters together: `-46AaCf`. */
function names(page: string, option: string): boolean {
  const escaped = option.replace(/[.*+?^${}()|[\]\\]/gu, '\\$&')
  if (new RegExp(`(?<![\\w-])${escaped}(?![\\w-])`, 'u').test(page)) return true
  // systemd's and git's pages name `--[no-]name`; getopt takes `--name` from either.
  if (option.startsWith('--') && page.includes(`--[no-]${option.slice(2)}`)) return true
  if (option.startsWith('--no-') && page.includes('--no-OPTION')) return true
  return /^-\w$/u.test(option) && new RegExp(`(?<![\\w-])-\\w*${option[1]!}\\w*`, 'u').test(page)
}

const spellings = (line: string): string[] =>
  line
    .split(/\s+/u)
    .flatMap((mark) => (mark.startsWith('-') ? mark.replace(/(?:=\??)?~?$/u, '').split(',') : []))

const pageOf = (command: string): string | undefined => pages.get(command.replace(' ', '-'))

describe.skipIf(pages.size < 300)('against Debian’s manual pages', () => {
  it('options of a command stand in its page', () => {
    let count = 0
    const missing: string[] = []
    for (const [keys, line] of Object.entries(optionTable)) {
      const found = keys.split('|').flatMap((key) => pageOf(key) ?? [])
      if (found.length !== keys.split('|').length) continue
      for (const option of spellings(line)) {
        count += 1
        if (!found.some((page) => names(page, option))) missing.push(`${keys} ${option}`)
      }
    }
    console.log(`${count} options of commands whose pages are there, ${missing.length} not in them`)
    expect(missing.filter((one) => !elsewhere.has(one))).toEqual([])
    expect(count).toBeGreaterThan(300)
  })

  it('options and subcommands of a row of effects stand in the page that it names', () => {
    let count = 0
    const missing: string[] = []
    for (const { programs, subcommands, options, source } of effectRows) {
      for (const program of programs) {
        const first = subcommands[0] ?? ['']
        for (const sub of first) {
          const named = source.replace('%', sub).replace(/\(.*$/u, '') || program
          const page = pages.get(named)
          if (page === undefined) continue
          const wanted = [...(first.length > 0 && sub !== '*' && sub !== '' ? [sub] : []), ...options.flat()]
          count += wanted.length
          const has = (one: string): boolean => (one.startsWith('-') ? names(page, one) : page.includes(one))
          // Of the spellings of an option one is enough: programs of a row share what they have.
          const isThere = options.every((group) => group.some(has))
          if (!isThere || !wanted.filter((one) => !one.startsWith('-')).every(has))
            missing.push(`${program} ${wanted.join(' ')}`)
        }
      }
    }
    console.log(`${count} words of rows whose pages are there, ${missing.length} rows not borne out`)
    expect(missing.filter((one) => !elsewhere.has(one))).toEqual([])
    expect(count).toBeGreaterThan(200)
  })
})
