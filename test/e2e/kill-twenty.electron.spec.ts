/** The program is killed twenty times while something is typed: nothing older than a second is lost, and the draft comes back. */
import type { Page } from '@playwright/test'
import { beginProject, composer, entryWith } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const ROUNDS = 20

/** Types until it is over. @returns what was typed up to a second before the end, and all of it */
async function typeFor(page: Page, ms: number, round: number): Promise<{ sure: string; all: string }> {
  const words = `Round ${round}: the lower turnbuckle moves freely, the upper one is stuck and needs oil before the wind comes. `
  const begun: number[] = []
  const start = Date.now()
  let all = ''
  while (Date.now() - start < ms) {
    const sign = words[all.length % words.length]!
    begun.push(Date.now())
    await page.keyboard.type(sign)
    all += sign
    await page.waitForTimeout(10)
  }
  const end = Date.now()
  return { sure: all.slice(0, begun.filter((moment) => moment < end - 1000).length), all }
}

test('twenty kills while an entry is typed lose nothing older than a second', async ({ program }) => {
  test.setTimeout(300_000)
  await beginProject(program.page, 'Straighten the mast')
  let kept = ''
  for (let round = 1; round <= ROUNDS; round++) {
    await composer(program.page).click()
    await program.page.keyboard.press('Control+End')
    // The moment of the kill moves through the time between two writes of the draft.
    const { sure, all } = await typeFor(program.page, 1500 + round * 37, round)
    await program.killAndRestart()
    await expect(composer(program.page), `round ${round}`).toContainText((kept + sure).trimEnd())
    const back = (await composer(program.page).textContent()) ?? ''
    expect(
      (kept + all).startsWith(back.trimEnd()),
      `round ${round}: nothing came in that was not typed`,
    ).toBe(true)
    // Every third round the entry is written, so that the next kill meets an entry and an empty composer.
    kept = back
    if (round % 3 !== 0) continue
    await composer(program.page).click()
    await program.page.keyboard.press('Control+Enter')
    await expect(composer(program.page)).not.toContainText(`Round ${round}`)
    kept = ''
  }
  await expect(entryWith(program.page, 'Round 18')).toBeVisible()
})
