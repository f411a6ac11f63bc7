import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { effectOf } from '../../../../shared/shell/effects.ts'
import { whatItFetches } from '../../../../shared/shell/fetches.ts'
import { destructionsIn, interactionOf } from '../../../../shared/shell/hazards.ts'
import { disturbsOf, needsOf } from '../../../../shared/shell/needs.ts'
import { findPasted } from '../../../../shared/shell/pasted.ts'
import { seenCommands } from '../../../../shared/shell/seen.ts'
import { undoes, undoKeys, undoOf, undoPairs } from '../../../../shared/shell/undo.ts'

describe('a command undoes another', () => {
  it.each([
    ['sudo systemctl enable --now logger', 'systemctl disable --now logger.service'],
    ['apt install a b', 'sudo apt-get purge b a'],
    ['mkdir /srv/x', 'rmdir /srv/x/'],
    ['mkdir -p /srv/x', 'rm -r /srv/x'],
    ['mount /dev/sdb1 /mnt', 'umount /mnt'],
    ['mount /dev/sdb1 /mnt', 'umount /dev/sdb1'],
    ['ip addr add 192.0.2.1/24 dev eth0', 'ip a del 192.0.2.1/24 dev eth0'],
    ['ip route add 198.51.100.0/24 via 192.0.2.1', 'ip route del 198.51.100.0/24 via 192.0.2.1'],
    ['mv a b', 'mv b a'],
    ['ln -s a b', 'rm b'],
    ['cp a b', 'rm b'],
    ['sudo useradd -m mira', 'sudo userdel -r mira'],
    ['modprobe i2c-dev', 'modprobe -r i2c-dev'],
    ['modprobe -r i2c-dev', 'modprobe i2c-dev'],
    ['iptables -A INPUT -p tcp --dport 22 -j ACCEPT x', 'iptables -D INPUT -p tcp --dport 22 -j ACCEPT x'],
    ['swapoff /dev/sdb2', 'swapon /dev/sdb2'],
    ['zpool create tank mirror /dev/sda /dev/sdb', 'zpool destroy tank'],
    ['cryptsetup open /dev/sdb1 safe', 'cryptsetup close safe'],
    ['service ssh stop', 'service ssh start'],
    ['touch a b', 'rm -f a b'],
  ])('%s, then %s', (earlier, later) => {
    expect(undoes(later, earlier)).toBe('whole')
  })

  it.each([
    ['apt install a b', 'apt remove a', 'part'],
    ['systemctl enable --now x', 'systemctl disable x', 'part'],
    ['mkdir a && touch b', 'rm b', 'part'],
    ['apt install a', 'apt remove b', null],
    ['rm a', 'touch a', null],
    ['mv a b', 'mv b c', null],
    ['modprobe i2c-dev', 'modprobe i2c-dev', null],
    ['systemctl start x', 'systemctl stop y', null],
    ['ls', 'rm x', null],
    ['frob x', 'unfrob x', null],
  ])('%s, then %s: %s', (earlier, later, expected) => {
    expect(undoes(later, earlier)).toBe(expected)
  })

  it('as it is proposed, wherever one is proposed', () => {
    const operands: Record<string, string> = { turned: 'a b', either: '/dev/sdb1 /mnt' }
    const texts = undoPairs.map(([does, , match]) => {
      const words = does.split(' ').map((one) => one.split('|')[0]!)
      return [...words, operands[match] ?? 'thing'].join(' ')
    })
    const proposed = texts.filter((text) => undoOf(text) !== null)
    expect(proposed.length).toBeGreaterThan(80)
    for (const text of proposed) expect([text, undoes(undoOf(text)!, text)]).toEqual([text, 'whole'])
  })

  it('only where the two share a key', () => {
    const texts = undoPairs.flatMap(([does, back]) =>
      [does, back].flatMap((written) => {
        const words = written.split(' ').map((one) => one.split('|')[0]!)
        return ['a', 'b', 'a b', 'b a', ''].map((operands) => [...words, operands].join(' '))
      }),
    )
    const keys = new Map(texts.map((text) => [text, undoKeys(text)]))
    let found = 0
    for (const earlier of keys.keys())
      for (const [later, { undoes: taken }] of keys) {
        if (earlier.split(' ')[0] !== later.split(' ')[0] || undoes(later, earlier) === null) continue
        found += 1
        const isShared = [...keys.get(earlier)!.does].some((key) => taken.has(key))
        expect([later, earlier, isShared]).toEqual([later, earlier, true])
      }
    expect(found).toBeGreaterThan(200)
  })

  it.each([
    ['sudo systemctl enable --now logger', 'systemctl disable --now logger'],
    ['apt-get install -y a b', 'apt-get remove a b'],
    ['mount /dev/sdb1 /mnt', 'umount /mnt'],
    ['mv a "b c"', "mv 'b c' a"],
    ['rm a', null],
    ['ls', null],
    ['a; b', null],
  ])('proposed for %s: %s', (text, expected) => {
    expect(undoOf(text)).toBe(expected)
  })
})

const fetched = (text: string): string[] =>
  whatItFetches(text).map(
    ({ kind, name, version }) => `${kind} ${name ?? '?'}${version === null ? '' : ` ${version}`}`,
  )

describe('what is fetched', () => {
  it.each([
    ['sudo apt install -y nginx=1.22.1-9 curl/bookworm', ['package nginx 1.22.1-9', 'package curl bookworm']],
    ['apt-get update', ['index ?']],
    ['apt-get -s install nginx', []],
    ['apt upgrade', ['package ?']],
    ['apt remove nginx', []],
    ['dpkg -i ./logger.deb', []],
    ['apt install ./logger.deb', []],
    ['pip install "influxdb-client>=1.3" -r requirements.txt', ['package influxdb-client 1.3', 'package ?']],
    ['npm install -g @example/tool@2.1', ['package @example/tool 2.1']],
    ['docker pull registry.example.org:5000/logger:2', ['image registry.example.org:5000/logger 2']],
    ['docker run -d --name web -p 80:80 nginx:1.25 nginx -g x', ['image nginx 1.25']],
    ['docker compose up -d', ['image ?']],
    ['docker compose down', []],
    ['curl -fsSLo /tmp/x https://www.example.org/x.tgz', ['download https://www.example.org/x.tgz']],
    ['wget -q www.example.org/x.iso', ['download www.example.org/x.iso']],
    ['curl -s "https://www.example.org/$VERSION"', ['download ?']],
    [
      'git clone --depth 1 https://git.example.org/a.git /srv/a',
      ['repository https://git.example.org/a.git'],
    ],
    ['gpg --keyserver keys.example.org --recv-keys 0123456789ABCDEF', ['key 0123456789ABCDEF']],
    ['snap install core', ['package core']],
    ['ssh desk.home.arpa "sudo apt install chrony"', ['package chrony']],
    [
      'wget -qO- https://www.example.org/key.asc | sudo apt-key add -',
      ['download https://www.example.org/key.asc'],
    ],
    ['rsync -a backup@203.0.113.7:/srv/ /srv/', ['download backup@203.0.113.7:/srv/']],
    ['kubectl apply -f https://www.example.org/a.yaml', ['download https://www.example.org/a.yaml']],
    ['kubectl apply -f a.yaml', []],
    ['add-apt-repository ppa:example/tools', ['repository ppa:example/tools']],
    [
      'debootstrap bookworm /mnt https://deb.example.org/debian',
      ['repository https://deb.example.org/debian'],
    ],
    ['ls', []],
  ])('%s: %j', (text, expected) => {
    expect(fetched(text)).toEqual(expected)
  })

  it('stands where it is written', () => {
    const text = 'sudo apt install nginx && docker pull alpine:3'
    expect(whatItFetches(text).map(({ from, to }) => text.slice(from, to))).toEqual(['nginx', 'alpine:3'])
  })
})

describe('services', () => {
  it.each([
    ['apt install nginx', ['network', 'name resolution']],
    ['ssh mira@gate.home.arpa ls', ['network', 'ssh', 'name resolution']],
    ['ssh root@192.0.2.1 ls', ['network', 'ssh']],
    ['curl https://192.0.2.1/x', ['network']],
    ['curl https://www.example.org', ['network', 'name resolution']],
    ['dig gate.home.arpa', ['network', 'name resolution']],
    ['ping -c 1 192.0.2.1', ['network']],
    ['systemctl restart x', ['systemd']],
    ['docker ps', ['docker']],
    ['psql -l', ['postgresql']],
    ['rsync -a a/ b/', []],
    ['rsync -a a/ gate.home.arpa:b/', ['network', 'ssh', 'name resolution']],
    ['docker exec db psql -l', ['docker', 'postgresql']],
    ['ls', []],
  ])('that %s needs: %j', (text, expected) => {
    expect(needsOf(text)).toEqual(expected)
  })

  it.each([
    ['sudo systemctl restart systemd-resolved', ['name resolution']],
    ['apt purge dnsmasq', ['name resolution']],
    ['echo "nameserver 192.0.2.53" > /etc/resolv.conf', ['name resolution']],
    ['ip link set eth0 down', ['network']],
    ['systemctl restart sshd.service', ['ssh']],
    ['sed -i s/a/b/ /etc/ssh/sshd_config', ['ssh']],
    ['apt install --reinstall openssh-server=1:9.2', ['ssh']],
    ['systemctl stop postgresql@15-main', ['postgresql']],
    ['iptables -F', ['firewall']],
    ['systemctl status ssh', []],
    ['cat /etc/resolv.conf', []],
    ['systemctl restart logger', []],
  ])('that %s disturbs: %j', (text, expected) => {
    expect(disturbsOf(text)).toEqual(expected)
  })
})

describe('a command waits for a person', () => {
  it.each([
    ['sudo nano /etc/hosts', 'full screen'],
    ['sudo systemctl edit ssh', 'full screen'],
    ['crontab -e', 'full screen'],
    ['git commit', 'full screen'],
    ['passwd mira', 'asks'],
    ['sudo fdisk /dev/sdb', 'asks'],
    ['apt install nginx', 'asks'],
    ['cryptsetup luksFormat /dev/sdb1', 'asks'],
    ['ssh gate.home.arpa', 'asks'],
    ['sudo -i', 'asks'],
    ['mysql weather', 'asks'],
    ['ssh-keygen -t ed25519', 'asks'],
    ['top', 'full screen'],
  ])('%s: %s', (text, expected) => {
    expect(interactionOf(text)?.is).toBe(expected)
  })

  it.each([
    'apt install -y nginx',
    'git commit -m x',
    'ssh gate.home.arpa uptime',
    'crontab -l',
    'fdisk -l',
    'top -b -n 1',
    'mysql -e "select 1"',
    'mysql weather < dump.sql',
    'visudo -c',
    'ssh-keygen -N "" -f key',
    'passwd -l mira',
    'parted -s /dev/sdb mklabel gpt',
    'ls',
    'frob',
  ])('not: %s', (text) => {
    expect(interactionOf(text)).toBeNull()
  })
})

describe('what is lost', () => {
  it('is named, with the source that says so', () => {
    const found = destructionsIn('sudo mkfs.ext4 /dev/sdb1 && ls && cat x > /dev/sdc; rm -r "/srv/a b" "$d"')
    expect(found.map(({ lost, sources }) => [lost.map(({ name }) => name), sources[0]])).toEqual([
      [['/dev/sdb1'], 'mkfs.ext4(8)'],
      [['/dev/sdc'], 'cat(1)'],
      [['/srv/a b', null], 'rm(1)'],
    ])
  })
})

describe('what was pasted along with a command', () => {
  const parts = (text: string): string[] =>
    findPasted(text).map(
      ({ is, from, to, isRoot }) => `${is}${isRoot ? ' of root' : ''}: ${text.slice(from, to)}`,
    )

  it.each([
    ['$ sudo apt update', ['prompt: $ ']],
    ['root@gate:~# systemctl restart ssh', ['prompt of root: root@gate:~# ']],
    ['mira@gate:/srv$ ls -l\ntotal 0\n', ['prompt: mira@gate:/srv$ ', 'output: total 0']],
    ['$ for f in a b; do\n>   echo $f\n> done', ['prompt: $ ', 'continuation: > ', 'continuation: > ']],
    ['$ cat <<E\nhello $x\nE\n$ ls', ['prompt: $ ', 'prompt: $ ']],
    ['sudo apt update\nsudo apt upgrade', []],
    ['# a remark\nls -l', []],
    ['echo "$ ls"', []],
    ['cat > x <<E\nroot@gate:~# ls\nE', []],
  ])('%j: %j', (text, expected) => {
    expect(parts(text)).toEqual(expected)
  })

  it('leaves the commands as they were typed when it is taken out', () => {
    const commands = [
      'ls -l /srv',
      'sudo apt update',
      'systemctl status ssh',
      'cat <<E\na b\nE',
      'for f in a; do\n  ls $f\ndone',
    ]
    const prompts = ['$ ', 'mira@gate:~$ ', 'root@gate:/etc# ', '[mira@gate srv]$ ']
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...commands), { minLength: 1, maxLength: 4 }),
        fc.constantFrom(...prompts),
        (typed, prompt) => {
          const text = typed.map((one) => prompt + one).join('\n')
          const rest = findPasted(text).reduceRight(
            (left, { from, to }) => left.slice(0, from) + left.slice(to),
            text,
          )
          expect(rest).toBe(typed.join('\n'))
        },
      ),
    )
  })
})

describe('any text at all', () => {
  it('is looked at without a failure, and with places in it', () => {
    const piece = fc.constantFrom(
      ...'$\'"`(){}<>|&;\\ \n#=!-*~',
      ...'sudo ssh su -c -u env xargs find -exec {} docker exec apt install tar -C -f git sh -- >f <<E flock'.split(
        ' ',
      ),
    )
    fc.assert(
      fc.property(fc.array(fc.tuple(piece, fc.constantFrom('', ' ')), { maxLength: 14 }), (parts) => {
        const text = parts.flat().join('')
        for (const seen of seenCommands(text)) {
          expect([seen.from >= 0, seen.from <= seen.to, seen.to <= text.length]).toEqual([true, true, true])
          expect(effectOf(seen).effects.length).toBeLessThanOrEqual(5)
        }
        for (const { from, to } of [...whatItFetches(text), ...findPasted(text)]) {
          expect([from >= 0, from <= to, to <= text.length]).toEqual([true, true, true])
        }
        expect([
          undoes(text, text),
          undoOf(text),
          needsOf(text),
          disturbsOf(text),
          interactionOf(text),
        ]).toHaveLength(5)
      }),
      { numRuns: 3000 },
    )
  })
})
