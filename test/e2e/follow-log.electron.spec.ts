/** The calls of following a log, asked for by the page itself, and logs that are no friends: binary, and very long. */
import {
  appendFileSync,
  closeSync,
  mkdtempSync,
  openSync,
  renameSync,
  rmSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
  writeSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from '@playwright/test'
import type { HostBridge, HostCallName } from '../../shared/host.ts'
import { answerWith, followLog, openLogs, sayWidth } from './support/logs.ts'
import { beginProject, composer, entryWith } from './support/panes.ts'
import { expect, test } from './support/test.ts'

type Answer = { readonly ok: boolean; readonly value: Record<string, unknown>; readonly sentence?: string }

/** Asks the shell as the page does. */
const call = async (page: Page, name: HostCallName, argument: object): Promise<Answer> =>
  (await page.evaluate(
    ([name, argument]) => (window as unknown as { stillroomHost: HostBridge }).stillroomHost[name](argument),
    [name, argument] as const,
  )) as Answer

/** Reads until it is enough. @returns all text that came, and what happened to the file meanwhile */
async function readUntil(
  page: Page,
  following: string,
  isEnough: (text: string, hows: readonly string[]) => boolean,
): Promise<{ readonly text: string; readonly hows: readonly string[] }> {
  let text = ''
  const hows: string[] = []
  while (!isEnough(text, hows)) {
    const read = await page.evaluate(async (following) => {
      const { stillroomHost } = window as unknown as { stillroomHost: HostBridge }
      const { value } = (await stillroomHost.readFollowed({ following })) as {
        value: { pieces: { bytes?: Uint8Array; how?: string }[] }
      }
      const texts = value.pieces.map(({ bytes }) => (bytes ? new TextDecoder().decode(bytes) : ''))
      return { text: texts.join(''), hows: value.pieces.flatMap(({ how }) => how ?? []) }
    }, following)
    text += read.text
    hows.push(...read.hows)
  }
  return { text, hows }
}

test('a log is chosen, listed, followed and read by its calls, through all that happens to its file', async ({
  program,
}) => {
  const { page } = program
  const folder = mkdtempSync(join(tmpdir(), 'calls-'))
  const path = join(folder, 'gate.log')
  writeFileSync(path, 'one\n')
  const lab = '01a2161a-2706-7004-b343-75f8b87ca2d2'
  const another = '01a2161a-2706-7004-b343-75f8b87ca2d3'
  await answerWith(program, path)
  const chosen = await call(page, 'chooseLog', { lab, timingOf: null })
  expect(chosen).toMatchObject({
    ok: true,
    value: { kind: 'chosen', log: { path, name: 'gate.log', timing: null } },
  })
  const { log } = chosen.value['log'] as { log: string }
  expect(await call(page, 'listLogs', { lab })).toMatchObject({ ok: true, value: [{ log }] })
  expect(await call(page, 'listLogs', { lab: another })).toMatchObject({ ok: true, value: [] })
  expect((await call(page, 'followLog', { lab: another, log, after: null })).ok).toBe(false)
  const begun = await call(page, 'followLog', { lab, log, after: null })
  expect(begun).toMatchObject({ ok: true, value: { kind: 'file', size: 4, offset: 0 } })
  const following = begun.value['following'] as string
  expect((await readUntil(page, following, (text) => text.endsWith('one\n'))).text).toBe('one\n')
  appendFileSync(path, 'two\n')
  expect(await readUntil(page, following, (text) => text !== '')).toEqual({ text: 'two\n', hows: [] })
  truncateSync(path)
  expect((await readUntil(page, following, (_, hows) => hows.length > 0)).hows).toEqual(['truncated'])
  appendFileSync(path, 'three\n')
  expect((await readUntil(page, following, (text) => text !== '')).text).toBe('three\n')
  renameSync(path, `${path}.1`)
  writeFileSync(path, 'four\n')
  const rotated = await readUntil(page, following, (text) => text.endsWith('four\n'))
  expect(rotated.hows.at(-1)).toBe('replaced')
  unlinkSync(path)
  expect((await readUntil(page, following, (_, hows) => hows.length > 0)).hows).toEqual(['deleted'])
  expect(await call(page, 'stopFollowing', { following })).toMatchObject({ ok: true })
  expect((await call(page, 'readFollowed', { following })).ok).toBe(false)
  expect(program.complaints).toEqual([])
  rmSync(folder, { recursive: true })
})

const noise = Buffer.from(Array.from({ length: 300_000 }, (_, i) => (i * 7919 + (i >> 3) * 31) % 256))

test('a binary file is refused with a sentence, and nothing else happens', async ({ program }) => {
  const { page } = program
  const path = join(mkdtempSync(join(tmpdir(), 'binary-')), 'gate.log')
  writeFileSync(path, noise)
  await beginProject(page, 'Read what is there')
  const panel = await openLogs(page)
  await answerWith(program, path)
  await panel.getByRole('button', { name: 'Follow a log…' }).click()
  await expect(panel.getByText(/holds bytes that are no text.*Nothing was read/)).toBeVisible()
  await expect(panel.getByRole('listitem')).toHaveCount(0)
  expect(program.complaints).toEqual([])
})

test('binary bytes that come to a followed log are survived, and what stands behind them is offered', async ({
  program,
}) => {
  const { page } = program
  const path = join(mkdtempSync(join(tmpdir(), 'binary-')), 'gate.log')
  const prompt = 'root@gate:/etc# '
  writeFileSync(path, `${prompt}echo before\r\nbefore\r\n${prompt}`)
  await beginProject(page, 'Read what is there')
  const session = await followLog(program, await openLogs(page), path)
  await sayWidth(session, 80)
  await expect(session.getByRole('listitem').filter({ hasText: 'echo before' })).toHaveCount(1)
  appendFileSync(path, `cat logger.db\r\n`)
  appendFileSync(path, noise)
  // CAN, ST and RIS (ECMA-48): whatever the bytes had begun is over, as by `reset`.
  appendFileSync(path, `\u0018\u001b\\\u001bc\r\n${prompt}echo still here\r\nstill here\r\n${prompt}`)
  await expect(session.getByRole('listitem').filter({ hasText: 'echo still here' })).toHaveCount(1)
  await expect(session.getByText('following', { exact: true })).toBeVisible()
  expect(program.complaints).toEqual([])
})

test('while a log of 100 MB is read, keys are drawn and entries written as if there were none', async ({
  program,
}) => {
  test.setTimeout(300_000)
  const { page } = program
  const path = join(mkdtempSync(join(tmpdir(), 'long-')), 'gate.log')
  const prompt = 'root@gate:/var/log# '
  const file = openSync(path, 'w')
  writeSync(file, `${prompt}cat everything\r\n`)
  const line =
    'Nov 14 21:00:02 gate kernel: eth0: link is up at 1000 Mbit/s, full duplex, flow control off\r\n'
  const block = line.repeat(10_000)
  for (let written = 0; written < 100 * 1024 * 1024; written += block.length) writeSync(file, block)
  writeSync(file, `${prompt}echo behind it all\r\nbehind it all\r\n${prompt}`)
  closeSync(file)
  await beginProject(page, 'Read a long log')
  const panel = await openLogs(page)
  await answerWith(program, path)
  await panel.getByRole('button', { name: 'Follow a log…' }).click()
  const session = panel.getByRole('region', { name: 'gate.log' })
  await sayWidth(session, 100)
  await page.evaluate(() => {
    const gaps: number[] = []
    Object.assign(window, { gaps })
    let last = performance.now()
    requestAnimationFrame(function frame(now) {
      gaps.push(now - last)
      last = now
      requestAnimationFrame(frame)
    })
  })
  await composer(page).click()
  await page.keyboard.type('The gate answers while the log is read.', { delay: 30 })
  await expect(composer(page)).toContainText('while the log is read.')
  await page.keyboard.press('Control+Enter')
  await expect(entryWith(page, 'The gate answers')).toBeVisible()
  // It was still being read all this while; else this says nothing.
  await expect(session.getByText('following', { exact: true })).toHaveCount(0)
  const gaps = await page.evaluate(() => (window as unknown as { gaps: number[] }).gaps)
  expect(gaps.length).toBeGreaterThan(30)
  expect(Math.max(...gaps)).toBeLessThan(500)
  await expect(session.getByText('following', { exact: true })).toBeVisible({ timeout: 240_000 })
  await expect(session.getByRole('listitem').filter({ hasText: 'echo behind it all' })).toHaveCount(1)
  const cat = session.getByRole('listitem').filter({ hasText: 'cat everything' })
  await expect(cat).toContainText('left out')
  expect(program.complaints).toEqual([])
  rmSync(path)
})
