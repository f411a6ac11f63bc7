/** Provenance leaves the program in four forms, of a procedure, a project and the lab, with a name only where one was given. */
import { readFileSync } from 'node:fs'
import type { Locator, Page } from '@playwright/test'
import { strFromU8, unzipSync } from 'fflate'
import { violationsOf } from '../support/prov/check.ts'
import { canonicalOfJsonLd, canonicalOfTurtle } from '../support/prov/rdf.ts'
import { readProvJson } from '../support/prov/read-json.ts'
import { readProvN } from '../support/prov/read-n.ts'
import { violationsInBoth } from './support/axe.ts'
import {
  addStep,
  beginProcedure,
  beginProject,
  carryEntry,
  chooseInMenu,
  openSample,
  pane,
  steps,
  writeEntry,
} from './support/panes.ts'
import type { Launched } from './support/launch.ts'
import { catchSavedFile } from './support/saving.ts'
import { expect, test } from './support/test.ts'
import { selectWords } from './support/words.ts'

const menuButton = (page: Page, which: 'first' | 'last'): Locator =>
  page.locator('.st-topbar-where').getByRole('button')[which]()
const panelOf = (page: Page): Locator => page.getByRole('dialog', { name: 'Provenance for others' })

/** Opens the panel from the lab's menu or the project's. */
async function openPanel(page: Page, which: 'first' | 'last'): Promise<Locator> {
  await chooseInMenu(page, menuButton(page, which), /Export its provenance/)
  return panelOf(page)
}

async function written(program: Launched, panel: Locator, form: string): Promise<string> {
  await panel.getByRole('radio', { name: form }).check()
  const button = panel.getByRole('button', { name: 'Write provenance' })
  return readFileSync(await catchSavedFile(program, () => button.click()), 'utf8')
}

test('a lab leaves in four forms that others read, and a project and a procedure in fewer words', async ({
  program,
}) => {
  const { page } = program
  await openSample(page)
  const panel = await openPanel(page, 'first')
  await expect(panel.getByRole('radio', { name: 'The whole lab' })).toBeChecked()
  expect(await violationsInBoth(page)).toEqual([])
  const lab = await written(program, panel, 'PROV-JSON')
  expect(violationsOf(readProvJson(lab))).toEqual([])
  const n = await written(program, await openPanel(page, 'first'), 'PROV-N')
  expect(violationsOf(readProvN(n))).toEqual([])
  const turtle = await written(program, await openPanel(page, 'first'), 'Turtle')
  const jsonLd = await written(program, await openPanel(page, 'first'), 'JSON-LD')
  expect(await canonicalOfJsonLd(jsonLd)).toBe(await canonicalOfTurtle(turtle))

  const own = await openPanel(page, 'last')
  await expect(own.getByRole('radio', { name: /^This project/ })).toBeChecked()
  const project = await written(program, own, 'PROV-JSON')
  expect(readProvJson(project).statements.length).toBeLessThan(readProvJson(lab).statements.length)

  await pane(page, 'Procedure').getByRole('button', { name: 'Export…' }).click()
  await page.getByRole('radio', { name: 'Provenance', exact: true }).check()
  expect(await violationsInBoth(page)).toEqual([])
  const procedure = await written(program, pane(page, 'Procedure'), 'PROV-JSON')
  expect(violationsOf(readProvJson(procedure))).toEqual([])
  expect(readProvJson(procedure).statements.length).toBeLessThan(readProvJson(project).statements.length)
  expect(program.complaints).toEqual([])
})

test('names the person only once a name was given', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Grease the dome wheels')
  await writeEntry(page, 'Jacked the north wheel up')
  const before = await written(program, await openPanel(page, 'first'), 'PROV-N')
  expect(before).toContain("agent(lab:person, [prov:type='prov:Person'])")
  await chooseInMenu(page, menuButton(page, 'first'), /Your name/)
  await page.getByLabel('Your name, for exports (optional)').fill('Kim of the dome')
  await page.getByRole('button', { name: 'Keep', exact: true }).click()
  await writeEntry(page, 'Greased the north wheel')
  const panel = await openPanel(page, 'first')
  await expect(panel).toContainText('signed “Kim of the dome”')
  expect(await written(program, panel, 'PROV-N')).toContain('prov:label="Kim of the dome"')
  const next = await program.restart()
  await writeEntry(next ?? program.page, 'Let the north wheel down')
  await expect(await openPanel(program.page, 'first')).toContainText('signed “Kim of the dome”')
  expect(program.complaints).toEqual([])
})

test('what looks like a secret is shown before anything is written', async ({ program }) => {
  const { page } = program
  await beginProject(page, 'Give the logger its key')
  const secret = `z${Math.random().toString(36).slice(2, 10)}9`
  await writeEntry(page, `Set DB_PASSWORD=${secret} on the logger`)
  await chooseInMenu(page, menuButton(page, 'first'), 'Save the whole lab to a file')
  const dialog = page.getByRole('dialog', { name: 'Before it leaves' })
  await expect(dialog).toContainText('A password in a setting')
  await expect(dialog).toContainText(`DB_PASSWORD=${secret.slice(0, 2)}…`)
  await expect(dialog).not.toContainText(secret)
  expect(await violationsInBoth(page)).toEqual([])
  await dialog.getByRole('button', { name: 'Keep it here' }).click()
  await expect(dialog).toHaveCount(0)
  await expect(page.locator('.st-notices')).not.toContainText('was saved')
  const path = await catchSavedFile(program, async () => {
    await chooseInMenu(page, menuButton(page, 'first'), 'Save the whole lab to a file')
    await dialog.getByRole('button', { name: 'Let it leave' }).click()
  })
  expect(readFileSync(path).length).toBeGreaterThan(100)
  expect(program.complaints).toEqual([])
})

test('every way out asks first; once the text is struck out none asks, and no file holds it', async ({
  program,
}) => {
  const { page } = program
  const secret = `Kestrel${Math.random().toString(36).slice(2, 10)}41`
  await beginProject(page, 'Give the logger its key')
  const entry = await writeEntry(page, `Set DB_PASSWORD=${secret} on the logger`)
  await beginProcedure(page, 'Give a logger its key')
  await addStep(page, 'Look at the rack first')
  await carryEntry(page, entry, 'New step after 1')
  await expect(steps(page).nth(1)).toContainText(secret)
  await page.evaluate(() => (window.print = () => document.documentElement.setAttribute('data-printed', '')))
  const dialog = page.getByRole('dialog', { name: 'Before it leaves' })
  for (const way of waysOut(page)) {
    await way.open()
    await way.button.click()
    await expect(dialog).toContainText('A password in a setting')
    await dialog.getByRole('button', { name: 'Keep it here' }).click()
    await expect(dialog).toHaveCount(0)
    await way.close()
  }
  await expect(page.locator('html')).not.toHaveAttribute('data-printed')

  await selectWords(page, entry, secret)
  await chooseInMenu(page, entry.getByRole('button', { name: 'More for this entry' }), /Strike out…/)
  await strikeSelected(page)
  for (const way of waysOut(page)) {
    if (way.isPrint) continue
    await way.open()
    const bytes = readFileSync(await catchSavedFile(program, () => way.button.click()))
    const files = way.isZip ? Object.values(unzipSync(bytes)) : [bytes]
    for (const one of files) expect(strFromU8(one, true)).not.toContain('Kestrel')
    await expect(dialog).toHaveCount(0)
  }
  expect(program.complaints).toEqual([])
})

/** A way out of the program: what opens it, the button that writes, and what leads back. */
interface WayOut {
  readonly open: () => Promise<void>
  readonly button: Locator
  readonly close: () => Promise<void>
  readonly isZip?: boolean
  readonly isPrint?: boolean
}

function waysOut(page: Page): WayOut[] {
  const procedure = pane(page, 'Procedure')
  const exportAs = (form: string, name: string): WayOut => ({
    open: async () => {
      await procedure.getByRole('button', { name: 'Export…' }).click()
      await page.getByRole('radio', { name: form, exact: true }).check()
    },
    button: procedure.getByRole('button', { name, exact: true }),
    close: () => procedure.getByRole('button', { name: 'Close', exact: true }).click(),
    isPrint: form === 'Paper or PDF',
  })
  const seal = page.getByRole('dialog', { name: 'The seal' })
  return [
    exportAs('Markdown file', 'Write file'),
    exportAs('Paper or PDF', 'Print…'),
    ...['PROV-JSON', 'PROV-N', 'JSON-LD', 'Turtle'].map((form): WayOut => {
      const way = exportAs('Provenance', 'Write provenance')
      const open = async () => {
        await way.open()
        await procedure.getByRole('radio', { name: form }).check()
      }
      return { ...way, open }
    }),
    {
      open: () => chooseInMenu(page, page.getByRole('button', { name: 'More for the journal' }), /The seal/),
      button: seal.getByRole('button', { name: 'Take out the sealed journal…' }),
      close: () => seal.getByRole('button', { name: 'Close the seal' }).click(),
      isZip: true,
    },
  ]
}

/** Strikes the selected words out of the whole lab. */
async function strikeSelected(page: Page): Promise<void> {
  const dialog = page.getByRole('dialog', { name: 'Strike out' })
  await dialog.getByLabel('Reason').fill('A password, pasted by mistake')
  await dialog.getByRole('button', { name: 'Strike out…' }).click()
  await dialog.getByRole('button', { name: 'Yes, strike it out for good' }).click()
  await expect(dialog).toHaveCount(0)
}
