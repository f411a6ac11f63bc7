/**
 * Our unified diffs against those of diff(1), and our applying against patch(1), both from the outside: GNU diffutils
 * manual, "Detailed Description of Unified Format"; POSIX.1-2017, "diff" and "patch".
 */
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import fc from 'fast-check'
import { afterAll, describe, expect, it } from 'vitest'
import { applyUnified } from '../../shared/journal/files/apply.ts'
import { unifiedDiff } from '../../shared/journal/files/unified.ts'

const has = (program: string): boolean => spawnSync(program, ['--version']).status === 0
const isGnu =
  spawnSync('diff', ['--version'], { encoding: 'utf8' }).stdout?.includes('GNU diffutils') ?? false
const folder = mkdtempSync(join(tmpdir(), 'diff-'))
const [older, newer] = [join(folder, 'older'), join(folder, 'newer')]
afterAll(() => rmSync(folder, { recursive: true }))

function diffOfProgram(before: string, after: string): string {
  writeFileSync(older, before)
  writeFileSync(newer, after)
  const labels = ['--label', 'a/logger.conf', '--label', 'b/logger.conf']
  return spawnSync('diff', ['-u', '--text', ...labels, older, newer], {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  }).stdout
}

const ours = (before: string, after: string): string =>
  unifiedDiff(before, after, 'a/logger.conf', 'b/logger.conf')

function patched(before: string, diff: string): string {
  writeFileSync(older, before)
  const run = spawnSync('patch', ['--binary', '--fuzz=0', '-s', '-o', newer, older], {
    input: diff,
    encoding: 'utf8',
  })
  expect(run.status, run.stdout + run.stderr).toBe(0)
  return readFileSync(newer, 'utf8')
}

const root = resolve(import.meta.dirname, '../..')
const files = ['shared/lab', 'shared/intake', 'build', 'shared/export'].flatMap((name) =>
  readdirSync(join(root, name))
    .filter((file) => /\.(?:ts|mjs)$/.test(file))
    .map((file) => readFileSync(join(root, name, file), 'utf8')),
)

/** Short lines of few kinds, in which many shortest answers exist. */
const drawn = fc
  .tuple(fc.integer({ min: 1, max: 9 }), fc.array(fc.nat(8), { maxLength: 60 }), fc.boolean())
  .map(([kinds, lines, isEnded]) =>
    textOf(
      lines.map((line) => `line ${line % kinds}`),
      isEnded,
    ),
  )

const textOf = (lines: readonly string[], isEnded: boolean): string =>
  lines.join('\n') + (isEnded && lines.length > 0 ? '\n' : '')

const step = fc.record({
  way: fc.constantFrom('cut', 'bring', 'move', 'indent', 'end'),
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  to: fc.double({ min: 0, max: 1, noNaN: true }),
  length: fc.integer({ min: 1, max: 20 }),
  from: fc.nat(),
})
/** A file and what some edits made of it. */
const edited = fc.tuple(fc.nat(), fc.array(step, { minLength: 1, maxLength: 12 })).map(([start, steps]) => {
  const before = files[start % files.length]!
  const lines = before.split('\n')
  for (const { way, at, to, length, from } of steps) {
    const place = Math.floor(at * lines.length)
    if (way === 'cut') lines.splice(place, length)
    if (way === 'bring')
      lines.splice(
        place,
        0,
        ...files[from % files.length]!.split('\n').slice(from % 40, (from % 40) + length),
      )
    if (way === 'move') lines.splice(Math.floor(to * lines.length), 0, ...lines.splice(place, length))
    if (way === 'indent' && lines[place]) lines[place] = `  ${lines[place]}`
    if (way === 'end') lines.splice(-1)
  }
  return [before, lines.join('\n')] as const
})

const git = (...words: string[]): string =>
  spawnSync('git', words, { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 28 }).stdout ?? ''
const past = git('log', '-n', '300', '--no-renames', '--diff-filter=M', '--raw', '--no-abbrev', '--format=')
/** Files before and after a change; none where only a copy without its history is here. */
const changesOfProject = Array.from(
  past.matchAll(/^:\d+ \d+ (\w+) (\w+) M\t.*\.(?:ts|tsx|md|mjs|json|css)$/gm),
).slice(0, 150)

describe.skipIf(!isGnu)('a unified diff, beside GNU diff', () => {
  it('is the same for files of this program and edits of them, and for one file against another', () => {
    fc.assert(
      fc.property(edited, ([before, after]) => {
        expect(ours(before, after)).toBe(diffOfProgram(before, after))
      }),
      { numRuns: 300 },
    )
    for (const [at, file] of files.entries()) {
      const other = files[(at + 1) % files.length]!
      expect(ours(file, other)).toBe(diffOfProgram(file, other))
    }
  })

  it('is the same where lines repeat and many shortest answers exist', () => {
    fc.assert(
      fc.property(drawn, drawn, (before, after) => {
        expect(ours(before, after)).toBe(diffOfProgram(before, after))
      }),
      { numRuns: 500 },
    )
  })

  it('is the same at the edges: empty, no line feed at the end, CR, other letters', () => {
    const edges = [
      '',
      '\n',
      'a',
      'a\n',
      'a\r\n',
      'a\r\nb',
      'b\na\n',
      '\n\n',
      'Wärme\n',
      'Wa\u0308rme',
      'a\nb\nc',
    ]
    for (const before of edges)
      for (const after of edges) expect(ours(before, after)).toBe(diffOfProgram(before, after))
  })

  it.skipIf(changesOfProject.length === 0)(
    'is the same for what this project changed',
    { timeout: 300_000 },
    () => {
      const other = changesOfProject.filter(([, from, to]) => {
        const [before, after] = [git('cat-file', 'blob', from!), git('cat-file', 'blob', to!)]
        return ours(before, after) !== diffOfProgram(before, after)
      })
      expect(other.map(([line]) => line)).toEqual([])
    },
  )
})

describe.skipIf(!has('patch'))('a unified diff, beside patch', () => {
  it('makes the newer of the older for patch and for us', () => {
    fc.assert(
      fc.property(fc.oneof(edited, fc.tuple(drawn, drawn)), ([before, after]) => {
        // patch removes what becomes empty, and takes an empty diff for none.
        fc.pre(before !== after && before !== '' && after !== '')
        const diff = ours(before, after)
        expect(patched(before, diff)).toBe(after)
        expect(applyUnified(before, diff)).toEqual({ ok: true, value: after })
      }),
      { numRuns: 200 },
    )
  })
})
