import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { applyUnified, maybeFileDiffs } from '../../../../../shared/journal/files/apply.ts'
import { diffText, fileText, maybeTextShape } from '../../../../../shared/journal/files/content.ts'
import { diffOfStates, statesOfPath, type FileEntry } from '../../../../../shared/journal/files/states.ts'
import { unifiedDiff } from '../../../../../shared/journal/files/unified.ts'
import type { FileState } from '../../../../../shared/lab/model.ts'

const content = fc
  .tuple(
    fc.array(fc.constantFrom('a', 'b', 'c', '', '--- x', '+++ y', '@@ -1 +1 @@', '\\ z'), { maxLength: 25 }),
    fc.boolean(),
  )
  .map(([lines, isEnded]) => lines.join('\n') + (isEnded && lines.length > 0 ? '\n' : ''))

const state = (over: Partial<FileState>): FileState => ({
  path: '/etc/logger.conf',
  owner: null,
  group: null,
  mode: null,
  form: 'content',
  endsWithNewline: true,
  lineEnds: 'lf',
  blob: null,
  ...over,
})
const whole = (text: string): FileEntry => ({
  text: fileText(text, '/etc/logger.conf'),
  state: state({ ...maybeTextShape(text)! }),
})
const difference = (diff: string, over: Partial<FileState> = {}): FileEntry => ({
  text: diffText(diff),
  state: state({ form: 'diff', ...over }),
})
const values = (entries: readonly FileEntry[]): (string | null)[] =>
  statesOfPath(entries).map((one) => (one.ok ? one.value : null))

describe('a unified diff', () => {
  it('gives the newer content when it is applied to the older, and only to it', () => {
    fc.assert(
      fc.property(content, content, (a, b) => {
        const diff = unifiedDiff(a, b, '/a', '/b')
        if (a === b) {
          expect(diff).toBe('')
          return
        }
        expect(applyUnified(a, diff)).toEqual({ ok: true, value: b })
        const back = applyUnified(`first\n${a}`, diff)
        expect(back.ok && back.value === b).toBe(false)
      }),
      { numRuns: 1500 },
    )
  })

  it('names the first hunk that does not fit', () => {
    const lines = (n: number): string => Array.from({ length: n }, (_, k) => `line ${k + 1}\n`).join('')
    const diff = unifiedDiff(
      lines(40),
      lines(40).replace('line 5\n', 'five\n').replace('line 30\n', 'thirty\n'),
      'x',
    )
    const refused = applyUnified(lines(40).replace('line 31\n', 'line 31 \n'), diff)
    expect(refused).toMatchObject({ ok: false, code: 'misfit' })
    expect(refused.ok ? '' : refused.sentence).toContain('Hunk 2 (@@ -27,7 +27,7 @@)')
    expect(applyUnified(lines(39).slice(0, -1), diff)).toMatchObject({ ok: true })
    expect(applyUnified(lines(20), diff)).toMatchObject({ ok: false, code: 'misfit' })
  })

  it('is refused where it breaks off, is none, or is about several files', () => {
    const diff = unifiedDiff('a\nb\nc\n', 'a\nB\nc\n', 'x')
    expect(applyUnified('a\nb\nc\n', diff.split('\n').slice(0, -2).join('\n'))).toMatchObject({
      code: 'no diff',
    })
    expect(applyUnified('a\n', 'words')).toMatchObject({ code: 'no diff' })
    expect(applyUnified('a\nb\nc\n', diff + diff)).toMatchObject({ code: 'several files' })
  })

  it('is found behind the words of a mail and of a version control system', () => {
    const first = unifiedDiff('a\n', 'b\n', 'a/logger.conf\t2026-03-02 10:00:00', 'b/logger.conf')
    const second = unifiedDiff('', '--- a\n', '/dev/null', 'b/new')
    const diffs = maybeFileDiffs(
      `Set the mast's height\n---\ndiff --git a b\nindex 1..2\n${first}diff --git c d\n${second}-- \n2.39\n`,
    )
    expect(diffs?.map(({ pathBefore, pathAfter }) => [pathBefore, pathAfter])).toEqual([
      ['a/logger.conf', 'b/logger.conf'],
      ['/dev/null', 'b/new'],
    ])
    expect(diffs?.map(({ text }) => text).join('')).toBe(first + second)
  })
})

describe('the states of a path', () => {
  it('follow from contents and diffs in turn', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(content, fc.boolean()), { minLength: 1, maxLength: 6 }), (steps) => {
        const all = steps.map(([text]) => text)
        const entries = steps.map(([text, isDiff], at) => {
          const diff = diffOfStates(all[at - 1] ?? '', text, '/etc/logger.conf')
          return isDiff && at > 0 && diff !== '' ? difference(diff) : whole(text)
        })
        expect(values(entries)).toEqual(all)
      }),
    )
  })

  it('end where a diff has nothing to stand on, and go on with the next whole content', () => {
    const diff = difference(unifiedDiff('a\n', 'b\n', 'x'))
    const bytes: FileEntry = { text: '```\n\n```', state: state({ blob: 'f'.repeat(64) }) }
    expect(statesOfPath([diff]).map((one) => (one.ok ? '' : one.code))).toEqual(['no state before'])
    expect(values([whole('a\n'), diff, diff, whole('a\n'), diff])).toEqual(['a\n', 'b\n', null, 'a\n', 'b\n'])
    expect(values([whole('a\n'), bytes, diff])).toEqual(['a\n', null, null])
    expect(values([{ text: 'words', state: state({}) }])).toEqual([null])
  })

  it('begin with a diff against nothing', () => {
    expect(values([difference(unifiedDiff('', 'a\nb', '/dev/null', 'b/x'))])).toEqual(['a\nb'])
  })

  it('keep CR before every line feed', () => {
    const diff = difference(unifiedDiff('a\nb\n', 'a\nc\n', 'x'), { lineEnds: 'crlf' })
    expect(values([whole('a\r\nb\r\n'), diff])).toEqual(['a\r\nb\r\n', 'a\r\nc\r\n'])
  })
})
