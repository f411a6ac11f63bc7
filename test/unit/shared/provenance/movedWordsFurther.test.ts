/** The other 500 of the 1,000 scripts of `movedWords.test.ts`, in a file of their own to run beside it. */
import { describe, it } from 'vitest'
import { playAll, seedsFrom } from '../../support/movingPlays.ts'

describe('links whose words go from text to text', () => {
  it('are found where an oracle sees their characters, and a rebuild gives the kept table (scripts 501 to 1,000)', async () => {
    await playAll(seedsFrom(501, 1000), 50)
  }, 180_000)
})
