import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { listPackage } from '@electron/asar'
import { _electron } from '@playwright/test'
import { root } from '../../build/build.mjs'
import { ensureDisplay } from './support/display.ts'
import { maybeMissing, sandboxSwitches } from './support/launch.ts'
import { entries, openSample, steps } from './support/panes.ts'
import { expect, test } from './support/test.ts'

const packaged = join(root, 'release/inspectable/linux-unpacked')

test.describe('the packaged program', () => {
  test.skip(process.platform !== 'linux', 'packages the Linux program')
  test.skip(({ runtime }) => maybeMissing(runtime) !== null, 'there is no Electron to package')

  test('is made without a network, holds the program alone, starts and loads the sample', async () => {
    test.setTimeout(180_000)
    const made = spawnSync(process.execPath, [join(root, 'build/package.mjs'), '--inspectable'], {
      cwd: root,
      encoding: 'utf8',
    })
    expect(made.status, made.stdout + made.stderr).toBe(0)
    const held = listPackage(join(packaged, 'resources/app.asar'), { isPack: false })
    expect(held).toContain('/dist/app/main.cjs')
    expect(held.filter((path) => !/^\/(package\.json|dist|dist\/(app|renderer)(\/.*)?)$/.test(path))).toEqual(
      [],
    )

    const profile = mkdtempSync(join(tmpdir(), 'stillroom-packaged-'))
    const executablePath = join(packaged, 'stillroom')
    const shell = await _electron.launch({
      executablePath,
      args: [`--user-data-dir=${profile}`, ...sandboxSwitches(executablePath)],
      env: { ...process.env, DISPLAY: await ensureDisplay() },
    })
    try {
      const page = await shell.firstWindow()
      await expect(page.locator('#root')).not.toBeEmpty()
      expect(page.url()).toBe('app://stillroom/')
      expect(await shell.evaluate(({ app }) => app.isPackaged)).toBe(true)
      await openSample(page)
      await expect(entries(page).first()).toBeVisible()
      await expect(steps(page).first()).toBeVisible()
    } finally {
      await shell.close()
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
    }
  })
})
