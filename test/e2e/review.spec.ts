/** A procedure is reviewed while it is written: what it lacks is shown at its words, mended by a key or passed over with a reason. */
import type { Locator, Page } from '@playwright/test'
import { violationsInBoth } from './support/axe.ts'
import {
  addStep,
  beginProcedure,
  beginProject,
  carryEntry,
  chooseInMenu,
  dismissNotices,
  entryWith,
  openSample,
  pane,
  partOf,
  steps,
  undoButton,
  writeEntry,
} from './support/panes.ts'
import { expect, test } from './support/test.ts'

const panel = (page: Page): Locator => page.getByRole('dialog', { name: 'Review' })
const list = (page: Page): Locator => panel(page).getByRole('group', { name: 'Findings' })
const group = (page: Page, name: RegExp): Locator =>
  panel(page)
    .locator('.st-review-group')
    .filter({ has: page.getByRole('heading', { name }) })
const findings = (page: Page, rule: string): Locator =>
  panel(page).locator('.st-review-group').getByRole('listitem', { name: rule, exact: true })
const button = (page: Page): Locator => pane(page, 'Procedure').getByRole('button', { name: /^Review/ })
const doOf = (page: Page, n: number): Locator => partOf(steps(page).nth(n), 'do').locator('.st-part-read')

async function begin(page: Page): Promise<void> {
  await beginProject(page, 'Move the weather logger')
  await beginProcedure(page, 'Bring a logger into the rack')
}

/** Waits until the list speaks of the texts as they stand. */
async function settled(page: Page): Promise<void> {
  await expect(panel(page).locator('.st-review-reading, .st-finding--stale')).toHaveCount(0)
}

test('what is typed is reviewed once typing pauses, and a finding is mended by one key with one undo', async ({
  program,
}) => {
  const { page } = program
  await begin(page)
  await addStep(page, 'Utilize the lamp by the door.')
  await addStep(page, 'Wait long enough.')
  await addStep(page, 'Format the disk:\n\n```sh\nmkfs.ext4 /dev/sdb1\n```')
  const sign = steps(page).nth(1).getByRole('button', { name: 'findings at step 2' })
  await expect(sign).toHaveAccessibleName('2 findings at step 2: review')
  await sign.click()
  await settled(page)
  const vague = findings(page, 'No vague words')
  await expect(vague.locator('mark')).toHaveText('enough')
  await expect(vague).toContainText('“enough” leaves it to the reader.')
  await expect(vague).toContainText('Two people decide differently')
  await expect(vague).toContainText('Source: DOE-STD-1029-92')
  await expect(
    group(page, /^Step 2: Wait/)
      .getByRole('listitem')
      .first(),
  ).toBeFocused()
  await expect(findings(page, 'What destroys has a caution')).toContainText('“mkfs.ext4” destroys')

  await chooseInMenu(page, steps(page).nth(2).getByRole('button', { name: 'More for step 3' }), 'Add caution')
  await expect(steps(page).nth(2).locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText('Unplug the old disk.')
  await page.keyboard.press('Escape')
  const caution = findings(page, 'A caution holds no action')
  await expect(caution).toContainText('This is something to do')
  await expect(findings(page, 'What destroys has a caution')).toHaveCount(0)

  await settled(page)
  const verb = findings(page, 'A step starts with a plain verb')
  await verb.focus()
  await page.keyboard.press('m')
  await expect(doOf(page, 0)).toHaveText('Use the lamp by the door.')
  await expect(verb).toHaveCount(0)
  await expect(
    group(page, /^Step 2: Wait/)
      .getByRole('listitem')
      .first(),
  ).toBeFocused()
  await undoButton(page).click()
  await expect(doOf(page, 0)).toHaveText('Utilize the lamp by the door.')
  await expect(verb).toHaveCount(1)
  expect(await violationsInBoth(page)).toEqual([])
  expect(program.complaints).toEqual([])
})

test('by the keyboard alone a finding is gone to, passed over with a reason, and heard again', async ({
  program,
}) => {
  const { page } = program
  await begin(page)
  await addStep(page, 'Wait long enough, then close the lid properly.')
  await expect(button(page)).toHaveAccessibleName(/^Review, \d findings$/)
  await page.keyboard.press('Alt+k')
  const first = list(page).getByRole('listitem').first()
  await expect(first).toBeFocused()
  const count = await list(page).getByRole('listitem').count()
  for (let n = 1; n < count; n++) await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowDown')
  await expect(first).toBeFocused()
  await findings(page, 'No vague words').first().focus()

  await page.keyboard.press('Enter')
  await expect(doOf(page, 0)).toBeFocused()
  await expect(doOf(page, 0).locator('mark')).toHaveText('enough')
  await page.keyboard.press('Alt+k')
  await expect(findings(page, 'No vague words').first()).toBeFocused()

  await page.keyboard.press('p')
  const reason = panel(page).getByLabel('Why it is right as it stands')
  await expect(reason).toBeFocused()
  await page.keyboard.press('Enter')
  await expect(reason).toHaveAttribute('aria-invalid', 'true')
  await page.keyboard.press('Escape')
  await expect(findings(page, 'No vague words').first()).toBeFocused()
  await page.keyboard.press('p')
  await page.keyboard.type('The lamp says when.')
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.press('Enter')
  await expect(findings(page, 'No vague words')).toHaveCount(1)
  await expect(findings(page, 'No vague words')).toBeFocused()
  await expect(findings(page, 'No vague words').locator('mark')).toHaveText('properly')
  await expect(panel(page).getByRole('status')).toHaveText(`${count - 1} open, 1 passed over`)

  await dismissNotices(page)
  const fold = panel(page).locator('summary')
  await fold.focus()
  await page.keyboard.press('Enter')
  const passed = panel(page).getByRole('group', { name: 'Passed over' }).getByRole('listitem')
  await expect(passed).toContainText('Reason: The lamp says when.')
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.press('Tab')
  await expect(passed).toBeFocused()
  await page.keyboard.press('h')
  await expect(findings(page, 'No vague words')).toHaveCount(2)
  await expect(findings(page, 'No vague words').first()).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(panel(page)).toHaveCount(0)
  await program.restart()
  await expect(button(program.page)).toHaveAccessibleName(`Review, ${count} findings`)
  expect(program.complaints).toEqual([])
})

test('one rule is shown alone, and typing elsewhere is never shown against what was found before', async ({
  program,
}) => {
  const { page } = program
  await begin(page)
  await addStep(page, 'Wait long enough.')
  await addStep(page, 'Close the lid properly.')
  await button(page).click()
  await settled(page)
  await panel(page).getByLabel('Rule').selectOption({ label: 'No vague words, 2' })
  await expect(list(page).getByRole('listitem')).toHaveCount(2)
  await doOf(page, 0).click()
  await page.keyboard.press('Control+a')
  await page.keyboard.insertText('Wait for two minutes.')
  await page.keyboard.press('Escape')
  await expect(doOf(page, 0)).toHaveText('Wait for two minutes.')
  await expect(list(page).locator('mark')).toHaveText(['properly'])
  await expect(list(page).getByRole('listitem')).toHaveCount(1)
  await steps(page).nth(0).getByRole('button', { name: 'at step 1: review' }).click()
  await expect(panel(page).getByLabel('Rule')).toHaveValue('')
  await expect(
    group(page, /^Step 1/)
      .getByRole('listitem')
      .first(),
  ).toBeFocused()
  expect(program.complaints).toEqual([])
})

test('what is found in a part of the procedure’s own is said beside it, and what was passed over outlives its words until it is forgotten', async ({
  program,
}) => {
  const { page } = program
  await begin(page)
  await chooseInMenu(page, pane(page, 'Procedure').getByRole('button', { name: 'Add…' }), /^Closing checks/)
  await expect(pane(page, 'Procedure').locator('.cm-content')).toBeFocused()
  await page.keyboard.insertText('Close the lid properly.')
  await page.keyboard.press('Escape')
  await pane(page, 'Procedure')
    .getByRole('button', { name: '1 finding at the closing checks: review' })
    .click()
  const vague = findings(page, 'No vague words')
  await expect(vague).toBeFocused()
  await page.keyboard.press('p')
  await page.keyboard.type('The lid clicks.')
  await page.keyboard.press('Enter')
  await expect(vague).toHaveCount(0)
  await expect(page.getByRole('button', { name: /at the closing checks: review/ })).toHaveCount(0)

  const checks = pane(page, 'Procedure')
    .locator('.st-own-part', { hasText: 'Close the lid' })
    .locator('.st-part-read')
  await checks.click()
  await page.keyboard.press('Control+a')
  await page.keyboard.insertText('Close the lid until it clicks.')
  await page.keyboard.press('Escape')
  const fold = panel(page).getByText('Passed over and not found any more, 1')
  await fold.click()
  const spent = panel(page)
    .getByRole('group', { name: 'Passed over and not found any more' })
    .getByRole('listitem')
  await expect(spent).toContainText('properly')
  await expect(spent).toContainText('Reason: The lid clicks.')
  expect(await violationsInBoth(page)).toEqual([])
  await page.keyboard.press('Tab')
  await expect(spent).toBeFocused()
  await page.keyboard.press('f')
  await expect(fold).toHaveCount(0)
  await undoButton(page).click()
  await expect(fold).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('a mend leaves what was carried where it was, and its link with it', async ({ program }) => {
  const { page } = program
  await begin(page)
  const entry = await writeEntry(page, 'Please pull the fuse in the hall.')
  await addStep(page, 'Open the door.')
  await carryEntry(page, entry, 'New step after 1')
  const from = steps(page).nth(1).locator('.st-from')
  await expect(from).toContainText('quotes')
  await page.keyboard.press('Alt+k')
  const polite = list(page).getByRole('listitem').filter({ hasText: 'It begins with “Please”' })
  await polite.focus()
  await page.keyboard.press('m')
  await expect(doOf(page, 1)).toHaveText('Pull the fuse in the hall.')
  await expect(from).toContainText('derives')
  await expect(from).not.toContainText('loose')
  await from.click()
  await expect(entryWith(page, 'pull the fuse').locator('mark').first()).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('the sample has nothing open, says what was passed over, and what the rules cannot tell', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await page
    .getByRole('button', { name: /The weather logger moves to a disk/ })
    .first()
    .waitFor()
  await expect(button(page)).toHaveAccessibleName('Review')
  await page.keyboard.press('Alt+k')
  await expect(panel(page).getByRole('status')).toHaveText(/^Nothing open(, [123] passed over)?$/)
  await expect(list(page)).toContainText('They read English, and cannot tell whether a procedure is right.')
  await expect(panel(page).locator('.st-review-group')).toHaveCount(0)
  expect(await panel(page).locator('.st-passed-over li').count()).toBeLessThanOrEqual(3)
  expect(await violationsInBoth(page)).toEqual([])
  expect(program.complaints).toEqual([])
})
