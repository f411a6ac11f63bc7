/** Raw typing for property tests: texts mixed from prose, sessions, answers and Markdown, with what must survive in them. */
import fc from 'fast-check'

/** A text and the lines of commands (without their prompts) and answers in it, in order. */
export interface Raw {
  readonly text: string
  readonly machine: readonly string[]
}

interface Block {
  readonly lines: readonly string[]
  readonly machine: readonly string[]
  /** Whether the block below may stand directly under this one. */
  readonly isOpen: boolean
}

const prose = (lines: readonly string[], isOpen = true): Block => ({ lines, machine: [], isOpen })

const word = fc.constantFrom(
  ...'logger rack fan the was after a second disk and it is still slow in cable on port seven we saw of dome pump not yet'.split(
    ' ',
  ),
)
const blanks = fc.constantFrom(' ', ' ', ' ', '  ', '   ', '\t', '\u00a0')
const sentence = fc
  .tuple(
    fc.array(fc.tuple(word, blanks), { minLength: 3, maxLength: 12 }),
    fc.constantFrom('.', ':', '', '.  ', '. '),
  )
  .map(([parts, end]) => {
    const words = parts.map(([one, gap], at) => (at === parts.length - 1 ? one : one + gap)).join('')
    return `${words[0]!.toUpperCase()}${words.slice(1)}${end}`
  })
const paragraph = fc.array(sentence, { minLength: 1, maxLength: 3 }).map((lines) => prose(lines))

const listSign = fc.constantFrom(
  '* ',
  '- ',
  '+ ',
  '• ',
  '1) ',
  '2. ',
  'a) ',
  'b) ',
  '[ ] ',
  '[x] ',
  '- [] ',
  '– ',
  '  * ',
  '☐ ',
)
const list = fc
  .array(fc.tuple(listSign, sentence), { minLength: 1, maxLength: 4 })
  .map((items) => prose(items.map(([sign, words]) => sign + words)))
const heading = fc
  .tuple(
    fc.constantFrom('## ', '##', '# ', '###   ', '####'),
    fc.constantFrom('Next steps', 'Disks', 'What is left'),
  )
  .map(([sign, words]) => prose([sign + words]))
const underlined = fc.constantFrom(prose(['Results', '=======']), prose(['Second part', '---']))
const markdown = fc.constantFrom(
  prose(['> quoted  words  stay', '> as they are']),
  prose(['| a | b |', '|---|---|', '| 1  2 | x |']),
  prose(['    indented  code * of mine'], false),
  prose(['See `ls  -l` and [the  page](https://wx.example.org/a  "b") or so for it.']),
  prose(['***']),
  prose(['<div>', 'raw  html', '</div>'], false),
  prose(['[1]: https://wx.example.org/manual']),
  prose(['The first line breaks here  ', 'and goes on in the next one.']),
)
const ownFence = fc
  .tuple(
    fc.constantFrom('```', '~~~~', '```yaml', '   ```'),
    fc.array(fc.string({ maxLength: 12 }), { maxLength: 3 }),
  )
  .map(([fence, inside]) => {
    const kept = inside.map((line) => line.replace(/[`~\r\n]/gu, ' '))
    return prose([fence, ...kept, fence.trim().replace(/[a-z]/gu, '')], false)
  })

const prompt = fc.constantFrom(
  '$ ',
  '$ ',
  'wx@gate:~$ ',
  'root@gate:/etc# ',
  '[wx@dome ~]$ ',
  '# ',
  '~/src $ ',
  'gate% ',
)
const command = fc.constantFrom(
  'apt update',
  'systemctl restart wxlogd',
  "grep -n '  two  blanks' /etc/wxlogd.conf",
  'ip -br addr  show',
  'cat /etc/hosts | sort > /tmp/a',
  'for i in 1 2; do echo "$i"; done',
  'df -h  ',
  'ls -la "/srv/wx data"',
  'cat > /etc/x.conf <<EOF\n[station]\n\n* name  =  dome\n# remark\nEOF',
  'echo one \\\n  --two \\\n  three',
  'echo `date`',
  'journalctl -u wxlogd --since "10 min ago"',
)
/** What a machine may print, without what the tests treat by itself: prompts, fences and words about oneself. */
const anyLine = fc
  .oneof(
    fc.string({ minLength: 1, maxLength: 40 }),
    fc.string({ minLength: 1, maxLength: 40, unit: 'binary' }),
    fc.array(word, { minLength: 1, maxLength: 9 }).map((words) => words.join('  ')),
    fc.constantFrom(
      '* bullet of a  machine',
      '## Not a heading',
      '1) first',
      '> shifted',
      'total 12   ',
      '  indented',
      '\tfoo\tbar',
      '======',
      '-----',
      '<html>',
      '<!-- open',
      'a ``` b',
      '| a | b |',
      'Done.  Really  done with all of it.',
      'You are in a state.  The end of it is near.',
      '#   PermitRootLogin no',
      '• dot',
      '[ ] box',
    ),
  )
  .map((line) => line.replace(/[\r\n\0]/gu, ' '))
  .filter(
    (line) => line.trim() !== '' && !/^\s*(?:```|~~~)|[$#%>❯➜»]|@|\b(?:I|We|we|My|my|Our|our)\b/u.test(line),
  )
const sureLine = fc.constantFrom(
  'Oct 12 03:14:15 gate wxlogd[812]:  started  with  blanks',
  '2026-03-01T04:05:06Z level=warn  msg="slow  disk"',
  '[   12.345678] usb 1-1:  new   device',
  '-rw-r--r-- 1 wx wx   812 Mar  1 04:05 a  b.txt',
  '64 bytes from 192.0.2.7: icmp_seq=1 ttl=64 time=0.4 ms',
  'Reading package lists... Done',
  'bash: wxctl: command not found',
)
const columns = fc.constantFrom(
  ['Filesystem      Size  Used', '/dev/sda1        20G   12G', 'tmpfs           1.9G     0'],
  ['NAME   STATE    PORT', 'logger up       7', 'dome   down     12'],
)
const sure = fc.oneof(fc.array(sureLine, { minLength: 2, maxLength: 4 }), columns)

const session = fc
  .tuple(
    fc.array(fc.tuple(prompt, command, fc.array(anyLine, { maxLength: 4 })), { minLength: 1, maxLength: 3 }),
    fc.option(sure),
  )
  .map(([commands, further]): Block => {
    const lines = commands.flatMap(([sign, typed, answer]) => [...`${sign}${typed}`.split('\n'), ...answer])
    const machine = commands.flatMap(([, typed, answer]) => [...typed.split('\n'), ...answer])
    const more = further ?? []
    return {
      lines: more.length > 0 ? [...lines, '', ...more] : lines,
      machine: [...machine, ...more],
      isOpen: false,
    }
  })
const answerAlone = sure.map((lines): Block => ({ lines, machine: lines, isOpen: false }))
const bare = fc
  .constantFrom('df -h', 'systemctl restart wxlogd', 'cat /etc/hosts | sort > /tmp/a', 'sudo reboot')
  .map((line): Block => ({ lines: [line], machine: [line], isOpen: false }))

const block = fc.oneof(
  { weight: 3, arbitrary: paragraph },
  { weight: 3, arbitrary: session },
  { weight: 2, arbitrary: list },
  heading,
  underlined,
  markdown,
  ownFence,
  answerAlone,
  bare,
)

/** Texts in which it is known what is a machine's. */
export const raw: fc.Arbitrary<Raw> = fc
  .array(fc.tuple(block, fc.constantFrom('\n', '\n\n', '\n\n', '\n\n\n', '\n \n')), {
    minLength: 1,
    maxLength: 6,
  })
  .map((blocks) => {
    const text = blocks.map(([{ lines, isOpen }, gap], at) => {
      const next = blocks[at + 1]?.[0]
      // What stands directly below a machine's line would be its own; and directly above one, a part of its paragraph.
      const mayTouch =
        isOpen &&
        next !== undefined &&
        (next.machine.length === 0 || /^(?:\$|wx@|root@)/u.test(next.lines[0]!))
      return lines.join('\n') + (gap === '\n' && !mayTouch ? '\n\n' : gap)
    })
    return { text: text.join(''), machine: blocks.flatMap(([{ machine }]) => machine) }
  })

/** Any text at all, of pieces that mean something somewhere. */
export const anything: fc.Arbitrary<string> = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '\n',
        '\n\n',
        '\n',
        ' ',
        '  ',
        '\t',
        '    ',
        '```',
        '~~~',
        '$ ',
        '# ',
        '## ',
        '##',
        '> ',
        '- ',
        '* ',
        '• ',
        '1) ',
        'a) ',
        'b) ',
        '[ ] ',
        '===',
        '---',
        '|',
        '<div>',
        '<!--',
        '-->',
        '`',
        '**',
        'wx@gate:~$ ',
        'root@gate:/# ',
        'df -h',
        'apt update',
        'the disk was full ',
        'I saw it',
        'cat <<EOF',
        'EOF',
        '\\',
        '\u00a0',
        'Name',
        ': ',
        '. ',
        '\r',
        '\ufeff',
        '[a]: x',
        '![a](b)',
        'Oct 12 03:14:15 gate a[1]: b',
        '– ',
        '☐ ',
      ),
      fc.string({ maxLength: 5 }),
    ),
    { maxLength: 24 },
  )
  .map((pieces) => pieces.join(''))
