/** Putting sources in order: by keys alone, by presses alone, when some are the same, and when there are thousands. */
import type { Locator, Page } from '@playwright/test'
import { dropOn } from './support/arriving.ts'
import {
  beginProject,
  chooseInMenu,
  composer,
  dismissNotices,
  entryWith,
  openSample,
  pane,
  reader,
  sourceRow,
  undoButton,
} from './support/panes.ts'
import { thread } from './support/sampleThread.ts'
import { expect, test } from './support/test.ts'
import { dragWords } from './support/words.ts'

const rows = (page: Page): Locator => page.locator('.st-source')
const titles = (page: Page): Promise<string[]> =>
  page.locator('.st-source-title').evaluateAll((all) => all.map((one) => one.lastChild!.textContent!))
const sieve = (page: Page): Locator => page.getByRole('region', { name: 'Filter the sources' })
const chip = (page: Page, word: string): Locator =>
  sieve(page).getByRole('button', { name: new RegExp(`^${word} \\d+$`) })
const setChips = (page: Page): Locator =>
  page.getByRole('list', { name: 'Filters that are set' }).getByRole('button')
const bulk = (page: Page): Locator => page.getByRole('region', { name: 'With all that are selected' })
const liOf = (page: Page, title: string): Locator => rows(page).filter({ hasText: title })
const menuOf = (page: Page, title: string): Locator =>
  page.getByRole('button', { name: `Carry or change “${title}”` })
const notice = (page: Page, words: string): Locator => page.locator('.st-notice', { hasText: words })
/** How many the list holds; only those near the screen are drawn. */
const shows = (page: Page, count: number) =>
  expect(rows(page).first()).toHaveAttribute('aria-setsize', String(count))

const timers = 'Timers in place of cron'
const rsync = 'rsync options for whole trees'
const nightly = 'What a nightly copy must survive'

test('by keys alone: select, tag, file, pin, set aside and filter, undo it, and find it so after a restart', async ({
  program,
}) => {
  const { page } = program
  const press = async (...keys: string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key)
  }
  /** Tab until the thing is reached. */
  const tabTo = async (wanted: Locator, key = 'Tab'): Promise<void> => {
    for (let at = 0; at < 40; at++) {
      if (await wanted.evaluate((element) => element === document.activeElement)) return
      await press(key)
    }
    throw new Error(`never reached: ${String(wanted)}`)
  }
  await openSample(page)
  await shows(page, 10)
  const field = page.getByLabel('Filter sources by words')
  await field.focus()
  await press('ArrowDown')
  await expect(sourceRow(page, timers)).toBeFocused()

  // Over all of the list by keys: to the ends, by pages, by the beginning of a title.
  await press('End')
  await expect(sourceRow(page, 'House rules of the rack')).toBeFocused()
  await press('Home')
  await page.keyboard.type('rs')
  await expect(sourceRow(page, rsync)).toBeFocused()
  await press('PageUp')
  await expect(sourceRow(page, timers)).toBeFocused()

  // A stretch of three, one tag for them all by one undo.
  await press('ArrowDown', 'Space', 'Shift+ArrowDown', 'Shift+ArrowDown')
  await expect(bulk(page).getByRole('status')).toHaveText('3 selected')
  await expect(sourceRow(page, rsync)).toHaveAttribute('aria-pressed', 'true')
  await tabTo(bulk(page).getByRole('button', { name: 'Tag…' }))
  await press('Enter')
  await expect(page.getByLabel('Tag for all that are selected')).toBeFocused()
  await page.keyboard.type('raid')
  await press('Enter')
  await expect(notice(page, '3 sources tagged “raid”.')).toBeVisible()
  await expect(page.locator('.st-source-more', { hasText: 'raid' })).toHaveCount(3)
  await tabTo(bulk(page).getByRole('button', { name: 'Done' }))
  await press('Control+z')
  await expect(page.locator('.st-source-more', { hasText: 'raid' })).toHaveCount(0)
  await press('Control+Shift+z')
  await expect(page.locator('.st-source-more', { hasText: 'raid' })).toHaveCount(3)

  // A folder within a folder, for the same three.
  await tabTo(bulk(page).getByRole('button', { name: 'Folder…' }))
  await press('Enter')
  await tabTo(bulk(page).getByRole('button', { name: 'New folder' }), 'Shift+Tab')
  await press('Enter')
  await page.keyboard.type('Rack')
  await press('Enter')
  const rack = bulk(page).getByRole('treeitem', { name: /^Rack/ })
  await expect(rack).toBeFocused()
  await expect(rack).toHaveAttribute('aria-checked', 'true')
  await press('Tab')
  await expect(bulk(page).getByRole('button', { name: 'More for the folder “Rack”' })).toBeFocused()
  await press('Enter')
  await expect(page.getByRole('menuitem', { name: 'New folder in it…' })).toBeFocused()
  await press('Enter')
  await expect(page.getByLabel('Name of the new folder in “Rack”')).toBeFocused()
  await page.keyboard.type('Disks')
  await press('Enter')
  const disks = bulk(page).getByRole('treeitem', { name: /^Disks/ })
  await expect(disks).toBeFocused()
  await expect(disks).toHaveAttribute('aria-level', '2')
  // Named anew and closed again, as a tree is.
  await press('F2')
  await page.keyboard.press('Control+a')
  await page.keyboard.type('Rack shelf')
  await press('Enter')
  await expect(bulk(page).getByRole('treeitem', { name: /^Rack shelf/ })).toBeFocused()
  await press('ArrowLeft')
  await expect(rack.first()).toBeFocused()
  await press('ArrowLeft')
  await expect(bulk(page).getByRole('treeitem')).toHaveCount(1)
  await press('Escape')
  await expect(bulk(page).getByRole('tree')).toHaveCount(0)

  // Pin all three; they come to the head.
  await tabTo(bulk(page).getByRole('button', { name: 'Pin', exact: true }))
  await press('Enter')
  await expect.poll(async () => (await titles(page)).slice(0, 3)).toContain(rsync)
  await tabTo(bulk(page).getByRole('button', { name: 'Done' }), 'Shift+Tab')
  await press('Enter')
  await expect(bulk(page)).toHaveCount(0)

  // One is set aside by its menu, and the row that takes its place has the keyboard.
  await page.keyboard.type('timers')
  await expect(sourceRow(page, timers)).toBeFocused()
  await tabTo(menuOf(page, timers))
  await press('Enter')
  await expect(page.locator('[role="menuitem"]:focus')).toHaveCount(1)
  await page.keyboard.type('set')
  await press('Enter')
  await shows(page, 9)
  await expect(page.locator('.st-source-open:focus')).toHaveCount(1)

  // Filter by each sort of chip, and take it off by a key.
  await tabTo(page.getByRole('button', { name: 'Filter', exact: true }), 'Shift+Tab')
  await press('Enter')
  const tryChip = async (wanted: Locator, count: number): Promise<void> => {
    await tabTo(wanted)
    await press('Enter')
    await shows(page, count)
    await expect(page.locator('.st-source-found')).toContainText(`${count} of `)
    await setChips(page).first().focus()
    await press('Delete')
    await expect(setChips(page)).toHaveCount(0)
    await expect(field).toBeFocused()
  }
  await tryChip(chip(page, 'raid'), 3)
  await tryChip(sieve(page).getByRole('treeitem', { name: /^Rack 3/ }), 3)
  await tryChip(chip(page, 'Page'), 2)
  await tryChip(chip(page, 'Pinned'), 3)
  await tryChip(chip(page, 'Set aside'), 1)
  await tryChip(chip(page, thread.project), 9)
  await tabTo(sieve(page).getByLabel('From'))
  await page.keyboard.type('10162026')
  await shows(page, 4)
  await setChips(page).first().focus()
  await press('Backspace')
  await shows(page, 9)

  // What is left when the program ends is there when it begins again.
  await field.focus()
  await page.keyboard.type('RACK')
  await tabTo(page.getByRole('button', { name: /^Sort: / }))
  await press('Enter')
  await expect(page.locator('[role="menuitemradio"]:focus')).toHaveCount(1)
  await page.keyboard.type('by t')
  await press('Enter')
  const before = await titles(page)
  expect(before.length).toBeGreaterThan(2)
  await page.waitForTimeout(300)
  await program.restart()
  const again = program.page
  await expect(again.getByLabel('Filter sources by words')).toHaveValue('RACK')
  await expect.poll(() => titles(again)).toEqual(before)
  await again.getByLabel('Filter sources by words').press('Escape')
  await shows(again, 9)
  await expect(again.locator('.st-source-pin')).toHaveCount(3)
  expect(program.complaints).toEqual([])
})

test('by presses alone: select, tag, file, move and remove folders, use a source of another project, and filter', async ({
  program,
}) => {
  const { page } = program
  const sources = pane(page, 'Sources')
  await openSample(page)
  await shows(page, 10)

  // Several by their boxes.
  await sources.getByRole('button', { name: 'Select several' }).click()
  await sourceRow(page, timers).click()
  await sourceRow(page, nightly).click()
  await sourceRow(page, rsync).click({ modifiers: ['Shift'] })
  await expect(bulk(page).getByRole('status')).toHaveText('3 selected')
  await bulk(page).getByRole('button', { name: 'Tag…' }).click()
  await page.getByLabel('Tag for all that are selected').fill('backups')
  await bulk(page).getByRole('button', { name: 'Add', exact: true }).click()
  await expect(bulk(page).getByRole('button', { name: 'backups 3' })).toHaveAttribute('aria-pressed', 'true')
  // One of them lets go: the tag is then on some only, and a press gives it to all again.
  await sourceRow(page, 'A boot menu').click()
  await expect(bulk(page).getByRole('button', { name: 'backups 3' })).toHaveAttribute('aria-pressed', 'mixed')
  await bulk(page).getByRole('button', { name: 'backups 3' }).click()
  await expect(bulk(page).getByRole('button', { name: 'backups 4' })).toHaveAttribute('aria-pressed', 'true')
  await bulk(page).getByRole('button', { name: 'backups 4' }).click()
  await expect(notice(page, 'The tag “backups” was taken off 4 sources.')).toBeVisible()
  await dismissNotices(page)
  await undoButton(page).click()
  await expect(page.locator('.st-source-more', { hasText: 'backups' })).toHaveCount(4)
  await dismissNotices(page)
  await bulk(page).getByRole('button', { name: 'Set aside' }).click()
  await shows(page, 6)
  await bulk(page).getByRole('button', { name: 'Done' }).click()

  // What is set aside is shown where it is asked for, and brought back from there.
  await sources.getByRole('button', { name: 'Filter', exact: true }).click()
  await chip(page, 'Set aside').click()
  await shows(page, 4)
  await sources.getByRole('button', { name: 'Select several' }).click()
  await bulk(page).getByRole('button', { name: 'All' }).click()
  await bulk(page).getByRole('button', { name: 'Bring back' }).click()
  await expect(page.getByText('No source is like this.')).toBeVisible()
  await page.locator('.st-empty').getByRole('button', { name: 'Show all' }).click()
  await shows(page, 10)
  await bulk(page).getByRole('button', { name: 'Done' }).click()

  // A tag of a row narrows the list; its chip widens it again.
  await liOf(page, nightly)
    .getByRole('button', { name: /^backups/ })
    .click()
  await shows(page, 4)
  await setChips(page).getByText('backups').click()
  await shows(page, 10)

  // Folders: made, filed into by a drag and by the row's menu, moved, removed.
  const makeFolder = async (name: string): Promise<void> => {
    await sieve(page).getByRole('button', { name: 'New folder' }).click()
    await page.getByLabel('Name of the new folder').fill(name)
    await sieve(page).getByRole('button', { name: 'Make it' }).click()
    await expect(sieve(page).getByRole('treeitem', { name: new RegExp(`^${name}`) })).toBeVisible()
  }
  await makeFolder('Copies')
  await sieve(page).getByRole('button', { name: 'New folder' }).click()
  await page.getByLabel('Name of the new folder').fill(' Copies ')
  await sieve(page).getByRole('button', { name: 'Make it' }).click()
  await expect(page.getByText('There is a folder “Copies” here already.', { exact: false })).toBeVisible()
  await sieve(page).getByRole('button', { name: 'Leave it' }).click()
  await makeFolder('Machines')
  const copies = sieve(page).getByRole('treeitem', { name: /^Copies/ })
  await liOf(page, timers).dragTo(copies, { sourcePosition: { x: 60, y: 12 } })
  await expect(sieve(page).getByRole('treeitem', { name: /^Copies 1/ })).toBeVisible()
  await chooseInMenu(page, menuOf(page, timers), 'Folders…')
  await liOf(page, timers)
    .getByRole('treeitem', { name: /^Machines/ })
    .click()
  await expect(liOf(page, timers).getByRole('button', { name: '2 folders' })).toBeVisible()
  await liOf(page, timers).getByRole('button', { name: 'Done' }).click()
  await chooseInMenu(
    page,
    sieve(page).getByRole('button', { name: 'More for the folder “Copies”' }),
    /^Move…/,
  )
  await page.getByRole('menuitem', { name: 'Machines', exact: true }).click()
  await expect(copies).toHaveAttribute('aria-level', '2')
  // Not into what lies in it.
  await chooseInMenu(
    page,
    sieve(page).getByRole('button', { name: 'More for the folder “Machines”' }),
    /^Move…/,
  )
  await expect(page.getByRole('menuitem', { name: 'Machines / Copies' })).toHaveAttribute(
    'aria-disabled',
    'true',
  )
  await page.keyboard.press('Escape')
  await sieve(page)
    .getByRole('treeitem', { name: /^Machines/ })
    .dragTo(copies)
  await expect(
    notice(page, '“Machines” was not moved: it cannot lie in a folder that lies in it.'),
  ).toBeVisible()
  await liOf(page, timers).getByRole('button', { name: '2 folders' }).click()
  await liOf(page, timers).getByRole('button', { name: 'Machines / Copies' }).click()
  await shows(page, 1)
  await dismissNotices(page)
  await chooseInMenu(
    page,
    sieve(page).getByRole('button', { name: 'More for the folder “Machines”' }),
    /Remove…/,
  )
  await expect(sieve(page)).toContainText(
    'Remove “Machines” and the 1 in it? The 1 source in it stays in the lab and in other folders.',
  )
  await sieve(page).getByRole('button', { name: 'Remove the folder' }).click()
  await expect(sieve(page).getByRole('treeitem')).toHaveCount(0)
  // The condition went with its folder.
  await shows(page, 10)
  await undoButton(page).click()
  await expect(sieve(page).getByRole('treeitem')).toHaveCount(2)
  await dismissNotices(page)

  // What other projects use: taken into this one and out again, one and several.
  await sieve(page).getByRole('button', { name: 'Done' }).click()
  await sources.getByRole('button', { name: /^All of the lab/ }).click()
  await shows(page, 17)
  const foreign = rows(page).filter({ has: page.locator('.st-source-where') })
  const title = (await foreign.first().locator('.st-source-title').innerText()).trim()
  await chooseInMenu(page, menuOf(page, title), 'Take into this project')
  await expect(sources.locator('.st-pane-count')).toContainText('11')
  await dismissNotices(page)
  await chooseInMenu(page, menuOf(page, title), 'Take out of this project')
  await expect(sources.locator('.st-pane-count')).toContainText('10')
  await dismissNotices(page)
  await sources.getByRole('button', { name: 'Select several' }).click()
  await foreign.first().locator('.st-source-open').click()
  await foreign.nth(1).locator('.st-source-open').click()
  await bulk(page).getByRole('button', { name: 'Into this project' }).click()
  await expect(notice(page, '2 sources taken into this project.')).toBeVisible()
  await expect(sources.locator('.st-pane-count')).toContainText('12')
  await notice(page, '2 sources taken into this project.').getByRole('button', { name: 'Undo' }).click()
  await expect(sources.locator('.st-pane-count')).toContainText('10')
  await bulk(page).getByRole('button', { name: 'Done' }).click()

  // Another name, author, date and remark; a wrong date is refused beside its field, and what is typed is kept.
  await sources.getByRole('button', { name: /^This project/ }).click()
  await chooseInMenu(page, menuOf(page, timers), 'Rename or change its address')
  const form = page.getByRole('form', { name: `Rename ${timers}` })
  await form.getByLabel('Date of the document').fill('May 2024')
  await form.getByLabel('Remark').fill('Read before the move.')
  await form.getByRole('button', { name: 'Save' }).click()
  await expect(form).toContainText('This is no date.')
  await form.getByLabel('Remark').press('Escape')
  await chooseInMenu(page, menuOf(page, timers), 'Rename or change its address')
  await expect(form.getByLabel('Remark')).toHaveValue('Read before the move.')
  await form.getByLabel('Date of the document').fill('2024-05')
  await form.getByRole('button', { name: 'Save' }).click()
  await expect(sourceRow(page, timers)).toContainText('dated May 2024')
  await page.getByLabel('Filter sources by words').fill('before the move')
  await shows(page, 1)
  expect(program.complaints).toEqual([])
})

test('sources that are the same are shown, merged without breaking a link, brought apart again, and kept apart', async ({
  program,
}) => {
  const { page } = program
  const sources = pane(page, 'Sources')
  await openSample(page)
  await shows(page, 10)
  // Two sources with words that were carried come to have one address.
  const merged = thread.source
  const kept = 'Signs of a failing memory card'
  await sourceRow(page, merged).click()
  await expect(reader(page)).toContainText(thread.sourceWords)
  await dragWords(page, reader(page), thread.sourceWords, () =>
    page.getByText('Entry in the journal: observation'),
  )
  const quoted = entryWith(page, thread.sourceWords)
  await expect(quoted.getByText(`from ${merged}`)).toBeVisible()
  await page.getByRole('button', { name: 'All sources' }).click()
  await dismissNotices(page)
  await chooseInMenu(page, menuOf(page, kept), 'Rename or change its address')
  await page.getByRole('form').getByLabel('Address').fill('https://logger.example.org/same')
  await page.keyboard.press('Enter')
  await chooseInMenu(page, menuOf(page, merged), 'Rename or change its address')
  await page
    .getByRole('form')
    .getByLabel('Address')
    .fill('http://LOGGER.example.org/same?utm_source=mail#top')
  await page.keyboard.press('Enter')
  await expect(liOf(page, merged).getByRole('button', { name: `Same address as “${kept}”` })).toBeVisible()

  await sources.getByRole('button', { name: 'Filter', exact: true }).click()
  await chip(page, 'Same as another').click()
  await shows(page, 2)
  await expect(page.locator('.st-source-group')).toContainText('2 sources: same address')
  await sieve(page).getByRole('button', { name: 'Done' }).click()
  await page.locator('.st-source-group').getByRole('button', { name: 'Merge…' }).click()
  const panel = page.getByRole('dialog', { name: 'Make 2 sources one' })
  await expect(panel.getByRole('row')).toHaveCount(3)
  // Nothing stands between the person and the journal.
  await page.keyboard.press('Alt+j')
  await expect(composer(page)).toBeFocused()
  await panel.getByRole('radio', { name: kept }).check()
  await panel.getByRole('button', { name: 'Merge' }).click()
  await expect(panel).toHaveCount(0)
  await expect(page.getByText('No source is like this.')).toBeVisible()
  await page.locator('.st-empty').getByRole('button', { name: 'Show all' }).click()
  await shows(page, 9)
  await expect(sourceRow(page, kept)).toContainText('2 captures')
  await expect(sourceRow(page, merged)).toHaveCount(0)
  await dismissNotices(page)

  // A link to the merged one leads to the words, at the one that was kept.
  await quoted.getByText(`from ${merged}`).click()
  await expect(page.locator('.st-reading-title')).toContainText(kept)
  await expect(page.locator('.st-reading .st-mark')).toHaveText([thread.sourceWords])
  await page.getByRole('button', { name: 'All sources' }).click()

  // Undo takes the merge back, redo makes it again, and the menu takes one out of it.
  await undoButton(page).click()
  await shows(page, 10)
  await page.locator('.st-topbar').getByRole('button', { name: /^Redo/ }).click()
  await shows(page, 9)
  await chooseInMenu(page, menuOf(page, kept), `Separate “${merged}” again`)
  await shows(page, 10)
  await dismissNotices(page)

  // Said to be different, they are not shown as the same any more, also after a restart.
  await liOf(page, merged)
    .getByRole('button', { name: `Same address as “${kept}”` })
    .click()
  await panel.getByRole('button', { name: 'Keep apart' }).click()
  await expect(page.locator('.st-chip--same')).toHaveCount(0)
  await page.waitForTimeout(300)
  await program.restart()
  await shows(program.page, 10)
  await expect(program.page.locator('.st-chip--same')).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('five thousand sources are walked by keys, found by words, and scrolled without losing frames', async ({
  program,
}) => {
  test.setTimeout(240_000)
  const { page } = program
  await beginProject(page, 'Read everything')
  const lines = Array.from({ length: 50 }, (_, folder) => {
    const links = Array.from({ length: 100 }, (_, at) => {
      const number = String(folder * 100 + at).padStart(4, '0')
      return `<DT><A HREF="https://docs.example.org/${number}" ADD_DATE="${1_700_000_000 + at}" TAGS="t${at % 20},all">Sheet ${number}</A>`
    })
    return `<DT><H3>Shelf ${folder}</H3><DL><p>${links.join('\n')}</DL><p>`
  })
  const bytes = new TextEncoder().encode(
    `<!DOCTYPE NETSCAPE-Bookmark-file-1><TITLE>Bookmarks</TITLE><H1>Bookmarks</H1><DL><p>${lines.join('\n')}</DL><p>`,
  )
  await dropOn(page.locator('.st-sources'), { files: [{ name: 'bookmarks.html', bytes, type: 'text/html' }] })
  await page.getByRole('button', { name: 'Add them all' }).click({ timeout: 60_000 })
  await expect(pane(page, 'Sources').locator('.st-pane-count')).toContainText('5000', { timeout: 120_000 })

  expect(await rows(page).count()).toBeLessThan(60)
  await rows(page).first().locator('.st-source-open').focus()
  await page.keyboard.press('End')
  const focused = page.locator('.st-source-open:focus')
  await expect(focused).toBeInViewport()
  await expect(page.locator('.st-source:focus-within')).toHaveAttribute('aria-posinset', '5000')
  await expect(page.locator('.st-source:focus-within')).toHaveAttribute('aria-setsize', '5000')
  await page.keyboard.press('Home')
  await page.keyboard.type('sheet 2500', { delay: 20 })
  await expect(focused).toBeInViewport()
  await page.keyboard.press('PageDown')
  await expect(focused).toBeInViewport()

  const field = page.getByLabel('Filter sources by words')
  await field.fill('sheet 4321')
  await shows(page, 1)
  await field.fill('')
  await page.getByRole('button', { name: 'Filter', exact: true }).click()
  await chip(page, 't7').click()
  await expect(page.locator('.st-source-found')).toContainText('250 of 5,000')
  await page.locator('.st-set-chips').getByRole('button', { name: 'Show all' }).click()
  await sieve(page).getByRole('button', { name: 'Done' }).click()

  // All of them by one key, tagged by one Change.
  await rows(page).first().locator('.st-source-open').focus()
  await page.keyboard.press('Control+a')
  await expect(bulk(page).getByRole('status')).toHaveText('5000 selected')
  await bulk(page).getByRole('button', { name: 'Tag…' }).click()
  await page.getByLabel('Tag for all that are selected').fill('read')
  await page.keyboard.press('Enter')
  await expect(notice(page, '5,000 sources tagged “read”.')).toBeVisible({ timeout: 60_000 })
  await bulk(page).getByRole('button', { name: 'Done' }).click()

  // Scrolling: how many frames are drawn, beside the same page at rest.
  const frames = await page.evaluate(async () => {
    const scroller = document.querySelector('.st-source-scroll')!
    const run = (move: (at: number) => void): Promise<number> =>
      new Promise((done) => {
        let count = 0
        const begun = performance.now()
        const next = (): void => {
          count += 1
          move(count)
          if (performance.now() - begun < 2000) requestAnimationFrame(next)
          else done(count)
        }
        requestAnimationFrame(next)
      })
    const rest = await run(() => undefined)
    const scrolling = await run((at) => (scroller.scrollTop = at * 120))
    return { rest, scrolling, drawn: document.querySelectorAll('.st-source').length }
  })
  console.log(`frames in 2 s: ${frames.rest} at rest, ${frames.scrolling} while scrolling`)
  expect(frames.drawn).toBeLessThan(60)
  expect(frames.scrolling).toBeGreaterThan(frames.rest / 4)
  expect(program.complaints).toEqual([])
})

test('the list comes back from reading to where it was left', async ({ program }) => {
  const { page } = program
  await openSample(page)
  await sourceRow(page, thread.source).click()
  await expect(reader(page)).toContainText(thread.sourceWords)
  await page.keyboard.press('Escape')
  await expect(sourceRow(page, thread.source)).toBeFocused()
  await expect(sourceRow(page, thread.source)).toBeInViewport()
  expect(program.complaints).toEqual([])
})
