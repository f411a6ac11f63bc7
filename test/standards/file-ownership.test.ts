/** What ls(1) and stat(1) print of real files (POSIX.1-2017 "ls", "chmod"; GNU coreutils manual, "stat invocation"). */
import { spawnSync } from 'node:child_process'
import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { ownershipsIn, type Ownership } from '../../shared/journal/files/listing.ts'
import { shownModeOf } from '../../shared/journal/files/mode.ts'

const isGnu =
  spawnSync('stat', ['--version'], { encoding: 'utf8' }).stdout?.includes('GNU coreutils') ?? false
const directory = mkdtempSync(join(tmpdir(), 'owners-'))
afterAll(() => rmSync(directory, { recursive: true }))
const names = ['logger.conf', 'vane 1.conf', 'sub/mast']
const modes = ['0644', '4751', '0600']
mkdirSync(join(directory, 'sub'))
names.forEach((name, at) => {
  writeFileSync(join(directory, name), 'x'.repeat(at * 3000))
  chmodSync(join(directory, name), Number.parseInt(modes[at]!, 8))
})
symlinkSync('logger.conf', join(directory, 'link'))

const run = (command: string, words = 'LC_ALL=C'): Ownership[] => {
  const { stdout } = spawnSync('sh', ['-c', `${words} ${command}`], { cwd: directory, encoding: 'utf8' })
  return ownershipsIn({ command, output: stdout, place: { host: null, user: null, directory } })
}
const named = (found: readonly Ownership[]): unknown =>
  found.map(({ path, mode }) => [path.slice(directory.length + 1), mode])
const all = [
  ['logger.conf', '0644'],
  ['sub/mast', '0600'],
  ['vane 1.conf', '4751'],
]

describe.skipIf(!isGnu)('owner and mode, read from what ls and stat print', () => {
  it('are those of the files', () => {
    for (const command of ['ls -l logger.conf', `stat ${directory}/logger.conf`, `ls -lah ./logger.conf`]) {
      const { uid, gid } = statSync(join(directory, 'logger.conf'))
      const nameOf = (words: string): string =>
        spawnSync('sh', ['-c', words], { encoding: 'utf8' }).stdout.split(':')[0]!
      expect(run(command), command).toEqual([
        {
          path: join(directory, 'logger.conf'),
          owner: nameOf(`getent passwd ${uid}`),
          group: nameOf(`getent group ${gid}`),
          mode: '0644',
        },
      ])
    }
    expect(run('ls -ln logger.conf')[0]?.owner).toBe(String(statSync(join(directory, 'logger.conf')).uid))
  })

  it('are found in every listing whose columns are known', () => {
    expect(named(run("ls -l 'vane 1.conf' sub logger.conf"))).toEqual([all[0], all[2], all[1]])
    expect(named(run('ls -la --full-time'))).toEqual([all[0], all[2]])
    expect(named(run('ls -l --time-style=long-iso sub'))).toEqual([all[1]])
    expect(named(run("stat logger.conf 'vane 1.conf' sub link sub/mast"))).toEqual([all[0], all[2], all[1]])
  })

  it('are not guessed', () => {
    const commands = [
      'ls',
      'ls -lF',
      'ls -lR',
      'ls -lg',
      'ls -li',
      'ls -l link',
      'ls -ld sub',
      'ls -l | cat',
      'ls -lQ',
    ]
    for (const command of commands) expect(run(command), command).toEqual([])
    const place = { host: null, user: null, directory: null }
    expect(
      ownershipsIn({ command: 'ls -l a', output: '-rw-r--r-- 1 ops ops 3 Mar  2 10:00 a', place }),
    ).toEqual([])
    expect(
      ownershipsIn({ command: 'ls -l /a', output: '-rw-r--r-- 1 ops ops 3 Mar  2 10:00 b', place }),
    ).toEqual([])
  })

  it('have modes in the letters that ls shows', () => {
    for (const mode of ['0000', '1644', '2755', '4711', '6777', '7000']) {
      chmodSync(join(directory, 'logger.conf'), Number.parseInt(mode, 8))
      const { stdout } = spawnSync('stat', ['-c', '%A', join(directory, 'logger.conf')], { encoding: 'utf8' })
      expect(stdout).toBe(`-${shownModeOf(mode)}\n`)
    }
  })
})
