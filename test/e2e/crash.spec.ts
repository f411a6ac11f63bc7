/** The power goes while something is typed: nothing that is older than a second is lost. */
import type { Page } from '@playwright/test'
import {
  addStep,
  beginProcedure,
  beginProject,
  composer,
  entryWith,
  partOf,
  steps,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

/** Types like a person, signs one after the other, and says what was typed up to a second before the end. */
async function typeUntilKilled(page: Page, text: string): Promise<string> {
  const begun: number[] = []
  for (const sign of text) {
    begun.push(Date.now())
    await page.keyboard.type(sign)
    await page.waitForTimeout(15)
  }
  const end = Date.now()
  return text.slice(0, begun.filter((moment) => moment < end - 1000).length)
}

test('a kill while an entry, a part and an amendment are typed loses nothing older than a second, time after time', async ({
  program,
}) => {
  test.setTimeout(150_000)
  await beginProject(program.page, 'Straighten the mast')
  await writeEntry(program.page, 'The mast leans to the east')
  await beginProcedure(program.page, 'Straighten a mast')
  await addStep(program.page, 'Loosen the guy wires. ')
  let inComposer = ''
  let inPart = 'Loosen the guy wires. '
  for (let round = 1; round <= 2; round++) {
    // In the composer.
    await composer(program.page).click()
    await program.page.keyboard.press('Control+End')
    const words = `Round ${round}: the lower turnbuckle moves freely, the upper one is stuck and needs oil. `
    const sure = inComposer + (await typeUntilKilled(program.page, words))
    await program.killAndRestart()
    await expect(composer(program.page)).toContainText(sure.trimEnd())
    const back = (await composer(program.page).textContent()) ?? ''
    expect(
      `${inComposer}${words}`.startsWith(back.trimEnd()),
      `“${back}” is a beginning of what was typed`,
    ).toBe(true)
    inComposer = back
    await expect(entryWith(program.page, 'The mast leans to the east')).toBeVisible()

    // In a part.
    const part = () => partOf(steps(program.page).first(), 'do')
    await part().locator('.st-part-text').click()
    await expect(part().locator('.cm-content')).toBeFocused()
    await program.page.keyboard.press('Control+End')
    const further = `Turn each one by half a turn (${round}) and look along the mast again. `
    const surePart = inPart + (await typeUntilKilled(program.page, further))
    await program.killAndRestart()
    await expect(part()).toContainText(surePart.trimEnd())
    await expect(composer(program.page)).toContainText(inComposer.trimEnd())
    await part().locator('.st-part-text').click()
    inPart = (await part().locator('.cm-content').textContent()) ?? ''
    expect(`${surePart}${further}`).toContain(inPart.slice(surePart.length))
    await program.page.keyboard.press('Escape')
    await expect(part().locator('.cm-content')).toHaveCount(0)
  }

  // In an amendment: it is open again, and what stands is what stood before.
  const entry = () => program.page.locator('article.st-entry').first()
  await entry().getByRole('button', { name: 'More for this entry' }).click()
  await program.page.getByRole('menuitem', { name: 'Amend' }).click()
  await expect(entry().locator('.cm-content')).toBeFocused()
  await program.page.keyboard.press('Control+End')
  const amended = await typeUntilKilled(program.page, ', by two fingers at a height of three metres')
  await program.killAndRestart()
  await expect(entry().locator('.cm-content')).toContainText(`The mast leans to the east${amended}`)
  await expect(entry().getByText('What stood before stays readable.')).toBeVisible()
  await entry().getByRole('button', { name: 'Cancel' }).click()
  await entry().getByRole('button', { name: 'Cancel' }).click()
  await expect(entry().locator('.st-prose')).toHaveText('The mast leans to the east')
  // The draft is still the composer's to write.
  await composer(program.page).click()
  await program.page.keyboard.press('Control+Enter')
  await expect(entryWith(program.page, 'Round 1')).toContainText('Round 2')
  await expect(composer(program.page)).not.toContainText('Round')
  expect(program.complaints.filter((words) => !words.includes('crash'))).toEqual([])
})
