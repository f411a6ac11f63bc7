import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { splitScrollback } from '../../../../../shared/journal/scrollback/split.ts'
import {
  agreement,
  isExamination,
  readLines,
  recordedSessions,
} from '../../../../support/terminal/true-commands.ts'

const pairs = (text: string): (readonly [string, string])[] | null =>
  splitScrollback(text)?.map(({ command, output }) => [command, output] as const) ?? null

describe('pasted scrollback', () => {
  it('is split into commands and what they answered', () => {
    const text =
      'mira@desk:~$ ls\nnotes  plan\nmira@desk:~$ cat plan\n  set in\n\nlast line  \n\nmira@desk:~$ cd /srv\nmira@desk:/srv$ '
    expect(pairs(text)).toEqual([
      ['ls', 'notes  plan'],
      ['cat plan', '  set in\n\nlast line'],
      ['cd /srv', ''],
    ])
  })

  it('gives what stands before the first prompt as an output without a command', () => {
    expect(pairs('readings.db  plan\nmira@desk:~$ pwd\n/home/mira')).toEqual([
      ['', 'readings.db  plan'],
      ['pwd', '/home/mira'],
    ])
  })

  it.each([
    ['user, host and directory', 'mira@desk:~/logger$ make', 'make'],
    ['a bare sign before a known command', '$ systemctl restart logger\n', 'systemctl restart logger'],
    ['root’s sign before a known command', '# nginx -t\nnginx: test is successful', 'nginx -t'],
    ['brackets', '[root@gate ~]# nginx -t', 'nginx -t'],
    ['a path', '~/logger % git pull', 'git pull'],
    ['two lines', '┌──(mira@desk)-[~]\n└─$ ls', 'ls'],
  ])('may be one command alone behind a prompt of a well known form: %s', (_, text, command) => {
    expect(splitScrollback(text)?.map((one) => one.command)).toEqual([command])
  })

  it.each([
    ['prose', 'The mast is down.\nIt costs 12 $ to mend, 3 % more than before.'],
    ['Markdown', '# Plan\n\n1. Stop the logger\n\n> Ask first\n\n```console\n$ systemctl stop logger\n```'],
    ['a configuration', '# The port\nport = 1\n# The rate\n# keep = 2\n$variable = 3'],
    ['a prompt without a command', 'mira@desk:~$ '],
    ['an address', 'Write to mira@desk.home.arpa > she answers.'],
    ['quoted mail', '> ls is a command\n> and cat too'],
    ['prices', '$ 12 for the stick\n$ 3 for screws'],
    ['nothing', ''],
  ])('is not made of what is none: %s', (_, text) => {
    expect(splitScrollback(text)).toBeNull()
  })

  it('keeps a command to the letter: no prompt, no line end, its own blanks', () => {
    const command = fc
      .array(fc.constantFrom('ls', '-l', '"a  b"', "'$ x'", '# no', '|', 'grep', '\\>', '&&', 'echo', '  '), {
        minLength: 1,
        maxLength: 6,
      })
      .map((words) => `cat x ${words.join(' ')} y`)
    fc.assert(
      fc.property(fc.array(command, { minLength: 1, maxLength: 5 }), (commands) => {
        const text = commands.map((one) => `mira@desk:/srv$ ${one}\nanswer\n`).join('')
        expect(pairs(text)).toEqual(commands.map((one) => [one, 'answer']))
      }),
    )
  })

  it('reads line ends of any system, blanks that do not break, and colours', () => {
    const text =
      '\u001b[1;32mmira@desk\u001b[0m:~$\u00a0ls -l\r\ntotal 0\r\nmira@desk:~$ pwd\r\n/home/mira\r\n'
    expect(pairs(text)).toEqual([
      ['ls -l', 'total 0'],
      ['pwd', '/home/mira'],
    ])
  })

  it('says the place, the file that a here-document wrote, and what it cannot know', () => {
    const found = splitScrollback(
      "root@gate:/etc# cat > motd <<'END'\n> hello\n> END\nroot@gate:/etc# echo 'open",
    )
    expect(found?.[0]).toMatchObject({
      command: "cat > motd <<'END'\nhello\nEND",
      exitCode: null,
      place: { host: 'gate', user: 'root', directory: '/etc' },
      files: [{ path: '/etc/motd', content: 'hello\n', by: 'heredoc' }],
    })
    expect(found?.[1]?.notes).toEqual([expect.stringContaining('not finished')])
  })

  it('says where a command may have been cut by the window’s edge, and joins it where its quote is open', () => {
    const edge = (text: string): string => text.padEnd(80, 'x')
    const cut = splitScrollback(`${edge('mira@desk:~$ cp a ')}\nyz b\nmira@desk:~$ ls\n${edge('')}`)
    expect(cut?.[0]?.notes).toEqual([expect.stringContaining('as wide as the window')])
    const open = splitScrollback(`${edge('mira@desk:~$ echo "a ')}\nyz"\nout\nmira@desk:~$ ls\n${edge('')}`)
    expect(open?.[0]).toMatchObject({
      command: `${edge('mira@desk:~$ echo "a ').slice(13)}yz"`,
      output: 'out',
    })
  })

  it('loses no line: every line of the paste stands in a command or an output, or is a prompt', () => {
    const line = fc.constantFrom(
      '$ ls',
      'mira@desk:~$ cat x',
      'mira@desk:~$',
      '> more',
      'answer',
      '# remark',
      '',
      '  set in',
      '100 %',
    )
    fc.assert(
      fc.property(fc.array(line, { maxLength: 20 }), (lines) => {
        const found = splitScrollback(lines.join('\n'))
        if (found === null) return
        const given = found.flatMap(({ command, output }) => [...command.split('\n'), ...output.split('\n')])
        for (const one of lines.filter((text) => /^(?:answer|  set in|100 %)$/u.test(text))) {
          expect(given.some((text) => text.includes(one.trim()))).toBe(true)
        }
        const count = (texts: readonly string[]): number =>
          texts.filter((text) => text.includes('answer')).length
        expect(count(given)).toBe(count(lines))
      }),
    )
  })

  // A text does not tell what an output quotes of another session, nor a prompt that ends in no sign of a shell.
  it.each([
    ['recorded', false, 0.02],
    ['recorded and examined', true, 0.05],
  ])('of %s sessions gives what their shells ran', async (_, withExamined, atMostWrong) => {
    let [run, right, offered] = [0, 0, 0]
    for (const session of recordedSessions()) {
      const { name, log, truth, isFrozen } = session
      if (isFrozen || name === 'late2-colon' || (isExamination(session) && !withExamined)) continue
      const found = (splitScrollback((await readLines(log)).join('\n')) ?? []).filter(
        ({ command }) => command !== '',
      )
      run += truth.length
      offered += found.length
      right += agreement(truth, found).pairs.length
    }
    console.log(`pasted whole: ${right} of ${run} found, ${offered - right} of ${offered} offered are none`)
    expect(right / run).toBeGreaterThanOrEqual(0.95)
    expect((offered - right) / offered).toBeLessThanOrEqual(atMostWrong)
  })
})
