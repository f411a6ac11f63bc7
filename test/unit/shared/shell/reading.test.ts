import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { findProblems, readScript, simpleCommandsOf } from '../../../../shared/shell/reading/read.ts'
import type { ShellNode } from '../../../../shared/shell/reading/tree.ts'
import { seenTable } from './seen-table.ts'

const texts = [
  ...seenTable.map((line) => line.split(' => ')[0]!),
  'for f in *.c; do cp "$f" /tmp; done > out',
  'if a; then b; elif c; then d; else e; fi',
  'case $x in a|b) one;; *) two;; esac',
  'f() { g; }; f',
  '(cd /srv && ls) | wc -l &',
  'cat > x <<END\nline $y\nEND',
  "cat <<-'END' | sort\n\tb\n\tEND\necho c",
  'a=1 b=(2 3) c $(d `e`) <(g)',
  '[[ -n $(x) ]] && ((y > 1))',
]

/** Every node of a tree with the one that it stands in. */
function* nodesOf(
  node: ShellNode,
  parent: ShellNode | null = null,
): Generator<readonly [ShellNode, ShellNode | null]> {
  yield [node, parent]
  const inner = node.type === 'simple' ? [] : node.parts
  const more = node.type === 'simple' || node.type === 'group' ? node.substitutions : []
  for (const one of [...inner, ...more]) yield* nodesOf(one, node)
}

describe('a text of shell as a tree', () => {
  it('has places that lie within those around them, and words that stand there as written', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...texts), { minLength: 1, maxLength: 5 }), (parts) => {
        const text = parts.join('\n')
        const { root, problems } = readScript(text)
        expect(problems).toEqual([])
        for (const [node, parent] of nodesOf(root)) {
          expect(node.to).toBeGreaterThan(node.from)
          if (parent) expect([node.from >= parent.from, node.to <= parent.to]).toEqual([true, true])
          if (node.type === 'simple' || node.type === 'group') {
            for (const word of node.words) expect(text.slice(word.from, word.to)).toBe(word.text)
          }
        }
      }),
    )
  })

  it('covers the text: what no simple command, group or here-document covers are operators, blanks and remarks', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...texts), { minLength: 1, maxLength: 5 }), (parts) => {
        const text = parts.join('\n# a remark\n')
        const rest = [...text]
        const blank = (from: number, to: number): void => {
          for (let n = from; n < to; n += 1) rest[n] = ' '
        }
        for (const [node] of nodesOf(readScript(text).root)) {
          if (node.type !== 'simple' && node.type !== 'group') continue
          blank(node.from, node.to)
          for (const { body } of node.redirections)
            if (body) blank(body.from, text.indexOf('\n', body.to) >>> 0)
        }
        expect(
          rest.join('').replaceAll('# a remark', '').replaceAll('END', '').replaceAll('time -p', ''),
        ).toMatch(/^[\s;&|!()]*$/u)
      }),
    )
  })

  it('has the same simple commands whether they stand alone or in a text', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...texts), { minLength: 1, maxLength: 5 }), (parts) => {
        const values = (text: string): unknown[] =>
          simpleCommandsOf(readScript(text).root).map(({ words }) => words.map(({ value }) => value))
        expect(values(parts.join('\n'))).toEqual(parts.flatMap(values))
      }),
    )
  })

  it('never throws and names what is wrong', () => {
    const piece = fc.constantFrom(
      ...'$\'"`(){}<>|&;\\ \n#=!',
      ...texts,
      'if',
      'do',
      'done',
      'esac',
      '<<E',
      '))',
      '${',
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 20 }), (parts) => {
        const text = parts.join('')
        for (const { at, message } of findProblems(text)) {
          expect(at).toBeGreaterThanOrEqual(0)
          expect(at).toBeLessThanOrEqual(text.length)
          expect(message).toMatch(/\.$/u)
        }
      }),
    )
  })

  it.each(['ls |', 'echo "a', 'if true', 'apt install <package>', 'f( x', 'done', 'a && ; b', 'echo ${ x'])(
    'is refused as bash refuses it: %s',
    (text) => expect(findProblems(text)).not.toEqual([]),
  )
})

describe('what stands in a tree', () => {
  it('keeps redirections, assignments and here-documents apart from words', () => {
    const [node] = simpleCommandsOf(readScript('A=1 sort -u <in 2>>err >|out <<E\nx $y\nE').root)
    expect(node).toMatchObject({
      assignments: [{ name: 'A', value: '1' }],
      words: [{ value: 'sort' }, { value: '-u' }],
      redirections: [
        { operator: '<', descriptor: null, target: { value: 'in' } },
        { operator: '>>', descriptor: '2', target: { value: 'err' } },
        { operator: '>|', descriptor: null, target: { value: 'out' } },
        { operator: '<<', body: { text: 'x $y\n', isLiteral: false } },
      ],
    })
  })

  it('says what surrounds a command and what joins it to the next', () => {
    const { root } = readScript('a && b || c; d & for x in 1; do e | f |& g; done; h $(i)')
    expect(root).toMatchObject({
      joints: [';', '&', ';', ';'],
      parts: [
        { type: 'list', joints: ['&&', '||', ';'] },
        { type: 'simple' },
        { type: 'group', kind: 'for', parts: [{ parts: [{ type: 'pipeline', joints: ['|', '|&'] }] }] },
        { type: 'simple' },
      ],
    })
    const within = simpleCommandsOf(root).map((one) => [one.words[0]?.value, one.within.join(' ')])
    expect(within.slice(-5)).toEqual([
      ['e', 'for'],
      ['f', 'for'],
      ['g', 'for'],
      ['h', ''],
      ['i', 'substitution'],
    ])
  })

  it('has no value where something is expanded, and one where it is only quoted', () => {
    const [node] = simpleCommandsOf(
      readScript(String.raw`x 'a b' "c$d" e\ f {1,2} *.g ~/h $'i\n' "j" $((1))`).root,
    )
    expect(node?.words.slice(1).map(({ value }) => value)).toEqual([
      'a b',
      null,
      'e f',
      null,
      '*.g',
      '~/h',
      'i\n',
      'j',
      null,
    ])
    expect(node?.words.map(({ isPattern }) => isPattern).indexOf(true)).toBe(5)
  })
})
