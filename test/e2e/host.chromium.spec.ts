import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import type { Page } from '@playwright/test'
import { build } from 'esbuild'
import { root } from '../../build/build.mjs'
import { quietSwitches } from '../../build/programs.mjs'
import type { Host, HostResult } from '../../shared/host.ts'
import { foreignPeers, foreignUse, netLogSwitches, readNetLog } from './support/netlog.ts'
import { elsewhere, tryEverything } from './support/reach.ts'
import { expect, test } from './support/test.ts'

declare global {
  interface Window {
    host: Host
  }
}

test('a session connects to this machine only', async ({ start }) => {
  const log = join(mkdtempSync(join(tmpdir(), 'stillroom-net-')), 'net.json')
  const program = await start({ switches: [...quietSwitches, ...netLogSwitches(log)] })
  const { address } = program
  await tryEverything(program.page)
  await program.close()
  const use = readNetLog(log)
  expect(use.addresses, 'the log holds what is asked of the network').toContain(address)
  expect(use.peers, 'the log holds the connections that were made').toContain(new URL(address).host)
  // The browser asks its maker's hosts for things of its own, which ends at once: no name is looked up, nothing is sent.
  expect(foreignPeers(use)).toEqual([])
  expect(foreignUse(use).filter((found) => found.startsWith('resolve'))).toEqual([])
  expect(foreignUse(use).filter((found) => found.includes(new URL(elsewhere).host))).toEqual([])
})

test('the network log would show a name that is looked up', async ({ start }) => {
  const log = join(mkdtempSync(join(tmpdir(), 'stillroom-net-')), 'net.json')
  const program = await start({ switches: netLogSwitches(log) })
  // RFC 6761 §6.4: a name under .invalid has no address anywhere.
  await program.page.goto('http://control.invalid/').catch(() => undefined)
  await program.close()
  expect(foreignUse(readNetLog(log))).toContain('resolve http://control.invalid')
})

test('a file goes out as a download and comes in through the file picker, up to the limit', async ({
  program,
}) => {
  const { page } = program
  await page.evaluate(await browserHostCode())
  const download = page.waitForEvent('download')
  const saved = await page.evaluate(() =>
    window.host.saveFile({
      suggestedName: 'weather-logger.md',
      mediaType: 'text/markdown; charset=utf-8',
      bytes: new TextEncoder().encode('# Weather logger\n'),
    }),
  )
  expect(saved).toEqual({ ok: true, value: { kind: 'saved', name: 'weather-logger.md' } })
  const arrived = await download
  expect(arrived.suggestedFilename()).toBe('weather-logger.md')
  const kept = await arrived.path()
  expect(readFileSync(kept, 'utf8')).toBe('# Weather logger\n')

  const folder = mkdtempSync(join(tmpdir(), 'stillroom-files-'))
  const [small, large] = [join(folder, 'notes.md'), join(folder, 'large.txt')]
  writeFileSync(small, '# Weather logger\n')
  writeFileSync(large, 'x'.repeat(2001))
  const chooser = page.waitForEvent('filechooser')
  const opening = page.evaluate(async () => {
    const result = await window.host.openFiles({ accept: ['.md', '.txt'], multiple: true, limitBytes: 2000 })
    if (!result.ok || result.value.kind !== 'opened') return [result]
    return result.value.files.map((file) => [
      file.kind,
      file.name,
      file.kind === 'read' ? file.bytes.length : file.size,
    ])
  })
  await (await chooser).setFiles([small, large])
  expect(await opening).toEqual([
    ['read', 'notes.md', 17],
    ['refused', 'large.txt', 2001],
  ])
})

/** Reads by a token, and gives what was read: its name and its words, or the whole answer. */
function readIn(page: Page, token: string, limitBytes = 1000): Promise<unknown> {
  return page.evaluate(
    async ([given, limit]) => {
      const result = await window.host.readChosenFile({ token: given, limitBytes: limit })
      if (!result.ok || result.value.kind !== 'read') return result
      return [result.value.name, new TextDecoder().decode(result.value.bytes)]
    },
    [token, limitBytes] as const,
  )
}

test('chosen files and a chosen folder are read one by one, each by its token', async ({ program }) => {
  const { page } = program
  await page.evaluate(await browserHostCode())
  const folder = mkdtempSync(join(tmpdir(), 'stillroom-files-'))
  for (const inner of ['rack/deep', '.git']) mkdirSync(join(folder, inner), { recursive: true })
  for (const name of ['fans.html', 'rack/deep/disks.md', '.git/config'])
    writeFileSync(join(folder, name), name)

  let chooser = page.waitForEvent('filechooser')
  const choosing = page.evaluate(() => window.host.chooseFiles({ accept: [], multiple: true }))
  await (await chooser).setFiles([join(folder, 'rack/deep/disks.md'), join(folder, 'fans.html')])
  const chosen = await choosing
  if (!chosen.ok || chosen.value.kind !== 'chosen') throw new Error(JSON.stringify(chosen))
  const [disks, fans] = chosen.value.files
  expect([disks?.name, disks?.size, fans?.name]).toEqual(['disks.md', 18, 'fans.html'])
  expect(await readIn(page, disks!.token)).toEqual(['disks.md', 'rack/deep/disks.md'])
  expect(await readIn(page, fans!.token, 5)).toMatchObject({ value: { kind: 'refused', size: 9, limit: 5 } })
  const part = await page.evaluate(async (token) => {
    const result = await window.host.readChosenPart({ token, offset: 5, length: 4 })
    return result.ok ? new TextDecoder().decode(result.value.bytes) : result
  }, disks!.token)
  expect(part).toBe('deep')
  rmSync(join(folder, 'fans.html'))
  expect(await readIn(page, fans!.token)).toMatchObject({ ok: false, code: 'not read' })
  expect(await readIn(page, '0'.repeat(32))).toMatchObject({ ok: false, code: 'not read' })

  writeFileSync(join(folder, 'fans.html'), 'Rack')
  chooser = page.waitForEvent('filechooser')
  const walking = page.evaluate(() => window.host.chooseFolder())
  await (await chooser).setFiles(folder)
  const walked = await walking
  if (!walked.ok || walked.value.kind !== 'chosen') throw new Error(JSON.stringify(walked))
  expect(walked.value).toMatchObject({ name: basename(folder), notes: [] })
  expect(walked.value.files.map((file) => file.name)).toEqual(['fans.html', 'rack/deep/disks.md'])
  expect(await readIn(page, walked.value.files[1]!.token)).toEqual([
    'rack/deep/disks.md',
    'rack/deep/disks.md',
  ])
})

test('an original that cannot run is handed out under its own kind, and no other', async ({ program }) => {
  const { page } = program
  await page.evaluate(await browserHostCode())
  const open = (name: string, words: string): Promise<HostResult<unknown>> =>
    page.evaluate(
      ([given, text]) => window.host.openOriginal({ name: given, bytes: new TextEncoder().encode(text) }),
      [name, words] as const,
    )
  const downloads: string[] = []
  page.on('download', (download) => downloads.push(download.suggestedFilename()))
  for (const name of ['fans.pdf', 'fans.txt'])
    for (const words of ['<!doctype html>', '<svg/>', '#!/bin/sh\n', '\u007fELF'])
      expect(await open(name, words)).toMatchObject({ ok: false, code: 'unsupported' })
  expect(await open('fans.exe', '%PDF-1.7\n')).toEqual({
    ok: true,
    value: { kind: 'downloaded', name: 'fans.pdf' },
  })
  await expect.poll(() => downloads).toEqual(['fans.pdf'])
})

test('an address opens apart from the page, only when it is http or https', async ({ program }) => {
  const { page, address } = program
  await page.evaluate(await browserHostCode())
  const open = (target: string): Promise<HostResult<null>> =>
    page.evaluate((given) => window.host.openAddress({ address: given }), target)
  for (const target of [
    'javascript:alert(1)',
    'file:///etc/hostname',
    'mailto:a@example.org',
    'stillroom:add',
    '',
  ])
    expect(await open(target)).toMatchObject({ ok: false, code: 'not opened' })
  const opened = page.context().waitForEvent('page')
  expect(await open(`${address}?apart`)).toEqual({ ok: true, value: null })
  const other = await opened
  await other.waitForLoadState('load')
  expect(other.url()).toBe(`${address}?apart`)
  expect(await other.evaluate(() => window.opener === null && document.referrer === '')).toBe(true)
  expect(page.context().pages()).toHaveLength(2)
})

test('what needs the program itself is said in a sentence, and nothing ever arrives', async ({ program }) => {
  const { page } = program
  await page.evaluate(await browserHostCode())
  const answers = await page.evaluate(async () => {
    const lab = '0198a8c0-0000-7000-8000-000000000001'
    const log = '0'.repeat(32)
    const { host } = window
    host.onArrived(() => undefined)()
    host.onDropFolderChanged(() => undefined)()
    return {
      arrivals: await host.takeArrivals(),
      drop: [
        await host.chooseDropFolder({ lab }),
        await host.findDropFolder({ lab }),
        await host.leaveDropFolder({ lab }),
        await host.listDropFolder({ lab }),
        await host.readDropFile({ lab, name: 'x', limitBytes: 1 }),
        await host.chooseLog({ lab, timingOf: null }),
        await host.forgetLog({ lab, log }),
        await host.followLog({ lab, log, after: null }),
        await host.readFollowed({ following: log }),
        await host.stopFollowing({ following: log }),
      ],
      logs: await host.listLogs({ lab }),
    }
  })
  expect(answers.arrivals).toEqual({ ok: true, value: [] })
  expect(answers.logs).toEqual({ ok: true, value: [] })
  for (const answer of answers.drop)
    expect(answer).toMatchObject({
      ok: false,
      code: 'unsupported',
      sentence: expect.stringContaining('needs the Stillroom program') as unknown as string,
    })
})

/** The browser's host as one script, so that it is tried in a real page by itself. */
async function browserHostCode(): Promise<string> {
  const built = await build({
    stdin: {
      contents: `import { createBrowserHost } from './browser.ts'; globalThis.host = createBrowserHost(window, '0.0.0-test')`,
      resolveDir: join(root, 'renderer/host'),
    },
    bundle: true,
    format: 'iife',
    target: 'chrome114',
    write: false,
  })
  return built.outputFiles[0]?.text ?? ''
}
