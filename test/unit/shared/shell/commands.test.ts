import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { isComplete, splitCommands, wordsOf } from '../../../../shared/shell/commands.ts'

const texts = (script: string): string[] => splitCommands(script).map(({ text }) => text)

/** Commands of every form, each whole. */
const whole = [
  'ls -l /srv',
  'cd /srv; ls # what is there',
  'for name in a b\ndo\n  echo "$name"\ndone < list',
  'for ((n = 0; n < 3; n++)); do echo $n; done',
  'while read -r line; do\n  echo "$line"\ndone',
  'if [ -e file ]\nthen cat file\nelif true; then :\nelse echo none\nfi > out 2>&1',
  'case $1 in\n  a | b) echo first ;;\n  (*) echo other\nesac',
  'cat > /etc/x.conf <<END\n# a comment; no command\nvalue = $VALUE\nEND',
  "cat <<'ONE' - <<-TWO | sort\nfirst\nONE\n\tsecond\n\tTWO",
  'echo "two\nlines"',
  "echo 'it is\n\nquoted'",
  'apt-get install \\\n  chrony \\\n  nginx',
  'make &&\n  make install ||\n  echo failed',
  'journalctl -u logger |\n  tail -n 3',
  'greet() {\n  echo hello\n}',
  'greet ()\n(\n  echo hello\n)',
  'function greet {\n  echo hello\n}',
  'echo $(date +%Y\n) `uname` ${name:-"a } b"} $((1 + (2 * 3)))',
  'echo $(cat <<A\nin a substitution )\nA\n)',
  'diff <(sort a) <(sort b)',
  'hosts=(gate clock\n  desk) ; echo "${hosts[@]}"',
  '[[ $name =~ ^(gate|clock)$ && -n $x ]]',
  '{ echo a; echo b; } > both',
  '! grep -q x file',
  "printf $'a\\'b\\n'",
  'a=1 b="2 3" env',
  'sleep 5 &',
  'find . -name \\*.log -exec rm {} \\;',
]

describe('commands of a script', () => {
  it('are told apart, each with all of its lines', () => {
    expect(texts(whole.join('\n'))).toEqual(whole)
  })

  it.each(whole)('one is whole, and not whole without its last line or character: %j', (command) => {
    expect(splitCommands(command)).toMatchObject([{ text: command, isComplete: true, problem: null }])
    const lines = command.split('\n')
    if (lines.length > 1) expect(isComplete(lines.slice(0, -1).join('\n'))).toBe(false)
  })

  it('keep their words whatever stands between them', () => {
    const gap = fc.constantFrom('\n', '\n\n', '\n# a remark\n', '\n  \n\t\n', '\n   # quote: "\n')
    const script = fc.array(fc.tuple(fc.constantFrom(...whole), gap), { maxLength: 8 })
    fc.assert(
      fc.property(script, (parts) => {
        const text = parts.map(([command, between]) => command + between).join('')
        const found = splitCommands(text)
        expect(found.map((one) => one.text)).toEqual(parts.map(([command]) => command))
        for (const one of found) expect(text.slice(one.from, one.to)).toBe(one.text)
      }),
    )
  })

  it('cover every character of any text but blanks and comments, in order', () => {
    const piece = fc.constantFrom(
      ...'$\'"`(){}<>|&;\\ \n#=!',
      ...whole,
      'if',
      'do',
      'done',
      'esac',
      '<<E',
      '))',
      '${',
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 25 }), (parts) => {
        const text = parts.join('')
        let at = 0
        for (const one of splitCommands(text)) {
          expect(one.from).toBeGreaterThanOrEqual(at)
          expect(text.slice(at, one.from)).toMatch(/^(?:\s|\\\n|#.*)*$/u)
          expect(text.slice(one.from, one.to)).toBe(one.text)
          at = one.to
        }
        expect(text.slice(at)).toMatch(/^(?:\s|\\\n|\\$|#.*)*$/u)
      }),
    )
  })

  it('go on behind a line that the grammar does not allow', () => {
    const found = splitCommands('echo )\nls\n;; x\npwd')
    expect(found.map(({ text }) => text)).toEqual(['echo )', 'ls', ';; x', 'pwd'])
    expect(found.map(({ problem }) => problem !== null)).toEqual([true, false, true, false])
  })

  it.each([
    'echo "open',
    'cat <<END\nline',
    'ls |',
    'a &&',
    'if true',
    '(ls',
    'echo $(',
    'x \\',
    'f() {',
    "a='",
    'case x in',
    'b=(1',
  ])('one that waits for a further line is unfinished: %j', (command) => {
    expect(splitCommands(command)).toMatchObject([{ text: command, isComplete: false }])
  })
})

describe('words of a command', () => {
  it('have their value without quotes, and none where the shell expands', () => {
    const words = wordsOf(String.raw`cp 'a b' "c\"d" e\ f "$g" ~/j *.k`)
    expect(words.map(({ value }) => value)).toEqual(['cp', 'a b', 'c"d', 'e f', null, '~/j', '*.k'])
  })

  it('are told from assignments and redirections', () => {
    const [command] = splitCommands('LANG=C sort -u < in 2>> "err or" > out')
    expect(command?.simple).toMatchObject([
      {
        assignments: [{ text: 'LANG=C' }],
        words: [{ value: 'sort' }, { value: '-u' }],
        redirects: [
          { operator: '<', descriptor: null, target: { value: 'in' } },
          { operator: '>>', descriptor: '2', target: { value: 'err or' } },
          { operator: '>', descriptor: null, target: { value: 'out' } },
        ],
      },
    ])
  })

  it('of a here-document are its lines, as the command gets them', () => {
    const [command] = splitCommands("cat <<-'END' > f\n\tone\n\t\ttwo\n\tEND")
    expect(command?.simple[0]?.redirects.find(({ operator }) => operator === '<<-')?.body).toMatchObject({
      text: 'one\ntwo\n',
      isLiteral: true,
    })
  })

  it('are found in loops and substitutions, which are marked', () => {
    const [command] = splitCommands('for f in a; do rm "$f" $(cat list); done')
    const found = command?.simple.map(({ words, isSubstituted }) => [words[0]?.text, isSubstituted])
    expect(found).toEqual([
      ['rm', false],
      ['cat', true],
    ])
  })
})
