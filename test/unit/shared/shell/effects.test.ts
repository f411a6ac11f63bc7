import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  changesState,
  effectOf,
  effectOfText,
  effectRows,
  isDestructive,
} from '../../../../shared/shell/effects.ts'
import { seenCommands, type SeenCommand } from '../../../../shared/shell/seen.ts'
import type { Party } from '../../../../shared/shell/wrappers/whereabouts.ts'
import { seenTable } from './seen-table.ts'

const partyName = (word: string, party: Party): string =>
  party.is === 'same' ? '' : ` ${word} ${party.is === 'named' ? party.name : '?'}`

function described(seen: SeenCommand): string {
  const { isKnown, effects, touches } = effectOf(seen)
  // Where a host or a container is left to itself, so is who runs there.
  const isElsewhere = seen.host.is !== 'same' || seen.container.is !== 'same'
  const user = seen.user.is === 'unknown' && !isElsewhere ? '' : partyName('as', seen.user)
  const changed = touches
    .filter(({ how }) => how !== 'read')
    .map(({ kind, name }) => `${kind} ${name ?? '?'}`)
  const words = [...effects, ...(isKnown ? [] : ['?'])].join(' ')
  return `${seen.name ?? '?'}${user}${partyName('on', seen.host)}${partyName('in', seen.container)}: ${words}${changed.length > 0 ? `; ${changed.join(', ')}` : ''}`
}

describe('what commands do and as whom', () => {
  it('is written down for more than 150 commands', () => {
    expect(new Set(seenTable).size).toBeGreaterThan(150)
  })

  it.each(seenTable)('%s', (line) => {
    const [text = '', expected] = line.split(' => ')
    expect(seenCommands(text).map(described).join(' + ')).toBe(expected)
  })
})

describe('the table of effects', () => {
  it('has a source for each row and knows more than 250 commands', () => {
    for (const { source } of effectRows) expect(source).toMatch(/\(\w+\)|POSIX|common practice/u)
    const commands = effectRows.flatMap(({ programs, subcommands }) =>
      programs.flatMap((program) => (subcommands[0] ?? ['']).map((one) => `${program} ${one}`)),
    )
    expect(new Set(commands).size).toBeGreaterThan(250)
  })

  it('has no row that can never count: each is the narrowest for some command', () => {
    const keys = effectRows.map(({ programs, subcommands, options, operands, hasOperands }) =>
      JSON.stringify([programs, subcommands, options, operands.map(String), hasOperands]),
    )
    expect(keys.filter((key, n) => keys.indexOf(key) !== n)).toEqual([])
  })

  it('says nothing of what it does not know', () => {
    expect(effectOfText('frobnicate x')).toEqual({ isKnown: false, effects: [], touches: [], sources: [] })
    expect(changesState('frobnicate x')).toBe(false)
    expect(effectOfText('apt frobnicate')).toMatchObject({ isKnown: false, effects: [] })
  })

  it('tells the destructive from the harmless', () => {
    expect(
      ['rm x', 'sudo mkfs /dev/sdb', 'ls | xargs rm', 'ssh desk "zpool destroy tank"'].every(isDestructive),
    ).toBe(true)
    expect(['ls', 'mkdir x', 'zpool status', 'echo rm x'].some(isDestructive)).toBe(false)
  })
})

const wrapped: readonly ((command: string) => string)[] = [
  (one) => `sudo ${one}`,
  (one) => `sudo -u mira -E ${one}`,
  (one) => `doas ${one}`,
  (one) => `env A=1 ${one}`,
  (one) => `nice -n 5 ${one}`,
  (one) => `ionice -c 3 ${one}`,
  (one) => `nohup ${one}`,
  (one) => `timeout -k 5 1m ${one}`,
  (one) => `chroot /mnt ${one}`,
  (one) => `nsenter -t 1 -a ${one}`,
  (one) => `systemd-run --unit=x ${one}`,
  (one) => `ssh desk.home.arpa ${one}`,
  (one) => `ssh desk.home.arpa '${one}'`,
  (one) => `docker exec -it web ${one}`,
  (one) => `sh -c '${one}'`,
  (one) => `sudo bash -c "${one}"`,
  (one) => `su -c '${one}' mira`,
  (one) => `watch -n 1 ${one}`,
]
const plain = seenTable
  .map((line) => line.split(' => ')[0]!)
  .filter(
    (text) =>
      /^[\w./:@~ =-]+$/u.test(text) &&
      !/^(?:export|cd|time|sudo|ssh|su|doas|env|nice|nohup|timeout|watch|bash|docker exec|podman exec|find|echo) |=>/u.test(
        text,
      ),
  )

describe('a wrapper', () => {
  it('leaves the inner effect as it is, any number of them', () => {
    expect(plain.length).toBeGreaterThan(60)
    fc.assert(
      fc.property(
        fc.constantFrom(...plain),
        fc.array(fc.constantFrom(...wrapped.slice(0, 12)), { minLength: 1, maxLength: 3 }),
        fc.option(fc.constantFrom(...wrapped.slice(12)), { nil: null }),
        (command, inner, outer) => {
          const first = inner.reduce((text, wrap) => wrap(text), command)
          const text = outer === null ? first : outer(first)
          expect(effectOfText(text), text).toEqual(effectOfText(command))
        },
      ),
      { numRuns: 500 },
    )
  })

  it('keeps the place of what it runs in the text', () => {
    fc.assert(
      fc.property(fc.constantFrom(...plain), fc.constantFrom(...wrapped), (command, wrap) => {
        const text = wrap(command)
        const [seen] = seenCommands(text)
        expect(text.slice(seen!.from, seen!.to)).toBe(command)
        for (const word of seen!.words) expect(text.slice(word.from, word.to)).toBe(word.text)
      }),
    )
  })

  it.each([
    ['sudo -i', 'sudo'],
    ['ssh desk.home.arpa', 'ssh'],
    ['nice', 'nice'],
    ['bash setup.sh', 'bash'],
    ['command -v nft', 'command'],
    ['sudo -l', 'sudo'],
  ])('without a command is one itself: %s', (text, name) => {
    expect(seenCommands(text).map((one) => [one.name, one.wrappers.length])).toEqual([[name, 0]])
  })
})
