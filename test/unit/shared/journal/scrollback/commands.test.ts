import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { commandsOf } from '../../../../../shared/journal/scrollback/commands.ts'

const commands = (markdown: string): string[] => commandsOf(markdown).map(({ command }) => command)

describe('commands of an action’s Markdown', () => {
  it.each([
    ['a block for a shell', '```sh\nls -l\n\n# a remark\ncd /srv\n```', ['ls -l', 'cd /srv']],
    ['words behind the language', '```sh root@gate:~#\nnginx -t\n```', ['nginx -t']],
    [
      'prompts in a block',
      '```console\n$ frobnicate now\nanswer\n# not this\n$ ls\n```',
      ['frobnicate now', 'ls'],
    ],
    [
      'root’s prompts in a block',
      '```console\n# nginx -t\nnginx: fine\n# systemctl reload nginx\n```',
      ['nginx -t', 'systemctl reload nginx'],
    ],
    [
      'remarks in a script that look like root’s prompts',
      '```bash\n# apt install chrony\nchronyc tracking\n```',
      ['chronyc tracking'],
    ],
    ['accounts in a block', '```bash\nmira@desk:~$ make\ncc -o logger\n```', ['make']],
    [
      'no language, all commands',
      '```\nsystemctl stop logger\ncp -a /srv /mnt\n```',
      ['systemctl stop logger', 'cp -a /srv /mnt'],
    ],
    ['a redirection alone', '```sh\nzcat x > /tmp/y\n```', ['zcat x > /tmp/y']],
    ['a prompt with words', '```sh\nweather:logger mira> ls\n```', ['ls']],
    ['no language, an answer', '```\nThe unit is not running.\nport = 3\n```', []],
    ['another language', '```ini\nport = 1\n```\n\n```text\n$ ls -l\n```', []],
    [
      'an indented block',
      'Then:\n\n    systemctl stop logger\n    umount /mnt\n',
      ['systemctl stop logger', 'umount /mnt'],
    ],
    [
      'code in a line',
      'Ran `systemctl restart nginx` and looked at `/etc/nginx.conf` and `port`.',
      ['systemctl restart nginx'],
    ],
    ['code with a prompt', 'Ran `$ frobnicate now`.', ['frobnicate now']],
    ['code alone', '`ls`', ['ls']],
    ['code in a list', '- `apt update`\n- **then** `apt upgrade -y`', ['apt update', 'apt upgrade -y']],
    ['a prompt in plain text', 'Started it:\n$ systemctl start logger\nIt runs.', ['systemctl start logger']],
    ['an account in plain text', 'root@gate:~# nginx -t', ['nginx -t']],
    ['a command in plain text', 'apt-get install -y chrony', ['apt-get install -y chrony']],
    [
      'prose with names of commands',
      'make sure that the cable is in. Find the switch, then cut power and test the mast.',
      [],
    ],
    ['prose with a price', 'Costs:\n$ 12 for the stick', []],
    ['a heading', '# nginx', []],
    ['nothing', '', []],
  ])('are found: %s', (_, markdown, expected) => {
    expect(commands(markdown)).toEqual(expected)
  })

  const long = [
    'apt-get install \\\n  chrony \\\n  nginx',
    'cat > /etc/motd <<END\n# hello\n\n$ not a prompt\nEND',
    'for host in gate clock\ndo\n  ssh "$host" uptime\ndone',
    "echo 'two\nlines'",
    'make &&\n  make install',
  ]

  it('are each one over several lines', () => {
    expect(commands(`\`\`\`sh\n${long.join('\n')}\n\`\`\``)).toEqual(long)
  })

  it.each([
    ['', ''],
    ['> ', '> '],
    ['- ', '  '],
    ['1. > ', '   > '],
  ])('have their place in the source, also behind %j', (first, other) => {
    const lines = ['```sh', ...long.flatMap((one) => one.split('\n')), '```']
    const markdown = `Text before, ä 🌦.\n\n${lines.map((line, n) => ((n === 0 ? first : other) + line).trimEnd()).join('\n')}\n`
    const found = commandsOf(markdown)
    expect(found.map(({ command }) => command)).toEqual(long)
    for (const { from, to, command } of found) {
      const rows = markdown.slice(from, to).split('\n')
      expect(rows[0]).toBe(command.split('\n')[0])
      expect(rows.map((row, n) => (n === 0 ? row : row.slice(other.length))).join('\n')).toBe(command)
    }
  })

  it('have the place of their words in the source, in order and without overlap', () => {
    const part = fc.constantFrom(
      '```sh\nls -l\ncd /srv\n```',
      '```console\n$ ls -l\nx\n```',
      'Ran `systemctl restart nginx` and ``git log `x` ``.',
      'root@gate:~# nginx -t',
      '- one\n- `apt update`',
      '> ```bash\n> mkdir -p /srv/x\n> ```',
      'apt-get install -y chrony',
      '| a | b |\n| - | - |\n| `cp -a x y` | 2 |',
      'plain',
    )
    const end = fc.constantFrom('\n', '\r\n')
    fc.assert(
      fc.property(fc.array(part, { maxLength: 8 }), end, (parts, lineEnd) => {
        const markdown = parts.join('\n\n').replaceAll('\n', lineEnd)
        let at = 0
        for (const { from, to, command } of commandsOf(markdown)) {
          expect(from).toBeGreaterThanOrEqual(at)
          expect(markdown.slice(from, to)).toBe(command)
          at = to
        }
      }),
    )
  })
})
