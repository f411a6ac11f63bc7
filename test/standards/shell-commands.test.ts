/** Where commands end, against bash itself (`bash -n`) on the shell scripts of this machine. */
import { execFileSync, spawnSync } from 'node:child_process'
import { readdirSync, readFileSync, realpathSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { expect, it } from 'vitest'
import { splitCommands } from '../../shared/shell/commands.ts'

const folders = [
  '/etc/init.d',
  '/etc/cron.daily',
  '/usr/bin',
  '/usr/sbin',
  '/usr/lib/dpkg',
  '/usr/share/debconf',
]

const hasBash = spawnSync('bash', ['--version']).status === 0
const scripts = hasBash ? [...new Set(folders.flatMap(shellScripts))].sort() : []

function shellScripts(folder: string): string[] {
  let names: string[] = []
  try {
    names = readdirSync(folder)
  } catch {
    return []
  }
  return names
    .map((name) => join(folder, name))
    .flatMap((path) => {
      try {
        const size = statSync(path).size
        const isShell = size < 40_000 && /^#! ?\/bin\/(?:ba)?sh\b/u.test(readFileSync(path, 'latin1'))
        return isShell ? [realpathSync(path)] : []
      } catch {
        return []
      }
    })
}

/** What bash says of a text: it runs it, asks for more, or refuses it. */
function bashOn(text: string): 'runs' | 'asks for more' | 'refuses' {
  if (/(?:^|[^\\])(?:\\\\)*\\\n?$/u.test(text)) return 'asks for more'
  const { stderr } = spawnSync('bash', ['-n'], { input: text, encoding: 'utf8' })
  if (stderr === '') return 'runs'
  return /unexpected (?:end of file|EOF)|delimited by end-of-file/u.test(stderr) ? 'asks for more' : 'refuses'
}

it.skipIf(scripts.length < 20)(
  'every command of real scripts is one that bash runs, and asks for more without its last line',
  () => {
    expect(execFileSync('bash', ['--version'], { encoding: 'utf8' })).toContain('bash')
    const differing: string[] = []
    let count = 0
    for (const path of scripts) {
      const script = readFileSync(path, 'utf8')
      if (bashOn(script) !== 'runs') continue
      for (const [n, { text, isComplete, problem }] of splitCommands(script).entries()) {
        const lines = text.split('\n')
        // Each check starts a bash: all of the long ones, some of the short ones.
        if (lines.length < 3 && n % 8 !== 0) continue
        count++
        const isWhole = isComplete && problem === null && bashOn(text) === 'runs'
        const isShortest = lines.length === 1 || bashOn(lines.slice(0, -1).join('\n')) === 'asks for more'
        if (!isWhole || !isShortest) differing.push(`${path}: ${text.slice(0, 200)}`)
      }
    }
    console.log(
      `${count} commands of ${scripts.length} scripts, ${differing.length} read otherwise than by bash`,
    )
    expect(count).toBeGreaterThan(200)
    expect(differing).toEqual([])
  },
)
