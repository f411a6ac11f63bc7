/** Every kind of diagram that is drawn, in either runtime. */
import { toFence } from '../../shared/sketch/patterns.ts'
import { sketchSamples } from '../support/sketchSamples.ts'
import { beginProject, composer, entryWith } from './support/panes.ts'
import { expect, test } from './support/test.ts'

test('every kind of diagram is drawn, with its words as text and nothing else of the library', async ({
  program,
}) => {
  test.setTimeout(180_000)
  const { page } = program
  const said: string[] = []
  page.on('console', (message) => said.push(message.text()))
  await beginProject(page, 'Move the rack')
  for (const { word, text } of sketchSamples) {
    await composer(page).click()
    await page.keyboard.insertText(`About: ${word}\n\n${toFence(text)}`)
    await page.keyboard.press('Control+Enter')
    const sketch = entryWith(page, `About: ${word}`).locator('figure.st-sketch')
    await expect(sketch, said.join('\n')).toHaveAttribute('data-sketch', /drawn|broken/, { timeout: 30_000 })
    await expect(sketch, `${word}: ${said.join('\n')}`).toHaveAttribute('data-sketch', 'drawn', {
      timeout: 1,
    })
    await expect(sketch.locator('svg text').first()).toBeVisible()
    await expect(
      sketch.locator('.st-sketch-drawing').locator('style, image, a, use, [class] [class]'),
    ).toHaveCount(0)
  }
  expect(said).toEqual([])
  expect(program.complaints).toEqual([])
})
