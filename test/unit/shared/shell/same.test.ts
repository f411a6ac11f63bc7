import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { effectOfText } from '../../../../shared/shell/effects.ts'
import { findProblems } from '../../../../shared/shell/reading/read.ts'
import { normalForm, normalFormOf, sameCommand } from '../../../../shared/shell/same.ts'
import { seenCommands } from '../../../../shared/shell/seen.ts'
import { optionTable } from '../../../../shared/shell/options/table.ts'
import { toOptionRules } from '../../../../shared/shell/options/arguments.ts'
import { seenTable } from './seen-table.ts'

const texts = seenTable.map((line) => line.split(' => ')[0]!)

describe('the normal form', () => {
  it('is its own normal form, and bash accepts it', () => {
    for (const text of texts) {
      const form = normalForm(text)
      expect(normalForm(form)).toBe(form)
      expect(findProblems(form), form).toEqual([])
    }
  })

  it('is its own also of any text at all', () => {
    const piece = fc.constantFrom(
      ...'$\'"`(){}<>|&;\\ \n#=!-',
      ...texts,
      'if',
      'done',
      '<<E',
      '--',
      '-x',
      '=',
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (parts) => {
        const form = normalForm(parts.join(''))
        expect(normalForm(form)).toBe(form)
      }),
      { numRuns: 2000 },
    )
  })

  it('does what the text does', () => {
    for (const text of texts) {
      const effects = (one: string): unknown => effectOfText(one).effects
      expect(effects(normalForm(text)), text).toEqual(effects(text))
    }
  })

  it('of a command without its wrappers is that of the command', () => {
    const [seen] = seenCommands("ssh desk.home.arpa 'sudo apt-get -y install nginx'")
    expect(normalFormOf(seen!)).toBe(normalForm('apt install nginx'))
  })
})

describe('two commands are the same', () => {
  it.each([
    ['sudo apt-get -y install b a', 'apt install a b'],
    ['/usr/bin/apt install a', 'sudo apt install a'],
    ['sudo -E -u root systemctl restart nginx.service', 'service nginx restart'],
    ['rm -rf "/srv/a b"', "rm --force -r '/srv/a b'"],
    ['tar xzf a.tgz -C /opt', 'tar -C /opt -zxf a.tgz'],
    ['tar --extract --file a.tgz', 'tar -xf a.tgz'],
    ['git commit -am x', 'git commit -m x --all'],
    ['ip a', 'ip addr'],
    ['ip addr del 192.0.2.1/24 dev eth0', 'sudo ip address delete 192.0.2.1/24 dev eth0'],
    ['docker run -it --rm alpine', 'docker run --rm -t -i alpine'],
    ['docker-compose up -d', 'docker compose up --detach'],
    ["sudo sh -c 'echo 1 > /etc/x'", 'echo 1 >/etc/x'],
    ['env A=1 make', 'A=1 make'],
    ['ls -la', 'ls -a -l --color=auto'],
    ['mkfs -t ext4 /dev/sdb1', 'sudo mkfs.ext4 /dev/sdb1'],
    ['cat <<E > f\na b\nE', "cat > f <<'E'\na b\nE"],
    ['a  &&   b;c', 'a && b\nc'],
    ['grep -rn x .', 'grep --line-number --recursive x .'],
    ['egrep x f', 'grep -E x f'],
    ['cp -r a b # for later', 'cp --recursive a b'],
  ])('%s = %s', (one, other) => {
    expect(normalForm(one)).toBe(normalForm(other))
    expect(sameCommand(one, other)).toBe(true)
  })

  it.each([
    ['./apt install a', 'apt install a'],
    ['/usr/local/bin/apt install a', 'apt install a'],
    ['sudo -u mira ls', 'ls'],
    ['apt install a', 'apt remove a'],
    ['rm a', 'rm -f a'],
    ['cp a b', 'cp b a'],
    ['git -p log', 'git log -p'],
    ['tar -cf x -C /d a', 'tar -cf x a -C /d'],
    ['rsync --exclude a --include b x y', 'rsync --include b --exclude a x y'],
    ['iptables -A INPUT ! -s 192.0.2.1', 'iptables -A INPUT -s 192.0.2.1 !'],
    ['echo "$x"', 'echo $x'],
    ["echo '*'", 'echo *'],
    ["echo '~'", 'echo ~'],
    ['systemctl enable x', 'systemctl enable --now x'],
    ['systemctl restart x.timer', 'systemctl restart x'],
    ['ssh a ls', 'ssh b ls'],
    ['a && b', 'a; b'],
    ['a > f', 'a >> f'],
    ['cat <<E\n$a\nE', "cat <<'E'\n$a\nE"],
    ['frob -b -a', 'frob -a -b'],
    ['a | b', 'a |& b'],
    ['sudo -i ls', 'ls'],
  ])('not: %s, %s', (one, other) => {
    expect(sameCommand(one, other)).toBe(false)
  })
})

describe('the table of options', () => {
  it('names no spelling twice for one command', () => {
    const wrong = Object.entries(optionTable).flatMap(([command, line]) => {
      const names = [...line.matchAll(/(?<=^|[\s,])-[^\s,=~]*/gu)].map(([one]) => one)
      const twice = names.filter((one, n) => names.indexOf(one) !== n)
      return twice.length > 0 ? [`${command}: ${twice.join(' ')}`] : []
    })
    expect(wrong).toEqual([])
    expect(Object.keys(optionTable).length).toBeGreaterThan(100)
  })

  it('is read as written', () => {
    const rules = toOptionRules('-y,--yes~ -t,--target= --color=? >')
    expect(rules.endsAtOperand).toBe(true)
    expect(rules.byName.get('-y')).toEqual({ names: ['-y', '--yes'], takes: 'nothing', isHarmless: true })
    expect(rules.byName.get('--target')?.takes).toBe('value')
    expect(rules.byName.get('--color')?.takes).toBe('attached')
  })
})
