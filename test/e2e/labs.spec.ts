/** A lab out to one file and back as another lab: the same in every record, and never across the border. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { strFromU8, unzipSync, type Unzipped } from 'fflate'
import type { Launched } from './support/launch.ts'
import {
  beginProject,
  chooseInMenu,
  composer,
  dismissNotices,
  entries,
  entryWith,
  openSample,
  pane,
  projectButton,
  steps,
  switchProject,
  writeEntry,
} from './support/panes.ts'
import { thread } from './support/sampleThread.ts'
import { catchSavedFile, chooseFiles } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const labButton = ({ page }: Launched) => page.locator('.st-topbar-where').getByRole('button').first()

async function saveLab(program: Launched): Promise<string> {
  return catchSavedFile(program, () =>
    chooseInMenu(program.page, labButton(program), 'Save the whole lab to a file'),
  )
}

async function bringIn(program: Launched, path: string): Promise<void> {
  await chooseFiles(program, [path], () =>
    chooseInMenu(program.page, labButton(program), 'Bring in a lab file'),
  )
}

async function labNames(program: Launched): Promise<string[]> {
  const { page } = program
  // The menu can be opened before the labs are read.
  await expect(labButton(program)).not.toHaveText('Lab')
  await page.locator('.st-topbar-where').getByRole('button').first().click()
  const names = await page.getByRole('menu', { name: 'Labs' }).getByRole('menuitemradio').allInnerTexts()
  await page.keyboard.press('Escape')
  return names.map((name) => name.trim())
}

async function openLab(program: Launched, name: string): Promise<void> {
  await labButton(program).click()
  await program.page.getByRole('menuitemradio', { name, exact: true }).click()
  await expect(labButton(program)).toContainText(name)
}

/** The records of a lab file by table, without what belongs to a window: settings and drafts. */
function recordsIn(files: Unzipped): Record<string, string[]> {
  const tables = Object.entries(files).filter(([path]) => /^records\/(?!settings|drafts)/.test(path))
  return Object.fromEntries(tables.map(([path, bytes]) => [path, strFromU8(bytes).split('\n')]))
}

const unzip = (path: string): Unzipped => unzipSync(readFileSync(path))

/** What a person sees of the open project. */
async function shownIn({ page }: Launched) {
  return {
    projects: await projectButton(page).innerText(),
    entries: await pane(page, 'Journal').locator('.st-pane-count').innerText(),
    sources: await page.locator('.st-source-title').allInnerTexts(),
    steps: await steps(page).allInnerTexts(),
    badges: await pane(page, 'Procedure').locator('.st-from').allInnerTexts(),
  }
}

test('a whole lab goes into a file and comes back equal in every record, and damage is refused without a trace', async ({
  program,
}) => {
  await openSample(program.page)
  await expect(steps(program.page).first()).toBeVisible()
  await writeEntry(program.page, 'A last look before the lab goes to another machine: `uptime` 😀 ‏שלום')
  await dismissNotices(program.page)
  const first = await saveLab(program)
  const before = await shownIn(program)
  const files = unzip(first)
  expect(Object.keys(files)).toEqual(
    expect.arrayContaining(['stillroom-lab.json', 'SHA256SUMS', 'README.txt']),
  )
  expect(recordsIn(files)['records/entries.jsonl']!.length).toBeGreaterThan(5)
  expect(recordsIn(files)['records/links.jsonl']!.length).toBeGreaterThan(2)

  await bringIn(program, first)
  await expect(program.page.locator('.st-notices')).toContainText('Every checksum is right.')
  await expect(labButton(program)).toContainText('(2)')
  await expect(entryWith(program.page, 'A last look')).toBeVisible()
  await dismissNotices(program.page)
  await switchProject(program.page, before.projects.trim())
  await expect.poll(() => shownIn(program)).toEqual(before)
  const second = await saveLab(program)
  expect(recordsIn(unzip(second))).toEqual(recordsIn(files))
  // Bytes of sources too.
  const blobs = (all: Unzipped) =>
    Object.keys(all)
      .filter((path) => path.startsWith('blobs/'))
      .sort()
  expect(blobs(unzip(second))).toEqual(blobs(files))

  // Damage: a byte in the middle, a file that was cut off, something else of that name. No lab is left behind.
  const names = await labNames(program)
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-damaged-'))
  const whole = readFileSync(first)
  const flipped = Buffer.from(whole)
  flipped[Math.floor(flipped.length / 2)]! ^= 0xff
  const damaged: [string, Uint8Array][] = [
    ['flipped.zip', flipped],
    ['cut-off.zip', whole.subarray(0, Math.floor(whole.length * 0.7))],
    ['other.zip', Buffer.from('PK, but not really')],
  ]
  for (const [name, bytes] of damaged) {
    const path = join(folder, name)
    writeFileSync(path, bytes)
    await dismissNotices(program.page)
    await bringIn(program, path)
    await expect(program.page.locator('.st-notice--problem')).toContainText(
      /damaged|not a lab file|could not be read/,
    )
    await expect(program.page.locator('.st-notice--problem')).toContainText('Nothing was brought in')
    expect(await labNames(program)).toEqual(names)
  }
  await dismissNotices(program.page)
  await expect(entryWith(program.page, 'A last look')).toBeVisible()
  await program.restart()
  expect(await labNames(program)).toEqual(names)
  expect(program.complaints).toEqual([])
})

test('labs do not see each other, nothing is carried across, and each keeps its name', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  await chooseInMenu(page, labButton(program), 'Rename this lab')
  await page.getByRole('dialog', { name: 'Rename this lab' }).getByLabel('Name').fill('Observatory')
  await page.keyboard.press('Enter')
  await expect(labButton(program)).toContainText('Observatory')
  const copied = entryWith(page, thread.actionWords)
  await copied.scrollIntoViewIfNeeded()
  // A fragment on the clipboard, and one that was picked, both from the first lab.
  await page.locator('.st-source-open', { hasText: thread.source }).click()
  await page.locator('.st-reading .cm-content').focus()
  await page.keyboard.press('Control+f')
  await page.keyboard.type(thread.sourceWords)
  await page.keyboard.press('Enter')
  await page.keyboard.press('Escape')
  await page.keyboard.press('Control+c')
  await copied.getByRole('button', { name: 'Carry this entry' }).click()
  await expect(page.getByRole('dialog', { name: 'Carry' })).toBeVisible()

  await chooseInMenu(page, labButton(program), 'Start another lab')
  await page.getByRole('dialog', { name: 'Start another lab' }).getByLabel('Name').fill('Workshop')
  await page.keyboard.press('Enter')
  await expect(labButton(program)).toContainText('Workshop')
  await expect(page.getByRole('dialog', { name: 'Carry' })).toHaveCount(0)
  await expect(page.locator('body')).not.toContainText(thread.project)
  await beginProject(page, 'Sharpen the chisels')
  await expect(entries(page)).toHaveCount(0)
  await expect(page.locator('.st-source-open')).toHaveCount(0)
  await expect(page.getByRole('button', { name: /^Undo/ }).first()).toHaveAccessibleName(
    'Undo: add a project',
  )

  // Words of the other lab arrive as plain words, without a link.
  await composer(page).click()
  await page.keyboard.press('Control+v')
  await expect(composer(page)).toContainText(thread.sourceWords)
  await page.keyboard.press('Control+Enter')
  await expect(entries(page)).toHaveCount(1)
  await expect(entries(page).first()).toContainText(thread.sourceWords)
  await expect(entries(page).first().locator('.st-link-badge, .st-entry-foot')).toHaveCount(0)
  const workshop = unzip(await saveLab(program))
  expect(strFromU8(workshop['records/links.jsonl']!)).toBe('')
  const all = Object.entries(workshop).map(([path, bytes]) => `${path} ${strFromU8(bytes)}`)
  expect(all.filter((text) => text.includes(thread.project) || text.includes(thread.actionWords))).toEqual([])

  await openLab(program, 'Observatory')
  await expect(entryWith(page, thread.actionWords)).toBeVisible()
  await expect(page.locator('body')).not.toContainText('Sharpen the chisels')
  expect(await labNames(program)).toEqual(expect.arrayContaining(['Observatory', 'Workshop']))
  await openLab(program, 'Workshop')
  await expect(entries(page)).toHaveCount(1)
  await program.restart()
  await expect(labButton(program)).toContainText('Workshop')
  expect(await labNames(program)).toEqual(expect.arrayContaining(['Observatory', 'Workshop']))
  expect(program.complaints).toEqual([])
})
