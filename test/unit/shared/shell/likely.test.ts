import { describe, expect, it } from 'vitest'
import { commandLikelihood } from '../../../../shared/shell/likely.ts'

describe('how much a line reads like a command', () => {
  it.each([
    'ls',
    'systemctl restart nginx',
    'apt-get install -y chrony',
    './check.py 6',
    'make && make install',
    'VALUE=3 env',
    "sed -i 's/a/b/' file.conf",
    'find . -name x',
    'cat a > b',
    'ssh mira@desk uptime',
  ])('is at least 1 for a command: %s', (line) => {
    expect(commandLikelihood(line)).toBeGreaterThanOrEqual(1)
  })

  it.each([
    'Where the station is plugged in.',
    'keep = 400 days',
    'Do not go below 2: the station answers slowly.',
    'find the cable that is in the way',
    'let nothing in',
    '12 for the stick',
    'gusts: 9',
    'make sure that it is down',
    '',
  ])('is less than 1 for what is none: %s', (line) => {
    expect(commandLikelihood(line)).toBeLessThan(1)
  })
})
