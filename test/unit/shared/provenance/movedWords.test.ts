/**
 * Random scripts of typing, cutting, moving, splitting, joining, undo and redo over both ends of links, through the acts and
 * the store that the program uses, beside an oracle that numbers every character. A failure names the seed of its script;
 * `SCRIPT=<seed> npx vitest run …` plays that one alone.
 */
import { describe, expect, it } from 'vitest'
import type { OpenLab } from '../../../../renderer/db/lab.ts'
import { openTestLab } from '../../support/lab.ts'
import { Script } from '../../support/movingScript.ts'

const SCRIPTS = 1000
/** Scripts that share a lab, so that opening labs takes no time. */
const IN_ONE_LAB = 10
const TURNS = 9
/** Turns from one look at all ends to the next. */
const LOOK = 3

async function play(lab: OpenLab, seed: number, counts: Record<string, number>): Promise<void> {
  const acts: string[] = []
  try {
    const script = await Script.begin(lab, seed)
    for (let turn = 0; turn < TURNS; turn++) {
      const done = await script.turn()
      acts.push(done)
      counts[done] = (counts[done] ?? 0) + 1
      if (turn % LOOK === LOOK - 1) await script.check()
    }
    for (const [what, count] of Object.entries(script.counts)) counts[what] = (counts[what] ?? 0) + count
  } catch (error) {
    throw new Error(`script ${seed} (${acts.join(', ')}): ${(error as Error).message}`, { cause: error })
  }
}

describe('links whose words go from text to text', () => {
  it('are found where an oracle sees their characters, and a rebuild gives the kept table', async () => {
    const only = process.env.SCRIPT
    const seeds = only ? [Number(only)] : Array.from({ length: SCRIPTS }, (_, i) => i + 1)
    const counts: Record<string, number> = {}
    for (let at = 0; at < seeds.length; at += IN_ONE_LAB) {
      const lab = await openTestLab()
      for (const seed of seeds.slice(at, at + IN_ONE_LAB)) await play(lab, seed, counts)
      expect(await lab.rebuild(), `after scripts from ${seeds[at]} on`).toBe(true)
      lab.close()
    }
    if (only) return
    for (const what of ['type', 'delete', 'cut', 'paste', 'move', 'split', 'join', 'undo', 'amend'])
      expect(counts[what], what).toBeGreaterThan(100)
    // Without these the play would say nothing of links.
    for (const what of ['moved', 'divided', 'found', 'loose']) expect(counts[what], what).toBeGreaterThan(100)
  }, 180_000)
})
