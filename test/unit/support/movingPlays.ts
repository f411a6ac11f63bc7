/** Plays random scripts on labs of their own and looks at all ends of all links after every act. */
import { expect } from 'vitest'
import { openTestLab } from './lab.ts'
import { Script } from './movingScript.ts'

const TURNS = 7
/** So many acts are taken back and done again at the end of each script. */
const BACK = 2

async function play(seed: number, counts: Record<string, number>): Promise<void> {
  const acts: string[] = []
  const count = (what: string, by = 1): void => {
    counts[what] = (counts[what] ?? 0) + by
  }
  const lab = await openTestLab()
  try {
    const script = await Script.begin(lab, seed)
    const look = () => script.oracle.check()
    for (let turn = 0; turn < TURNS; turn++) {
      acts.push(await script.turn())
      count(acts.at(-1)!)
      await look()
    }
    await script.backAndForth(BACK, look)
    expect(await lab.rebuild(), 'a rebuild gives the kept table').toBe(true)
    for (const [what, often] of Object.entries(script.oracle.counts)) count(what, often)
  } catch (error) {
    throw new Error(`script ${seed} (${acts.join(', ')}): ${(error as Error).message}`, { cause: error })
  }
  lab.close()
}

/**
 * Plays the scripts of these seeds; the one named by the environment's SCRIPT alone, where it is among them.
 * @param least each act, and each thing that the play is about, happened at least so often
 */
export async function playAll(seeds: readonly number[], least: number): Promise<void> {
  const only = process.env.SCRIPT
  const counts: Record<string, number> = {}
  for (const seed of seeds) if (!only || Number(only) === seed) await play(seed, counts)
  if (only) return
  const acts = [
    'type',
    'delete',
    'cut',
    'paste',
    'move',
    'split',
    'join',
    'undo',
    'redo',
    'amend',
    'two windows',
  ]
  // Without the last ones the play would say nothing of links.
  for (const what of [...acts, 'moved', 'divided', 'found', 'loose'])
    expect(counts[what] ?? 0, what).toBeGreaterThanOrEqual(least)
}

/** Numbers from the first to the last. */
export const seedsFrom = (first: number, last: number): number[] =>
  Array.from({ length: last - first + 1 }, (_, i) => first + i)
