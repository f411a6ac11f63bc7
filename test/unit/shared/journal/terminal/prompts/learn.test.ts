import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  emptyReading,
  extend,
  learnPrompts,
  promptsOf,
} from '../../../../../../shared/journal/terminal/prompts/learn.ts'
import type { PromptedCommand, ScreenLine } from '../../../../../../shared/journal/terminal/prompts/line.ts'

const linesOf = (text: string): ScreenLine[] => text.split('\n').map((line) => ({ text: line.trimEnd() }))
const found = (text: string): PromptedCommand[] => promptsOf(learnPrompts(linesOf(text)))
const commands = (text: string): string[] =>
  found(text).flatMap(({ command }) => (command === '' ? [] : [command]))

/** Texts that hold signs, prompts and headings, as cat shows them. */
const config = [
  '# Where the station is plugged in.',
  'port = /dev/ttyUSB0',
  '# keep = 400 days',
  '### alarms ###',
  '#alarm = wind > 20',
  '#',
]
const readme = [
  '# Weather logger',
  '',
  'Costs 12 $ a year, 50 % of it paid.',
  '    $ sudo apt install sqlite3',
  '> The mast is down.',
  '```console',
  '$ systemctl status logger',
  '# journalctl -u logger',
  '```',
]
const others = ['root@clock:~# systemctl stop chrony', 'root@clock:~# poweroff', '']

type Prompt = (directory: string) => string

/** One evening at a prompt: what was typed, where, and what it answered. */
const evening: readonly (readonly [directory: string, command: string, answer: readonly string[]])[] = [
  ['~', 'cd logger', []],
  ['~/logger', 'ls', ['README.md  logger.conf']],
  ['~/logger', 'cat logger.conf', config],
  ['~/logger', 'cat README.md', readme],
  ['~/logger', '', []],
  ['~/logger', 'systemctl is-active logger', ['active']],
  ['~/logger', 'cat notes/move.txt', others],
  ['~/logger', 'git log --oneline -2', ['4ffdb8e Keep the files', '3d0647f Note the gusts']],
  ['~/logger', 'lss', ['lss: command not found']],
  ['~/logger', 'cd /srv', []],
  ['/srv', 'grep -c "#" backup.conf', ['12']],
  [
    '/srv',
    'sudo systemctl restart logger && journalctl -u logger -n 1',
    ['Mar 02 18:00:01 desk logger[77]: ready'],
  ],
]

function played(prompt: Prompt): string {
  return evening
    .flatMap(([directory, command, answer]) => [prompt(directory) + command, ...answer])
    .join('\n')
}

const base = (directory: string): string => directory.slice(directory.lastIndexOf('/') + 1) || '/'
const prompts: readonly (readonly [string, Prompt])[] = [
  ['user@host:dir$', (dir) => `mira@desk:${dir}$ `],
  ['user@host:dir#', (dir) => `root@desk:${dir}# `],
  ['an environment before it', (dir) => `(venv) mira@desk:${dir}$ `],
  ['user@host dir %', (dir) => `mira@desk ${base(dir)} % `],
  ['[user@host dir]$', (dir) => `[mira@desk ${base(dir)}]$ `],
  ['host:dir user$', (dir) => `desk:${base(dir)} mira$ `],
  ['user@host dir>', (dir) => `mira@desk ${dir}> `],
  ['host%', () => 'desk% '],
  ['the shell’s own name', () => 'bash-5.2$ '],
  ['a path and a sign', (dir) => `${dir} $ `],
  ['a folder’s name and a sign', (dir) => `${base(dir)} $ `],
  ['a rare sign', (dir) => `${dir} ❯ `],
  ['a sign at the head', (dir) => `➜  ${base(dir)} git:(main) ✗ `],
  ['a bare $', () => '$ '],
  ['a bare rare sign', () => 'λ '],
  ['time and branch', (dir) => `[18:04] mira@desk ${dir} (main *) $ `],
  ['two lines with ornaments', (dir) => `┌──(mira@desk)-[${dir}]\n└─$ `],
  ['two lines with a path', (dir) => `\n${dir} main\n❯ `],
  ['two lines with a path and a bare $', (dir) => `mira@desk ${dir}\n$ `],
]

describe('prompts of a session', () => {
  it.each(prompts)('are learned: %s', (_, prompt) => {
    const text = played(prompt)
    expect(commands(text)).toEqual(evening.flatMap(([, command]) => (command === '' ? [] : [command])))
  })

  it.each(prompts)('leave the outputs whole: %s', (_, prompt) => {
    const lines = played(prompt)
      .split('\n')
      .map((line) => line.trimEnd())
    const outputs = found(lines.join('\n')).map(({ outputFrom, outputTo }) =>
      lines.slice(outputFrom, outputTo ?? lines.length),
    )
    const trimmed = (output: readonly string[]): string => output.join('\n').replace(/\n+$/u, '')
    expect(outputs.map(trimmed)).toEqual(evening.map(([, , answer]) => trimmed(answer)))
  })

  it('are the same in whichever portions the lines come', () => {
    const all = prompts.map(([, prompt]) => linesOf(played(prompt)))
    fc.assert(
      fc.property(fc.constantFrom(...all), fc.array(fc.nat(12), { maxLength: 30 }), (lines, sizes) => {
        let reading = emptyReading
        let at = 0
        for (const size of sizes) {
          reading = extend(reading, lines.slice(at, at + size))
          promptsOf(reading)
          at += size
        }
        expect(extend(reading, lines.slice(at))).toEqual(learnPrompts(lines))
        expect(promptsOf(extend(reading, lines.slice(at)))).toEqual(promptsOf(learnPrompts(lines)))
      }),
    )
  })

  it('stay bounded in what is kept, and find all commands in very many lines', () => {
    const round = linesOf(played((dir) => `mira@desk:${dir}$ `))
    const many = Array.from({ length: 1500 }, () => round).flat()
    let reading = emptyReading
    for (let n = 0; n < many.length; n += 5000) reading = extend(reading, many.slice(n, n + 5000))
    expect(reading.window.length).toBeLessThan(8000)
    expect(promptsOf(reading).filter(({ command }) => command !== '')).toHaveLength(1500 * 11)
  })
})

describe('what is no command', () => {
  it.each([
    ['a text with headings', readme.join('\n')],
    ['a configuration', config.join('\n')],
    ['prose', 'The logger reads the station.\nIt costs 12 $ and 3 % more.\n> quoted, and > again\nSee # 4.'],
    ['a table', '| a | b |\n| - | - |\n> x | y'],
    ['a difference', '--- a\n+++ b\n@@ -1 +1 @@\n-# old\n+# new\n # same'],
    ['a program', '#!/bin/sh\n# Starts the logger.\nset -e\nexec logger # as a service'],
    ['nothing', ''],
  ])('is not found in %s', (_, text) => {
    expect(commands(text)).toEqual([])
  })

  it('is a line that was given up, and a remark', () => {
    expect(commands('mira@desk:~$ rm -r x^C\nmira@desk:~$ # tomorrow\nmira@desk:~$ ls\nx')).toEqual(['ls'])
  })

  it('is what a program prints that looks like the prompt of another machine', () => {
    expect(commands('mira@desk:~$ cat move.txt\nroot@clock:~# poweroff\nmira@desk:~$ ls')).toEqual([
      'cat move.txt',
      'ls',
    ])
  })
})

describe('a command over several lines', () => {
  it('is one, with the shell’s prompts for further lines taken off', () => {
    const text =
      'mira@desk:~$ for f in a b\n> do\n>   echo "> $f"\n> done\n> a\n> b\nmira@desk:~$ cat <<END\n> # x\n>\n> $ y\n> END\n# x\n\n$ y\nmira@desk:~$'
    expect(commands(text)).toEqual(['for f in a b\ndo\n  echo "> $f"\ndone', 'cat <<END\n# x\n\n$ y\nEND'])
  })

  it('may be very long', () => {
    const body = Array.from({ length: 3000 }, (_, n) => `line ${n} of the file`)
    const lines = [
      'mira@desk:~$ cat > file <<END',
      ...body.map((line) => `> ${line}`),
      '> END',
      'mira@desk:~$ ls',
      'file',
    ]
    expect(commands(lines.join('\n'))).toEqual([['cat > file <<END', ...body, 'END'].join('\n'), 'ls'])
  })

  it('has zsh’s own words for them', () => {
    const text = 'desk% for f in a; do\nfor> echo $f\nfor> done\na\ndesk% echo "a\ndquote> b"\na\nb\ndesk%'
    expect(commands(text)).toEqual(['for f in a; do\necho $f\ndone', 'echo "a\nb"'])
  })

  it('says that it is unfinished where further lines are missing', () => {
    expect(found('mira@desk:~$ echo "a\nmira@desk:~$ ls')[0]).toMatchObject({
      command: 'echo "a',
      isUnfinished: true,
    })
  })
})

describe('prompts within a session', () => {
  const log = [
    'mira@desk:~$ ssh orla@weather',
    'Last login: Mon Mar  2 18:00:00 2026',
    'orla@weather:~$ sudo -i',
    'root@weather:~# cd /etc/logger',
    'root@weather:/etc/logger# python3',
    'Python 3.11.7',
    '>>> 1 + 1',
    '2',
    '>>> for n in range(1):',
    '...     print(n)',
    '...',
    '0',
    '>>> exit()',
    'root@weather:/etc/logger# exit',
    'logout',
    'orla@weather:~$ exit',
    'logout',
    'Connection to weather closed.',
    'mira@desk:~$ bash --norc',
    'bash-5.2$ ls',
    'notes',
    'bash-5.2$ exit',
    'exit',
    'mira@desk:~$ sqlite3 readings.db',
    'sqlite> select 1',
    '   ...> ;',
    '1',
    'sqlite> .quit',
    'mira@desk:~$ true',
  ].join('\n')

  it('are followed down and back, each command with its place', () => {
    const places = found(log).map(({ command, place, within }) => [
      command,
      place.user,
      place.host,
      place.directory,
      within,
    ])
    expect(places).toEqual([
      ['ssh orla@weather', 'mira', 'desk', '~', null],
      ['sudo -i', 'orla', 'weather', '~', null],
      ['cd /etc/logger', 'root', 'weather', '~', null],
      ['python3', 'root', 'weather', '/etc/logger', null],
      ['1 + 1', 'root', 'weather', '/etc/logger', 'python'],
      ['for n in range(1):\n    print(n)\n', 'root', 'weather', '/etc/logger', 'python'],
      ['exit()', 'root', 'weather', '/etc/logger', 'python'],
      ['exit', 'root', 'weather', '/etc/logger', null],
      ['exit', 'orla', 'weather', '~', null],
      ['bash --norc', 'mira', 'desk', '~', null],
      ['ls', 'mira', 'desk', null, null],
      ['exit', 'mira', 'desk', null, null],
      ['sqlite3 readings.db', 'mira', 'desk', '~', null],
      ['select 1\n;', 'mira', 'desk', '~', 'sqlite'],
      ['.quit', 'mira', 'desk', '~', 'sqlite'],
      ['true', 'mira', 'desk', '~', null],
    ])
  })

  it('may follow an output without a line end', () => {
    const [, second] = found('mira@desk:~$ printf x\nxmira@desk:~$ ls\nnotes')
    expect(second).toMatchObject({ command: 'ls', before: 'x', place: { directory: '~' } })
  })
})

describe('what else is known of a line', () => {
  it('decides where the text does not: the editor was on at a prompt', () => {
    const lines = [
      { text: '$ cat notes', isEdited: true },
      { text: '$ ls -l', isEdited: false },
      { text: '$ frobnicate the mast', isEdited: true },
    ]
    expect(promptsOf(learnPrompts(lines)).map(({ command }) => command)).toEqual([
      'cat notes',
      'frobnicate the mast',
    ])
  })

  it('joins a row that the editor moved to by itself, and no row of the output', () => {
    const row = 'mira@desk:~$ cp a-long-n'
    const lines = (isTyped: boolean): ScreenLine[] => [
      { text: row, isEdited: true, isTyped: true, isFull: true },
      { text: 'ame b', isEdited: false, isTyped },
    ]
    expect(promptsOf(learnPrompts(lines(true)))[0]?.command).toBe('cp a-long-name b')
    expect(promptsOf(learnPrompts(lines(false)))[0]?.command).toBe('cp a-long-n')
  })
})
