/** Typing in a procedure of 200 steps, beside a bare CodeMirror, in one run of Chromium. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import { zipSync, type Zippable } from 'fflate'
import { generateNKeysBetween } from 'fractional-indexing'
import type { Page } from '@playwright/test'
import { labToFiles } from '../../../shared/archive/labFile.ts'
import {
  addProcedure,
  addProject,
  beginPart,
  makeChange,
  newPart,
  newStep,
  put,
} from '../../../shared/lab/acts.ts'
import type { Operation } from '../../../shared/lab/change.ts'
import type { StepLevel, StepPartKind } from '../../../shared/lab/model.ts'
import { launch } from '../../e2e/support/launch.ts'
import { steps } from '../../e2e/support/panes.ts'
import { chooseFiles } from '../../e2e/support/saving.ts'
import { openTestLab, repeatableSurroundings } from '../../unit/support/lab.ts'
import { noteKeys, quantile, typeAndNote } from './keys.ts'

const STEPS = 200
const KEYS = 300
/** Paragraphs of the bare editor. */
const PARAGRAPHS = 60
const ORIGIN = 'http://localhost:1/'

/** How many times as long as in the bare editor a key takes until its frame, at the 95th percentile. */
export async function typingRatio(): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-procedure-'))
  const path = join(folder, 'long.zip')
  writeFileSync(path, await labFile())
  const program = await launch('chromium')
  try {
    const { page } = program
    await chooseFiles(program, [path], () =>
      page.getByRole('button', { name: 'Bring in a lab file' }).click(),
    )
    await steps(page)
      .nth(STEPS - 1)
      .waitFor({ timeout: 120_000 })
    const before = await typeInBare(page)
    await page.bringToFront()
    await noteKeys(page)
    await steps(page)
      .nth(STEPS / 2)
      .locator('.st-part--do .st-part-read')
      .click()
    await page.locator('.st-steps .cm-content').waitFor()
    await page.keyboard.press('Control+Home')
    await page.waitForTimeout(1000)
    const ours = await typeAndNote(page, KEYS)
    const bare = [...before, ...(await typeInBare(page))]
    return quantile(ours, 0.95) / quantile(bare, 0.95)
  } finally {
    await program.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

const textOf: Readonly<Partial<Record<StepPartKind, (number: number) => string>>> = {
  do: (number) => `Read gauge **${number}**:\n\n\`\`\`sh\nupsc ups@logger | grep battery.charge\n\`\`\``,
  expect: (number) => `\`battery.charge: ${number % 100}\`, within a minute.`,
  caution: () =>
    '**Notice:** The logger stops.\n\n*If not avoided:* readings are lost.\n\n*To avoid it:* wait.',
}

/** A lab whose one procedure has that many steps in sections, with sub-steps, as the bytes of a lab file. */
async function labFile(): Promise<Uint8Array> {
  const around = repeatableSurroundings(22)
  const lab = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'A long way', aim: '', status: 'under way' })
  await lab.committer.commit(change)
  const begun = addProcedure(around, project.id, 'A long way', 'To see that it stays quick.')
  await lab.committer.commit(begun.change)
  const levels = Array.from({ length: STEPS }, (_, i): StepLevel[] => {
    const own: StepLevel = i % 4 === 3 ? 'sub-step' : 'step'
    return i % 20 === 0 ? ['section', own] : [own]
  }).flat()
  const positions = generateNKeysBetween(null, null, levels.length)
  const operations = levels.flatMap((level, i): Operation[] => {
    const step = newStep(around, begun.procedure.id, positions[i]!, level)
    const kinds: StepPartKind[] = i % 10 === 5 ? ['caution', 'do', 'expect'] : ['do', 'expect']
    const parts =
      level === 'section'
        ? beginPart(around, newPart(around, step, 'heading'), `Section ${i}`).operations
        : kinds.flatMap((kind) => beginPart(around, newPart(around, step, kind), textOf[kind]!(i)).operations)
    return [put('steps', step), ...parts]
  })
  const result = await lab.committer.commit(makeChange(around, 'add a step', operations))
  if (!result.ok) throw new Error(result.sentence)
  const tools = {
    sha256: async (bytes: Uint8Array) =>
      Buffer.from(await crypto.subtle.digest('SHA-256', new Uint8Array(bytes))).toString('hex'),
    encode: (text: string) => new TextEncoder().encode(text),
    decode: (bytes: Uint8Array) => new TextDecoder().decode(bytes),
  }
  const about = { id: lab.id, name: 'Long', created: around.clock.now() }
  const files = await labToFiles(about, await lab.dump(), around.clock.now(), tools)
  const tree: Zippable = Object.fromEntries([...files].map(([name, bytes]) => [name, [bytes, { level: 1 }]]))
  return zipSync(tree)
}

/** The bare editor in a window of the same program, drawn by the same means. */
async function typeInBare(beside: Page): Promise<number[]> {
  const { outputFiles } = await build({
    entryPoints: [new URL('./bareEditor.ts', import.meta.url).pathname],
    bundle: true,
    write: false,
    format: 'esm',
    target: 'chrome114',
  })
  const page = await beside.context().newPage()
  await page.route(`${ORIGIN}**`, (route) => {
    const isScript = route.request().url().endsWith('/script.js')
    return route.fulfill({
      body: isScript
        ? outputFiles[0]!.text
        : '<!doctype html><script type="module" src="/script.js"></script>',
      contentType: isScript ? 'text/javascript' : 'text/html',
    })
  })
  await page.setViewportSize({ width: 1280, height: 800 })
  await page.goto(`${ORIGIN}#${PARAGRAPHS}`)
  await noteKeys(page)
  await page.locator('.cm-content').click()
  await page.waitForTimeout(1000)
  const typed = await typeAndNote(page, KEYS)
  await page.close()
  return typed
}
