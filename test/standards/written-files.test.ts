/**
 * What is said of files that a command writes, against what real shells write (POSIX.1-2017, Shell Command Language,
 * 2.2, 2.6, 2.7 and 2.7.4; "echo", "printf", "tee").
 */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { afterAll, describe, expect, it } from 'vitest'
import { writesOf, type FileWrite } from '../../shared/journal/files/writes.ts'

const shells = ['bash', 'dash', 'zsh'].filter((shell) => spawnSync(shell, ['-c', ':']).status === 0)
const root = mkdtempSync(join(tmpdir(), 'written-'))
afterAll(() => rmSync(root, { recursive: true }))

/** What stands in the folder's files after a shell ran the command there, null for a file that is not there. */
function run(
  shell: string,
  command: string,
  paths: readonly string[],
): { isFine: boolean; contents: (string | null)[] } {
  const folder = join(root, 'here')
  rmSync(folder, { recursive: true, force: true })
  mkdirSync(join(folder, 'sub'), { recursive: true })
  const env = { PATH: process.env.PATH, HOME: join(root, 'home'), X: 'of the environment' }
  const options = { cwd: folder, env, input: 'typed\n', timeout: 20_000, encoding: 'utf8' } as const
  const { status, stderr } = spawnSync(shell, ['-c', command], options)
  return {
    isFine: status === 0 && stderr === '',
    contents: paths.map((path) => (existsSync(path) ? readFileSync(path, 'utf8') : null)),
  }
}

/** The last thing said of each path. */
function said(command: string): Map<string, FileWrite> {
  const last = new Map<string, FileWrite>()
  for (const write of writesOf(command, join(root, 'here'))) {
    // It may have been any of the files before.
    if (write.path === null) last.clear()
    const before = last.get(write.path ?? '')
    const isOnKnown = write.way === 'added' && before?.way === 'whole'
    if (write.path !== null)
      last.set(write.path, isOnKnown ? { ...before, text: before.text + write.text } : write)
  }
  return last
}

function expectTrue(command: string): void {
  const writes = [...said(command).values()].filter(({ way }) => way === 'whole')
  if (writes.length === 0) return
  for (const shell of shells) {
    const { isFine, contents } = run(
      shell,
      command,
      writes.map(({ path }) => path!),
    )
    // A shell may refuse what another one takes; then nothing is said either.
    if (isFine) expect(contents, `${shell}: ${command}`).toEqual(writes.map(({ text }) => text))
  }
}

const piece = fc.constantFrom(
  ...[
    'height=12',
    ' ',
    '  ',
    '\t',
    '$',
    '$X',
    '${X}',
    '$(echo a)',
    '$((1+1))',
    '`echo b`',
    '\\',
    '\\\\',
    '\\$',
    '\\`',
  ],
  ...[
    '\\"',
    '"',
    "'",
    '!',
    '#',
    '*',
    '~',
    '{a,b}',
    '%',
    '%s',
    '\\n',
    '\\t',
    'E',
    '$5',
    '$"',
    "$'",
    // Some shells lose a letter of several bytes directly behind what begins like the delimiter.
    'Wä',
    '\\\n',
    '&',
    '>',
    '-n',
  ],
)
const line = fc.array(piece, { maxLength: 5 }).map((parts) => parts.join(''))
const body = fc.array(line, { maxLength: 5 }).map((lines) => lines.map((one) => `${one}\n`).join(''))
const delimiter = fc.constantFrom('E', "'E'", '"E"', '\\E', "E''")
const target = fc.constantFrom('f', './f', 'sub/f', '"f g"', "'f'", 'sub/../f', 'f$X', '$X', 'f*', '"$X"')
const operator = fc.constantFrom('>', '>', '>>', '>|')
const words = fc.oneof(
  line.map((text) => `'${text.replace(/'/g, '')}'`),
  line.map((text) => `"${text.replace(/"/g, '')}"`),
  fc.constantFrom('a', 'a  b', '-n', '-e', '--', '*', '~', 'x=~', 'a{b,c}', '\\a', "'a'\\''b'"),
)
const command = fc.oneof(
  fc
    .tuple(operator, target, fc.constantFrom('<<', '<<-'), delimiter, body)
    .map(([o, t, h, d, b]) => `cat ${o} ${t} ${h}${d}\n${b}E`),
  fc.tuple(operator, target, delimiter, body).map(([o, t, d, b]) => `cat <<${d} ${o}${t}\n${b}E`),
  fc
    .tuple(target, delimiter, body, fc.constantFrom('', '-a '))
    .map(([t, d, b, a]) => `cat <<${d} | tee ${a}${t} >/dev/null\n${b}E`),
  fc.tuple(target, delimiter, body).map(([t, d, b]) => `tee ${t} other <<${d} >/dev/null\n${b}E`),
  fc
    .tuple(
      fc.constantFrom('echo', 'printf'),
      fc.array(words, { minLength: 1, maxLength: 3 }),
      operator,
      target,
    )
    .map(([p, w, o, t]) => `${p} ${w.join(' ')} ${o} ${t}`),
  fc.tuple(words, target).map(([w, t]) => `echo ${w} | tee ${t}`),
)
const several = fc
  .tuple(
    fc.array(command, { minLength: 1, maxLength: 3 }),
    fc.constantFrom(' && ', '; ', '\n', ' || ', ' & '),
  )
  .map(([all, joint]) => all.join(all.some((one) => one.endsWith('E')) ? '\n' : joint))

describe.skipIf(shells.length === 0)('what a command is said to write', () => {
  it('is what shells write, to the last byte', () => {
    fc.assert(fc.property(several, expectTrue), { numRuns: 700 })
  })

  it('is found in the ways that people write files by', () => {
    const sure: readonly (readonly [string, string, string])[] = [
      ["cat > f <<'E'\nheight=$H\n\tmast \\\nE", 'f', 'height=$H\n\tmast \\\n'],
      ['cat <<E >f\ncosts \\$5 and $ 5\\n\nE', 'f', 'costs $5 and $ 5\\n\n'],
      ['cat <<-E > sub/f\n\ta\n\t\tb\n\tE', 'sub/f', 'a\nb\n'],
      ['cat << E | tee f > /dev/null\na\nE', 'f', 'a\n'],
      ['tee f <<"E" >/dev/null && echo done\na\nE', 'f', 'a\n'],
      ['mkdir -p x && cat > x/f <<E && cat x/f\na\nE', 'x/f', 'a\n'],
      ['cd sub && cat > f <<E\na\nE', 'f', ''],
      [`cd ${root}/here/sub && echo 'a' > f`, 'sub/f', 'a\n'],
      ['echo "height 12" > f', 'f', 'height 12\n'],
      ["printf 'a=%s\\n' 1 2 > f", 'f', 'a=1\na=2\n'],
      ['cat > f <<E\na\nE\ncat >> f <<E\nb\nE', 'f', 'a\nb\n'],
      ["sh -c 'echo a > f'", 'f', 'a\n'],
      [': > f', 'f', ''],
      ['cat > f <<E # the mast\na\nE', 'f', 'a\n'],
    ]
    for (const [script, name, text] of sure) {
      const path = join(root, 'here', name)
      if (text === '' && !script.startsWith(':'))
        expect(said(script).get(join(root, 'here/sub/f')), script).toMatchObject({ way: 'whole' })
      else expect(said(script).get(path), script).toEqual({ path, way: 'whole', text })
      expectTrue(script)
    }
  })

  it('is nothing where it is not sure', () => {
    const unsure = [
      'cat > f <<E\n$HOME\nE',
      'cat > f <<E\n`date`\nE',
      'cat > f <<E\n${X:-a}\nE',
      'cat > f',
      'cat a - > f <<E\na\nE',
      'if true; then cat > f <<E\na\nE\nfi',
      'false || echo a > f',
      'for x in 1 2; do echo a > f; done',
      'w() { echo a > f; }',
      'echo $(echo a > f)',
      '(cd /tmp; echo a > f)',
      'echo a > f &',
      'echo *.conf > f',
      'echo {a,b} > f',
      'echo "wow!x" > f',
      "echo 'a\\tb' > f",
      "printf '%d\\n' 5 > f",
      'cat <<E | sed s/a/b/ > f\na\nE',
      'echo a > f g > h',
      'ssh vane.example.org cat <<E > f\na\nE',
      'cat > f <<E && sed -i s/a/b/ f\na\nE',
      'cat > $X <<E\na\nE',
      'cat > f <<E\na',
      'cd "$X" && echo a > f',
      'echo a > /dev/null',
    ]
    for (const script of unsure)
      expect(
        [...said(script).values()].filter(({ way }) => way !== 'unsure'),
        script,
      ).toEqual([])
  })

  it('is, behind sudo, in the place that sudo means', () => {
    const paths = (script: string): (string | null)[] => writesOf(script, '/srv/rack').map(({ path }) => path)
    expect(paths('cat <<E | sudo tee /etc/rack.conf\na\nE')).toEqual(['/etc/rack.conf'])
    expect(paths('sudo -u ops tee fans <<E\na\nE')).toEqual(['/srv/rack/fans'])
    expect(paths('sudo -i tee fans <<E\na\nE')).toEqual([null])
    expect(paths("sudo sh -c 'echo a > ~/x; echo b > y'")).toEqual(['/srv/rack/y'])
    expect(writesOf('echo a > x', null)).toMatchObject([{ path: null }])
    expect(writesOf('echo a > ~/x', null)).toEqual([{ path: '~/x', way: 'whole', text: 'a\n' }])
  })
})
