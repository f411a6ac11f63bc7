import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { lacksElectronLibraries, maybeSandboxHindrance } from '../../../build/runnable.mjs'

const isLinux = process.platform === 'linux'

describe.skipIf(!isLinux)('a program that is here', () => {
  it('lacks no library when it runs', () => {
    expect(spawnSync(process.execPath, ['--version']).status).toBe(0)
    expect(lacksElectronLibraries(process.execPath)).toBe(false)
  })

  it('lacks a library when the name of one that it needs leads nowhere', () => {
    const folder = mkdtempSync(join(tmpdir(), 'stillroom-libraries-'))
    try {
      const broken = join(folder, 'node')
      copyFileSync(process.execPath, broken)
      // The name of the C library stands in the program's dynamic section; a name of the same length takes its place.
      const renamed = spawnSync('sed', ['-i', 's/libc\\.so\\.6/libq.so.6/g', broken])
      expect(renamed.status).toBe(0)
      expect(lacksElectronLibraries(broken)).toBe(true)
    } finally {
      rmSync(folder, { recursive: true, force: true })
    }
  })

  it('is said to have no sandbox because of the superuser just where this is the superuser', () => {
    const hindrance = maybeSandboxHindrance(process.execPath) ?? ''
    expect(hindrance.includes('superuser')).toBe(process.getuid?.() === 0)
  })
})
