import { describe, expect, it } from 'vitest'
import { isPasted, messagePairs, shareOfMessage } from '../../../../../shared/find/ask/message.ts'

const held = (message: string, text: string): number =>
  shareOfMessage(messagePairs(message), messagePairs(text))

describe('a message that a program printed', () => {
  it('is the same with other numbers, paths, hosts and times', () => {
    const earlier = '2026-11-02 21:04:11 roofd[612]: cannot open /srv/roof/state.db: lock held by process 88'
    const later = '2026-11-20 03:15:59 roofd[9]: cannot open /srv/dome/state.db: lock held by process 4071'
    expect(held(later, earlier)).toBe(1)
    expect(held('roofd: cannot open 192.0.2.7: lock held', earlier)).toBe(1)
  })

  it('is another one where other words follow each other, though they are of the same program', () => {
    // roofd cannot, cannot reach, reach the, the motor: one of four.
    expect(held('roofd: cannot reach the motor', 'roofd: cannot open the roof')).toBe(0.25)
  })

  it('is not told by one word alone', () => {
    expect(held('roofd[612]:', 'roofd[612]: cannot open')).toBe(0)
  })

  it.each([
    ['umount: /mnt/stick: target is busy', true],
    ['key "Unti" in section [Unit]', true],
    ['502 Bad Gateway', true],
    ['the roof does not open', false],
    ['roof motor', false],
  ])('is told from a sentence: %s', (typed, pasted) => {
    expect(isPasted(typed)).toBe(pasted)
  })
})
