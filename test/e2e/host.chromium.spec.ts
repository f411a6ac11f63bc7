import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import { root } from '../../build/build.mjs'
import { quietSwitches } from '../../build/programs.mjs'
import type { Host } from '../../shared/host.ts'
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
