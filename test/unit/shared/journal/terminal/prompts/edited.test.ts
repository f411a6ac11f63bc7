/** What a line editor says by switching bracketed paste on and off, where the shell marks nothing. */
import { expect, it } from 'vitest'
import { readLog } from '../../../../../support/terminal/true-commands.ts'

const ON = '\u001b[?2004h'
const OFF = '\u001b[?2004l\r'
const HEAD = 'Script started on 2026-11-26 20:00:00+00:00 [COMMAND="bash" COLUMNS="80" LINES="24"]\n'

async function found(log: string): Promise<string[]> {
  return (await readLog('edited', new TextEncoder().encode(HEAD + log))).map(({ command }) => command)
}

/** As readline writes it: on, the prompt, what is typed, off. */
const line = (prompt: string, typed: string, output = ''): string =>
  `${ON}${prompt}${typed}\r\n${OFF}${output.replaceAll('\n', '\r\n')}`

it('a prompt that ends in any sign is learned from where the editor was on, to the last sign that all share', async () => {
  const log = ['~', 'logger', 'logger', 'docs'].map((folder, i) =>
    line(`: clock ${folder}; `, `cat part-${i}; date`, 'root@clock:~# poweroff\n'),
  )
  expect(await found(log.join(''))).toEqual([0, 1, 2, 3].map((i) => `cat part-${i}; date`))
})

it('what stood before the screen was cleared is not lost, and a line that is being edited then is whole', async () => {
  const clear = '\u001b[H\u001b[2J\u001b[3J'
  const log =
    line('mira@desk:~$ ', 'uptime', ' 20:00 up 3 days\n') +
    line('mira@desk:~$ ', 'clear', clear) +
    `${ON}mira@desk:~$ df${clear}mira@desk:~$ df -h\r\n${OFF}` +
    line('mira@desk:~$ ', 'exit')
  expect(await found(log)).toEqual(['uptime', 'clear', 'df -h', 'exit'])
})

it('a prompt that is drawn anew behind a list of completions is one with that before it', async () => {
  const log =
    line('mira@desk:~$ ', 'ls', 'readings.csv  readings.db\n') +
    `${ON}mira@desk:~$ cat readings.\r\nreadings.csv  readings.db\r\nmira@desk:~$ cat readings.csv\r\n${OFF}time,wind\r\n` +
    line('mira@desk:~$ ', 'exit')
  expect(await found(log)).toEqual(['ls', 'cat readings.csv', 'exit'])
})

it('lines that came into the editor by one paste are one command', async () => {
  const log =
    line('mira@desk:~$ ', 'for f in *.conf; do\r\n  grep -c wind "$f"\r\ndone', '3\n') +
    line('mira@desk:~$ ', 'exit')
  expect(await found(log)).toEqual(['for f in *.conf; do\n  grep -c wind "$f"\ndone', 'exit'])
})

it('a history expansion is the command that the shell made of it and printed before it ran', async () => {
  const log =
    line('mira@desk:~$ ', 'cat /root/rack.txt', 'cat: /root/rack.txt: Permission denied\n') +
    line('mira@desk:~$ ', 'sudo !!', 'sudo cat /root/rack.txt\nrack 1\n') +
    line('mira@desk:~$ ', 'echo "Done!"', 'Done!\n')
  expect(await found(log)).toEqual(['cat /root/rack.txt', 'sudo cat /root/rack.txt', 'echo "Done!"'])
})

it('a prompt behind an output without a line end begins where the editor was switched on', async () => {
  const log =
    line('clock> ', 'printf "%d" 12', '12') +
    line('clock> ', 'uptime', 'up\n') +
    line('clock> ', 'date', 'now\n') +
    line('clock> ', 'id', 'uid=0\n')
  expect(await found(log)).toEqual(['printf "%d" 12', 'uptime', 'date', 'id'])
})

/** As readline writes a prompt of two lines: on before the upper one. */
const two = (n: number, typed: string, output = ''): string =>
  `${ON}mira@desk /srv/logger ‹main› 13:03:0${n}\r\r\n[${n % 2}]$ ${typed}\r\n${OFF}${output.replaceAll('\n', '\r\n')}`

it('of a prompt of two lines the upper one is no command, whatever brackets stand in it, nor what an output quotes of such prompts', async () => {
  const quoted = 'mira@desk /srv/logger ‹main› 21:40:31\n[0]$ git switch calm\n'
  const log =
    two(1, 'git pull') +
    two(2, 'cat docs/evening.txt', quoted) +
    two(3, 'printf well.', 'well.') +
    two(4, 'uptime', 'up\n') +
    two(5, 'exit')
  expect(await found(log)).toEqual(['git pull', 'cat docs/evening.txt', 'printf well.', 'uptime', 'exit'])
})

it('a blank in the last column of a row that is edited stays in the command', async () => {
  const typed = `echo ${'x'.repeat(61)} `
  const log = `${ON}mira@desk:~$ ${typed}\r\nyz\r\n${OFF}` + line('mira@desk:~$ ', 'exit')
  expect(typed.length + 'mira@desk:~$ '.length).toBe(80)
  expect(await found(log)).toEqual([`${typed}yz`, 'exit'])
})
