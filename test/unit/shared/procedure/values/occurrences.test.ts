import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { occurrencesOf } from '../../../../../shared/provenance/selectors.ts'
import { exampleOf } from '../../../../../shared/procedure/values/check.ts'
import { findOccurrences } from '../../../../../shared/procedure/values/occurrences.ts'
import { valueTypes, type ValueType } from '../../../../../shared/procedure/values/types.ts'

const standings = (text: string, value: string, type: ValueType): string[] =>
  findOccurrences(text, value, type).map((found) => found.standing)

/** Type, value, text, and how each occurrence in it stands. */
const cases: readonly (readonly [ValueType, string, string, string])[] = [
  ['IPv4 address', '192.0.2.1', 'ping 192.0.2.1', 'alone'],
  ['IPv4 address', '192.0.2.1', 'It answers at 192.0.2.1. Then go on.', 'alone'],
  ['IPv4 address', '192.0.2.1', 'ping 192.0.2.10', 'inside'],
  ['IPv4 address', '192.0.2.1', '1192.0.2.1, 9.192.0.2.1 and 192.0.2.1.9', 'inside inside inside'],
  ['IPv4 address', '192.0.2.1', 'http://192.0.2.1:8080/x, root@192.0.2.1:/srv', 'alone alone'],
  ['IPv4 address', '192.0.2.1', 'ip addr add 192.0.2.1/24 dev eth0', 'alone'],
  ['IPv4 address', '192.0.2.0', 'route 192.0.2.0/24', ''],
  ['IPv4 address', '192.0.2.1', 'hosts 192.0.2.1-192.0.2.9 or 192.0.2.1-9', 'alone inside'],
  ['IPv4 address', '192.0.2.1', 'ip-192.0.2.1 and ::ffff:192.0.2.1', 'inside inside'],
  ['IPv4 address', '192.0.2.10', 'network 192.0.2.0/24', ''],
  ['IPv6 address', '2001:db8::1', 'ping 2001:db8::1', 'alone'],
  ['IPv6 address', '2001:db8::1', 'From 2001:db8::1: no route', 'alone'],
  ['IPv6 address', '2001:db8::1', 'ping 2001:db8::10 2001:db8::1:2 2001:db8::1%eth0', 'inside inside inside'],
  ['IPv6 address', '2001:db8::1', '2001:DB8::1, 2001:db8:0:0::1. 2001:db8::2', 'other-writing other-writing'],
  ['IPv6 address', '2001:db8::1', 'https://[2001:db8::1]:8443/', 'alone'],
  ['IPv6 address', '2001:db8::', 'ip route add 2001:db8::/32', ''],
  ['IPv6 address', '::1', 'at 2001:db8::1 and ::1', 'inside alone'],
  ['network', '192.0.2.0/24', 'allow 192.0.2.0/24;', 'alone'],
  ['network', '192.0.2.0/2', 'allow 192.0.2.0/24', 'inside'],
  ['host name', 'weather.example.org', 'dig weather.example.org.', 'alone'],
  [
    'host name',
    'weather.example.org',
    'old-weather.example.org weather.example.org.example.net',
    'inside inside',
  ],
  ['host name', 'weather.example.org', 'www.weather.example.org Weather.Example.org', 'inside other-writing'],
  ['host name', 'gate-1', 'ssh gate-1; scp x root@gate-1:/srv; https://gate-1/x', 'alone alone alone'],
  ['host name', 'gate-1', 'gate-10 gate-1.log /srv/gate-1/x gate-1@x', 'inside inside inside inside'],
  ['host name', 'gate', 'The gate opens. `ssh gate` as anna@gate', 'unsure alone alone'],
  ['path', '/etc/nginx', 'cd /etc/nginx && ls "/etc/nginx"', 'alone alone'],
  ['path', '/etc/nginx', 'cp /etc/nginx/nginx.conf /old/etc/nginx /etc/nginx.bak', 'inside inside inside'],
  [
    'path',
    '/etc/nginx',
    'scp gate:/etc/nginx/ . ; ls /etc/nginx-old ⁅root⁆/etc/nginx',
    'alone inside inside',
  ],
  ['path', '/dev/sda', 'sfdisk /dev/sda; mkfs.ext4 /dev/sda1; dd of=/dev/sda.', 'alone inside alone'],
  ['user', 'anna', 'ssh anna@gate; ls /home/anna; anna2', 'alone inside inside'],
  ['user', 'root', 'The root file system. `chown root:root x`', 'unsure alone alone'],
  ['package', 'nginx', '`apt install nginx nginx-common` in /etc/nginx', 'alone inside inside'],
  ['package', 'g++', 'apt install g++ g++-12', 'alone inside'],
  ['version', '1.22.1', 'nginx 1.22.1, v1.22.1 and 1.22.1-9, nginx=1.22.1', 'alone inside inside alone'],
  ['port', '22', 'ssh -p 22 gate; nc gate:22; 22/tcp', 'alone alone alone'],
  [
    'port',
    '22',
    '22 packages, 22 MB, at 10:22, 22.5, 192.0.2.22, 220',
    'unsure unsure inside inside inside inside',
  ],
  ['size', '20G', 'lvcreate -L 20G; 20GB 120G', 'alone inside inside'],
  ['duration', '5 min', 'Wait 5 min. 15 min', 'alone inside'],
  [
    'MAC address',
    '00:00:5e:00:53:01',
    '00:00:5e:00:53:01 00-00-5E-00-53-01 0000.5e00.5301',
    'alone other-writing other-writing',
  ],
  ['MAC address', '00:00:5e:00:53:01', 'aa:00:00:5e:00:53:01', 'inside'],
  [
    'URL',
    'https://example.org/a',
    'See https://example.org/a, (https://example.org/a) https://example.org/a/b',
    'alone alone inside',
  ],
  [
    'e-mail address',
    'me@example.org',
    'me@example.org, home@example.org me@example.org.au',
    'alone inside inside',
  ],
  ['date', '2026-11-26', '2026-11-26, backup-2026-11-26.tar 2026-11-26T10:00', 'alone inside inside'],
  [
    'free text',
    'eth0',
    '`ip link set eth0 up` eth0.5 eth0: veth0 eth0:1',
    'alone inside alone inside inside',
  ],
  ['free text', 'Roof station', 'The “Roof station” at the Roof stations', 'alone inside'],
  ['secret', 'hunter-2', "-p 'hunter-2' hunter-22", 'alone inside'],
]

describe('occurrences of a value', () => {
  it.each(cases)('%s %s in: %s', (type, value, text, wanted) => {
    expect(
      standings(text, value, type)
        .map((one) => one.replace(' ', '-'))
        .join(' '),
    ).toBe(wanted)
  })

  it('are never in a placeholder, also where a name equals the value', () => {
    expect(findOccurrences('ping ⁅gate-1⁆ gate-1', 'gate-1', 'host name')).toMatchObject([
      { start: 14, end: 20, standing: 'alone' },
    ])
  })

  it('say why one is only offered, and never repeat a secret', () => {
    expect(findOccurrences('ping 192.0.2.10', '192.0.2.1', 'IPv4 address')[0]!.reason).toBe(
      'Here it is part of “192.0.2.10”.',
    )
    expect(findOccurrences('hunter-22', 'hunter-2', 'secret')[0]!.reason).not.toContain('hunter')
  })

  it('hold the value at their places, in order and apart from each other, and miss none that plain search finds', () => {
    const value = fc.constantFrom(...valueTypes).map((type) => [type, exampleOf(type) || 'hunter-2'] as const)
    fc.assert(
      fc.property(
        value,
        fc.array(fc.constantFrom(' ', '.', ':', '/', '1', 'a', '-', '\n', '`', '⁅', '⁅a⁆', 'V', 'V'), {
          maxLength: 12,
        }),
        ([type, one], parts) => {
          const text = parts.map((part) => (part === 'V' ? one : part)).join('')
          const found = findOccurrences(text, one, type)
          found.forEach((place, i) => {
            expect(place.start).toBeGreaterThanOrEqual(i === 0 ? 0 : found[i - 1]!.end)
            if (place.standing !== 'other writing') expect(text.slice(place.start, place.end)).toBe(one)
            expect(place.reason === null).toBe(place.standing === 'alone')
          })
          for (const plain of occurrencesOf(text, one))
            expect(found.some((place) => place.start < plain.end && plain.start < place.end)).toBe(true)
        },
      ),
    )
  })

  it('are found in a long text in time that grows with it', () => {
    const text = 'ping 192.0.2.10 and 192.0.2.1 '.repeat(4000)
    const began = performance.now()
    expect(findOccurrences(text, '192.0.2.1', 'IPv4 address')).toHaveLength(8000)
    expect(performance.now() - began).toBeLessThan(2000)
  })
})
