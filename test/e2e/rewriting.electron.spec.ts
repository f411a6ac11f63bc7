/** After striking out, the store is rewritten: no file of the profile holds the secret, and no crash on the way loses anything. */
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import { searchFolder } from '../support/leveldb/search.ts'
import { launch, type Launched } from './support/launch.ts'
import { beginProject, composer, entryWith, writeEntry } from './support/panes.ts'
import { expect, test } from './support/test.ts'
import { dumpStore, isHeld, killAllOf, pidsOf, type StoreDump } from './support/wholeStore.ts'

const SECRET = 'Quillon7Marten3Sprocket'
/** Stands only in pieces in a packed block: what repeats is written as a copy of what stood before. */
const KNOWN = 'anemometerspindlebearing'
const PIECES = `${KNOWN.slice(0, 10)} ${KNOWN.slice(10)} ${KNOWN}`

async function openSeal(page: Page) {
  await page.getByRole('button', { name: 'More for the journal' }).click()
  await page.getByRole('menuitem', { name: /The seal/ }).click()
  return page.getByRole('dialog', { name: 'The seal' })
}

async function strikeSecret(page: Page): Promise<void> {
  const entry = entryWith(page, SECRET)
  await entry.getByText(SECRET).first().dblclick()
  await entry.getByRole('button', { name: 'More for this entry' }).click()
  await page.getByRole('menuitem', { name: /Strike out/ }).click()
  const dialog = page.getByRole('dialog', { name: 'Strike out' })
  await expect(dialog.locator('pre')).toHaveText(SECRET)
  await dialog.getByRole('button', { name: 'Strike out…' }).click()
  await dialog.getByRole('button', { name: 'Yes, strike it out for good' }).click()
  await expect(dialog).toHaveCount(0)
}

/** Presses what begins to rewrite. The program ends and starts again by itself, out of the test's hands. */
async function beginRewriting(page: Page): Promise<void> {
  const panel = await openSeal(page)
  await panel.getByRole('button', { name: 'Rewrite the store…' }).click()
  await panel.getByRole('button', { name: 'Yes, rewrite it now' }).click()
}

const phaseOf = (profile: string): string => {
  try {
    const text = readFileSync(join(profile, 'rewriting/state.json'), 'utf8')
    return (JSON.parse(text) as { phase: string }).phase
  } catch {
    return existsSync(join(profile, 'rewriting')) ? 'between' : 'none'
  }
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => void setTimeout(resolve, ms))

async function until(what: string, is: () => boolean, ms = 60_000, every = 20): Promise<void> {
  for (const end = Date.now() + ms; !is(); await pause(every))
    if (Date.now() > end) throw new Error(`this did not come: ${what}`)
}

/** Waits until the program that started itself again is done, and ends it. */
async function waitForRewritten(profile: string): Promise<void> {
  await until('the store to be written out', () => phaseOf(profile) !== 'none')
  await until('the store to be rewritten', () => phaseOf(profile) === 'none' && isHeld(profile))
}

/** Kills all processes of a profile; one that is just being started anew, too. */
async function endAll(profile: string): Promise<void> {
  let quietSince = Date.now()
  await until('the end of all processes', () => {
    if (pidsOf(profile).length > 0) quietSince = Date.now()
    killAllOf(profile)
    return Date.now() - quietSince > 150
  })
}

/** A text that does not shrink when it is packed, the same each time. */
function noise(length: number, seed: number): string {
  let state = seed
  const next = (): number => (state = (state * 48271) % 2147483647)
  return Array.from({ length }, () => String.fromCharCode(33 + (next() % 90))).join('')
}

/** Enough records beside the secret that the database moves it from its log into a packed table. */
async function fillDatabase(page: Page): Promise<void> {
  const texts = [PIECES, ...Array.from({ length: 240 }, (_, i) => noise(30_000, i + 1))]
  await page.evaluate(async (values) => {
    const { name = '' } = (await indexedDB.databases()).find((one) => one.name?.includes('-lab-')) ?? {}
    const database = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open(name)
      request.onsuccess = () => resolve(request.result)
    })
    for (const [i, value] of values.entries()) {
      const transaction = database.transaction('settings', 'readwrite')
      transaction.objectStore('settings').put({ key: i === 0 ? 'pieces' : `noise ${i}`, value })
      await new Promise((resolve) => (transaction.oncomplete = resolve))
    }
    database.close()
  }, texts)
}

test('no file of the profile holds a struck secret once the store was rewritten, and every record is as it was', async ({
  start,
}) => {
  const profile = mkdtempSync(join(tmpdir(), 'stillroom-rewriting-'))
  const first = await start({ profile })
  await beginProject(first.page, 'Straighten the mast')
  await writeEntry(first.page, `The login is ${SECRET} on the gate`)
  await composer(first.page).click()
  await first.page.keyboard.type('What is being typed')
  await fillDatabase(first.page)
  await first.restart()
  await expect(entryWith(first.page, SECRET)).toBeVisible()

  // The reader finds both, one of them only in a packed block.
  const known = searchFolder(profile, KNOWN)
  expect(known.packedBlocks).toBeGreaterThan(0)
  expect(known.hits.map(({ file }) => file).join()).toContain('.ldb')
  expect(
    searchFolder(profile, SECRET)
      .hits.map(({ file }) => file)
      .join(),
  ).toContain('.ldb')
  const packedOnly = known.hits.filter(({ how }) => how === 'unpacked')
  expect(packedOnly.length, 'a text that only unpacking shows').toBeGreaterThan(0)

  await strikeSecret(first.page)
  await expect(first.page.locator('.st-notices')).toContainText('Rewrite the store…')
  await first.restart()
  await expect(first.page.locator('body')).not.toContainText(SECRET)
  const left = searchFolder(profile, SECRET)
  expect(left.hits.length, 'the bytes are still on the disk').toBeGreaterThan(0)

  const before = await dumpStore(first.page)
  const started = first.page
  await beginRewriting(started)
  await waitForRewritten(profile)
  await pause(1500)
  await endAll(profile)
  expect(searchFolder(profile, SECRET).hits).toEqual([])
  expect(searchFolder(profile, KNOWN).hits.length, 'the rest is there').toBeGreaterThan(0)

  const second = await start({ profile })
  await expect(entryWith(second.page, 'The login is')).toBeVisible()
  await expect(composer(second.page)).toContainText('What is being typed')
  expect(await dumpStore(second.page)).toEqual(before)
  const panel = await openSeal(second.page)
  await panel.getByRole('button', { name: 'Check the seal' }).click()
  await expect(panel.getByRole('status')).toContainText('seals hold')
  expect(second.complaints).toEqual([])
  await second.close()
  expect(searchFolder(profile, SECRET).hits).toEqual([])
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
})

/** A profile with a small lab in which something was struck out and something is being typed. */
async function prepare(profile: string): Promise<StoreDump> {
  const program = await launch('electron', { profile })
  await beginProject(program.page, 'Oil the turnbuckles')
  await writeEntry(program.page, `The login is ${SECRET} on the gate`)
  await writeEntry(program.page, 'The upper turnbuckle is stuck')
  await strikeSecret(program.page)
  await composer(program.page).click()
  await program.page.keyboard.type('What is being typed')
  await program.restart()
  await expect(composer(program.page)).toContainText('What is being typed')
  const dump = await dumpStore(program.page)
  await program.close()
  return dump
}

interface Kill {
  readonly name: string
  /** Waits for the moment. */
  readonly moment: (profile: string) => Promise<unknown>
}

/** Kills the program within the act, starts it again and looks. @returns in which phase it was killed */
async function killOnce(template: string, before: StoreDump, { name, moment }: Kill): Promise<string> {
  const profile = mkdtempSync(join(tmpdir(), 'stillroom-killed-'))
  cpSync(template, profile, { recursive: true })
  let program: Launched | null = await launch('electron', { profile })
  try {
    await expect(composer(program.page)).toContainText('What is being typed')
    await beginRewriting(program.page)
    await moment(profile)
    await endAll(profile)
    const phase = phaseOf(profile)
    await program.close().catch(() => undefined)
    program = await launch('electron', { profile })
    await expect(composer(program.page), `${name}, killed while ${phase}`).toContainText(
      'What is being typed',
    )
    await expect(entryWith(program.page, 'turnbuckle is stuck')).toBeVisible()
    expect(await dumpStore(program.page), `${name}, killed while ${phase}`).toEqual(before)
    expect(existsSync(join(profile, 'rewriting')), name).toBe(false)
    if (phase === 'cleared') expect(searchFolder(profile, SECRET).hits, name).toEqual([])
    expect(program.complaints).toEqual([])
    return phase
  } finally {
    await program?.close().catch(() => undefined)
    await endAll(profile)
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
  }
}

/** How long the whole act takes, in milliseconds. */
async function measure(template: string): Promise<number> {
  const profile = mkdtempSync(join(tmpdir(), 'stillroom-measured-'))
  cpSync(template, profile, { recursive: true })
  const program = await launch('electron', { profile })
  await expect(composer(program.page)).toContainText('What is being typed')
  await beginRewriting(program.page)
  const begun = Date.now()
  await waitForRewritten(profile)
  const took = Date.now() - begun
  await endAll(profile)
  await program.close().catch(() => undefined)
  rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
  return took
}

test('killed at twenty moments of rewriting and at each step from one phase to the next, nothing is lost', async () => {
  test.setTimeout(600_000)
  const template = mkdtempSync(join(tmpdir(), 'stillroom-template-'))
  const before = await prepare(template)
  const length = await measure(template)
  let state = 20260503
  const drawn = Array.from({ length: 20 }, () => (state = (state * 48271) % 2147483647) / 2147483647)
  const kills: Kill[] = [
    ...['writing', 'written', 'cleared'].map((phase) => ({
      name: `as soon as it is ${phase}`,
      moment: (profile: string) => until(phase, () => phaseOf(profile) === phase, 60_000, 1),
    })),
    {
      name: 'as soon as it is read back',
      moment: (profile) =>
        until('read back', () => ['cleared', 'read back'].includes(phaseOf(profile)), 60_000, 1).then(() =>
          until('read back', () => ['read back', 'none'].includes(phaseOf(profile)), 60_000, 1),
        ),
    },
    ...drawn.map((share) => ({
      name: `after ${Math.round(share * length)} of ${length} ms`,
      moment: () => pause(share * length),
    })),
  ]
  const phases: string[] = []
  for (const kill of kills) phases.push(await killOnce(template, before, kill))
  console.log(`killed while: ${phases.join(', ')}`)
  // The moments did fall into the act, not only before it or behind it.
  expect(new Set(phases).size).toBeGreaterThanOrEqual(3)
  rmSync(template, { recursive: true, force: true, maxRetries: 5 })
})
