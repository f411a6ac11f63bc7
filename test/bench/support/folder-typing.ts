/** Typing in the journal while a folder of real files comes in, beside typing at rest, in the real program. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { launch } from '../../e2e/support/launch.ts'
import { chooseFolder } from '../../e2e/support/folderIn.ts'
import { beginProject, composer } from '../../e2e/support/panes.ts'
import { makeCorpus } from '../../support/corpus.ts'
import { noteKeys, quantile, typeAndNote } from './keys.ts'

/** Milliseconds from a key to behind its frame. */
export interface KeyTimes {
  readonly rest: readonly number[]
  readonly busy: readonly number[]
}

let known: Promise<KeyTimes> | undefined

/** Measured once: a block at rest, one while the folder comes in, again and again, one at rest at the end. */
export function keyTimes(): Promise<KeyTimes> {
  return (known ??= measure())
}

/** How many times as long a key takes while the folder comes in: at this quantile of both. */
export async function slowdownOfKeys(share: number): Promise<number> {
  const { rest, busy } = await keyTimes()
  return quantile(busy, share) / quantile(rest, share)
}

async function measure(): Promise<KeyTimes> {
  const docs = process.env['DOCS_DIR']
  if (docs === undefined) throw new Error('no documentation packages are here (DOCS_DIR names none)')
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-typing-'))
  makeCorpus(docs, process.env['STANDARDS_DIR'] ?? null, folder, { pages: 130, pdfs: 80, manuals: 110 })
  const program = await launch('electron')
  try {
    const { page } = program
    await beginProject(page, 'Read all of it')
    await noteKeys(page)
    await composer(page).click()
    const rest = [...(await typeAndNote(page, 100))]
    const busy: number[] = []
    await chooseFolder(program, folder)
    await composer(page).click()
    const isBusy = (): Promise<boolean> => page.locator('.st-intake-now').isVisible()
    for (let block = 0; block < 30 && (block === 0 || (await isBusy())); block++)
      busy.push(...(await typeAndNote(page, 100)))
    await page.getByRole('region', { name: 'What came in' }).waitFor({ timeout: 1_200_000 })
    rest.push(...(await typeAndNote(page, 100)))
    return { rest, busy }
  } finally {
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}
