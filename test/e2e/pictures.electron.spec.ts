/** Pictures in the journal, in the real shell: pasted, dropped, and a batch of photos placed by the times at which they were taken. */
import { createHash } from 'node:crypto'
import { mkdtempSync, readFileSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Locator, Page } from '@playwright/test'
import { toPhoto } from '../support/pictures/photo.ts'
import { dropOn } from './support/arriving.ts'
import { violationsInBoth } from './support/axe.ts'
import { beginProject, composer, entries, entryCount, undoButton, writeEntry } from './support/panes.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'

const sha256Of = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex')
const shots = process.env.SHOTS_DIR

async function shoot(page: Page, name: string): Promise<void> {
  if (!shots) return
  for (const theme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme: theme })
    await page.screenshot({ path: join(shots, `${name}-${theme}.png`) })
  }
}

/** Everything in one table of the open lab's database; bytes as base64. */
function readTable(page: Page, table: string): Promise<readonly Record<string, string>[]> {
  return page.evaluate(async (table) => {
    const request = <T>(one: IDBRequest<T>): Promise<T> =>
      new Promise((resolve, reject) => {
        one.onsuccess = () => resolve(one.result)
        one.onerror = () => reject(new Error(String(one.error)))
      })
    const all = await indexedDB.databases()
    const db = await request(indexedDB.open(all.find((one) => one.name?.startsWith('stillroom-lab-'))!.name!))
    const records = (await request(db.transaction(table).objectStore(table).getAll())) as Record<
      string,
      unknown
    >[]
    db.close()
    return records.map((record) => {
      const { bytes } = record
      if (!(bytes instanceof Uint8Array)) return record as Record<string, string>
      return {
        ...record,
        bytes: btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join('')),
      }
    })
  }, table)
}

const pictures = (where: Page | Locator): Locator => where.locator('.st-picture')
/** Pixels across that the page has read of a picture; 0 while it shows none. */
const widthOf = (picture: Locator): Promise<number> =>
  picture.locator('img').evaluate((image) => (image as HTMLImageElement).naturalWidth)

test('a picture from the clipboard is kept at once, described where it stands, opened large and saved', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the rack')
  await program.shell!.evaluate(
    ({ clipboard, nativeImage }, photo) => {
      const older = clipboard as unknown as { writeImage(image: unknown): void }
      older.writeImage(nativeImage.createFromBuffer(Buffer.from(photo, 'base64')))
    },
    Buffer.from(toPhoto({})).toString('base64'),
  )
  await composer(page).click()
  await page.keyboard.insertText('The dome: ')
  await page.keyboard.press('Control+v')
  await expect(composer(page).locator('.st-picture-chip img')).toBeVisible()
  expect(await readTable(page, 'blobs')).toHaveLength(1)
  await page.keyboard.insertText('Dome seen from the gate')
  await shoot(page, 'composer')
  // Nothing was written yet: the draft and the bytes outlive a crash.
  await expect.poll(async () => JSON.stringify(await readTable(page, 'drafts'))).toContain('Dome seen from')
  await program.killAndRestart()
  const again = program.page
  await expect(composer(again).locator('.st-picture-chip img')).toBeVisible()
  await composer(again).click()
  await again.keyboard.press('Control+Enter')
  const picture = pictures(entries(again).last())
  await expect(picture).toContainText('Dome seen from the gate')
  await expect.poll(() => widthOf(picture)).toBe(240)
  await shoot(again, 'entry')
  const open = picture.getByRole('button', { name: 'Dome seen from the gate: open large' })
  await open.focus()
  await again.keyboard.press('Enter')
  const large = again.getByRole('dialog', { name: 'Dome seen from the gate' })
  await expect(large).toBeVisible()
  await large.getByRole('button', { name: '100 %' }).click()
  await expect.poll(() => large.locator('img').evaluate(({ clientWidth }) => clientWidth)).toBe(240)
  await shoot(again, 'large')
  const [blob] = await readTable(again, 'blobs')
  const path = await catchSavedFile(program, () =>
    large.getByRole('button', { name: 'Save picture' }).click(),
  )
  expect(path).toMatch(/Dome seen from the gate\.png$/)
  expect(sha256Of(readFileSync(path))).toBe(blob!['sha256'])
  await large
    .getByRole('img')
    .press('Escape')
    .catch(() => again.keyboard.press('Escape'))
  await expect(large).toHaveCount(0)
  await expect(open).toBeFocused()
  // It covers nothing that is gone to: the key of the composer closes it.
  await open.click()
  await expect(large).toBeVisible()
  await again.keyboard.press('Alt+3')
  await expect(large).toHaveCount(0)
  await expect(composer(again)).toBeFocused()
  expect(program.complaints).toEqual([])
})

test('a picture is described in its large view, as an amendment with its undo, and nothing typed there is lost', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the rack')
  for (const name of ['dome.jpg', 'vane.jpg']) {
    const bytes = toPhoto({ make: name })
    await dropOn(composer(page), { files: [{ name, bytes, type: 'image/jpeg' }] })
    await expect(composer(page).locator('.st-picture-chip img')).toBeVisible()
    await composer(page).click()
    await page.keyboard.press('Control+Enter')
    await expect(composer(page).locator('.st-picture-chip')).toHaveCount(0)
  }
  await expect(pictures(entries(page))).toHaveCount(2)
  const wordsOf = (n: number): Locator => entries(page).nth(n).locator('.st-picture-words')
  await pictures(entries(page).first())
    .getByRole('button', { name: /open large/ })
    .focus()
  await page.keyboard.press('Enter')
  const large = page.locator('.st-picture-large')
  const field = large.getByLabel(/^Description/)
  await expect(field).toHaveValue('')
  await field.focus()
  await page.keyboard.insertText('The dome [from the gate]')
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('Enter')
  await expect(wordsOf(0)).toHaveText('The dome [from the gate]')
  await expect(large.getByRole('heading', { name: 'The dome [from the gate]' })).toBeVisible()
  expect(await violationsInBoth(page)).toEqual([])
  await shoot(page, 'described')
  // Going on keeps what was typed; so does closing.
  await large.getByRole('button', { name: 'Next' }).click()
  await field.fill('The vane')
  await large.getByRole('button', { name: 'Previous' }).click()
  await expect(wordsOf(1)).toHaveText('The vane')
  await expect(field).toHaveValue('The dome [from the gate]')
  await field.fill('The dome, open')
  await field.press('Escape')
  await expect(large).toHaveCount(0)
  await expect(wordsOf(0)).toHaveText('The dome, open')
  await expect(
    entries(page)
      .first()
      .getByRole('button', { name: /^Amended/ }),
  ).toBeVisible()
  await undoButton(page).click()
  await expect(wordsOf(0)).toHaveText('The dome [from the gate]')
  expect(program.complaints).toEqual([])
})

test('a picture that is dropped goes into the text without its place; what cannot be shown is refused by name', async ({
  program,
}) => {
  const { page } = program
  await beginProject(page, 'Move the rack')
  const photo = toPhoto({
    taken: '2026:11:24 21:05:09',
    make: 'Meridian',
    where: [47.5, 11.25],
    orientation: 6,
  })
  await dropOn(composer(page), { files: [{ name: 'dome.jpg', bytes: photo, type: 'image/jpeg' }] })
  await expect(composer(page).locator('.st-picture-chip img')).toBeVisible()
  const [blob] = await readTable(page, 'blobs')
  const kept = Buffer.from(blob!['bytes']!, 'base64')
  expect(kept.toString('latin1')).not.toContain('Meridian')
  // The file's own digest, and still to be turned: it is shown upright, 180 wide.
  expect(sha256Of(kept)).toBe(blob!['sha256'])
  await page.keyboard.press('Control+Enter')
  const picture = pictures(entries(page).last())
  await expect(picture).toContainText('No description yet')
  await expect.poll(() => widthOf(picture)).toBe(180)
  const heic = Buffer.from('\0\0\0\u0018ftypheic\0\0\0\0mif1heic', 'latin1')
  await dropOn(composer(page), { files: [{ name: 'IMG_7.HEIC', bytes: heic, type: 'image/heic' }] })
  await expect(page.locator('.st-notices')).toContainText('“IMG_7.HEIC” is a HEIC picture')
  await dropOn(composer(page), { files: [{ name: 'a.png', bytes: Buffer.from('none'), type: 'image/png' }] })
  await expect(page.locator('.st-notices')).toContainText('“a.png” is no PNG, JPEG, GIF or WebP picture')
  expect(await readTable(page, 'blobs')).toHaveLength(1)
  expect(program.complaints).toEqual([])
})

test('twenty photos of a phone whose clock was off stand at the times at which they were taken, by one act', async ({
  program,
}) => {
  test.setTimeout(120_000)
  const { page } = program
  await beginProject(page, 'Move the rack')
  await writeEntry(page, 'All is mounted.', 3)
  const folder = mkdtempSync(join(tmpdir(), 'photos-'))
  const first = Date.UTC(2026, 10, 24, 20, 5, 9)
  // The clock of the phone, an hour and five seconds ahead, at UTC+01:00: every seven minutes, newest first.
  const taken = Array.from({ length: 19 }, (_, at) => first + (18 - at) * 7 * 60_000)
  const paths = taken.map((ms, at) => {
    const shown = new Date(ms + 3_600_000 + 3_605_000).toISOString()
    const bytes = toPhoto({
      taken: `${shown.slice(0, 10).replaceAll('-', ':')} ${shown.slice(11, 19)}`,
      offset: '+01:00',
      make: 'Meridian',
      model: 'Meridian P4',
      where: [47.5, 11.25],
      shade: at,
    })
    const path = join(folder, `IMG_${String(1000 + at)}.jpg`)
    writeFileSync(path, bytes)
    return path
  })
  // One came without its data; its file says when it was written.
  const bare = join(folder, 'copied.jpg')
  const written = new Date('2026-11-24T19:00:00Z')
  writeFileSync(bare, toPhoto({ shade: 30 }))
  utimesSync(bare, written, written)
  await page.getByRole('button', { name: 'Add photos…' }).click()
  const panel = page.getByRole('dialog', { name: 'Photos' })
  await panel.locator('input[type=file]').setInputFiles([...paths, bare])
  await expect(panel.locator('.st-photo')).toHaveCount(20)
  await expect(panel.locator('.st-photo').first()).toContainText('time by the file')
  await expect(panel).toContainText('19 say where')
  await shoot(page, 'photos')
  const clock = panel.getByRole('region', { name: 'Clock of Meridian P4' })
  await clock.getByRole('button', { name: 'True time of one photo…' }).click()
  await clock.getByLabel('Photo', { exact: true }).selectOption('IMG_1018.jpg')
  await clock.getByLabel('True day').fill('2026-11-24')
  await clock.getByLabel('True time', { exact: true }).fill('21:05:09')
  await shoot(page, 'clock')
  await clock.getByRole('button', { name: 'Set the clock right' }).click()
  await expect(clock).toContainText('its clock was 1 h 5 s ahead')
  await panel.getByLabel('What is to be seen on IMG_1018.jpg').fill('The empty rack')
  await panel.getByRole('button', { name: 'Add 20 entries' }).click()
  await expect(panel).toHaveCount(0)
  await expect(entryCount(page)).toHaveText('21')
  const happened = async (of: Page): Promise<string[]> =>
    (await readTable(of, 'entries')).flatMap(({ happened }) => (happened ? [happened] : []))
  const expected = [written.getTime(), ...[...taken].reverse()]
  expect((await happened(page)).map((moment) => Date.parse(moment))).toEqual(expected)
  expect((await happened(page)).slice(1).every((moment) => moment.endsWith('+01:00'))).toBe(true)
  const blobs = await readTable(page, 'blobs')
  expect(blobs).toHaveLength(20)
  for (const { bytes } of blobs)
    expect(Buffer.from(bytes!, 'base64').toString('latin1')).not.toMatch(/Meridian|Exif/)
  await program.restart()
  const again = program.page
  await expect(entryCount(again)).toHaveText('21')
  // The journal stands in the order in which things happened; what was written first happened last.
  await expect(entries(again).last()).toContainText('All is mounted.')
  const shown = pictures(again).last()
  await shown.scrollIntoViewIfNeeded()
  await expect.poll(() => widthOf(shown)).toBe(240)
  await shoot(again, 'journal')
  // Through all of them, large.
  await shown.getByRole('button').click()
  const large = again.getByRole('dialog', { name: 'No description yet' })
  await expect(large).toContainText('Picture 20 of 20')
  for (let at = 0; at < 18; at += 1) await again.keyboard.press('ArrowLeft')
  await expect(again.getByRole('dialog', { name: 'The empty rack' })).toContainText('Picture 2 of 20')
  await shoot(again, 'large-of-many')
  await again.keyboard.press('Escape')
  // The clock is known now.
  await dropOn(composer(again), {
    files: paths.slice(0, 2).map((path) => ({ name: path, bytes: readFileSync(path), type: 'image/jpeg' })),
  })
  await expect(again.getByRole('region', { name: 'Clock of Meridian P4' })).toContainText('1 h 5 s ahead')
  await again.keyboard.press('Escape')
  await undoButton(again).click()
  await expect.poll(async () => (await readTable(again, 'withdrawals')).length).toBe(20)
  expect(await readTable(again, 'entries')).toHaveLength(21)
  await shoot(again, 'taken-back')
  expect(program.complaints).toEqual([])
})
