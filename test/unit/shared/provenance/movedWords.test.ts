/**
 * The first 500 of 1,000 random scripts of typing, also in two windows, cutting, pasting, moving, splitting, joining, undo and redo over both ends of
 * links, through the acts and the store that the program uses, beside an oracle that numbers every character. After every act
 * every end of every link stands where the oracle says. A failure names the seed of its script;
 * `SCRIPT=<seed> npx vitest run …` plays that one alone.
 */
import { describe, it } from 'vitest'
import { playAll, seedsFrom } from '../../support/movingPlays.ts'

describe('links whose words go from text to text', () => {
  it('are found where an oracle sees their characters, and a rebuild gives the kept table (scripts 1 to 500)', async () => {
    await playAll(seedsFrom(1, 500), 50)
  }, 180_000)
})
