import { join } from 'node:path'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { ESLint } from 'eslint'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { root } from '../../../build/build.mjs'

/** Lints planted text as if it stood at a path, by the project's own configuration, for the layers only. */
async function lint(
  path: string,
  text: string,
  rules: readonly string[] = ['stillroom/layers'],
): Promise<string[]> {
  const eslint = new ESLint({
    cwd: root,
    ruleFilter: ({ ruleId }) => rules.includes(ruleId),
    // The layers are seen in the text alone, and a planted file belongs to no TypeScript project.
    overrideConfig: { languageOptions: { parserOptions: { projectService: false } } },
  })
  const [result] = await eslint.lintText(text, { filePath: join(root, path) })
  return (result?.messages ?? []).map((message) => `${message.ruleId ?? 'fatal'}: ${message.message}`)
}

describe('a planted violation of the layers is found', () => {
  it.each([
    [
      'shared/lab/planted.ts',
      `import { commit } from '../../renderer/db/commit.ts'`,
      'shared/ may import from shared/ only',
    ],
    [
      'shared/planted.ts',
      `import { openWindow } from '../app/windows.ts'`,
      'shared/ may import from shared/ only',
    ],
    ['shared/planted.ts', `import { readFileSync } from 'node:fs'`, 'shared/ is pure'],
    ['shared/planted.ts', `import { join } from 'path'`, 'shared/ is pure'],
    ['shared/planted.ts', `import { createElement } from 'react'`, 'shared/ is pure'],
    ['shared/planted.ts', `import { EditorView } from '@codemirror/view'`, 'shared/ is pure'],
    ['shared/planted.ts', `import Dexie from 'dexie'`, 'only renderer/db/ may import dexie'],
    ['shared/planted.ts', `import { app } from 'electron'`, 'only app/ may import electron'],
    ['shared/planted.ts', `export * from '../renderer/ui/icons.tsx'`, 'shared/ may import from shared/ only'],
    [
      'shared/planted.ts',
      `export const later = () => import('../app/main.ts')`,
      'shared/ may import from shared/ only',
    ],
    ['shared/planted.ts', `export type View = import('react').ReactNode`, 'shared/ is pure'],
    [
      'renderer/planted.tsx',
      `import { openWindow } from '../app/windows.ts'`,
      'renderer/ may import from renderer/ and shared/ only',
    ],
    ['renderer/panes/a/planted.tsx', `import { x } from '../../../build/build.mjs'`, 'not from build'],
    ['renderer/planted.ts', `import { x } from '../test/fixtures/x.ts'`, 'not from test'],
    ['renderer/planted.ts', `import { ipcRenderer } from 'electron'`, 'only app/ may import electron'],
    ['renderer/planted.ts', `import { readFileSync } from 'fs'`, 'renderer/ runs in a page'],
    ['renderer/store/planted.ts', `import Dexie from 'dexie'`, 'only renderer/db/ may import dexie'],
    [
      'renderer/store/planted.ts',
      `import { useLiveQuery } from 'dexie-react-hooks'`,
      'only renderer/db/ may import dexie',
    ],
    [
      'app/planted.ts',
      `import { createHost } from '../renderer/host/host.ts'`,
      'app/ may import from app/ and shared/ only',
    ],
    [
      'app/planted.ts',
      `const host = require('../renderer/host/host.ts')`,
      'app/ may import from app/ and shared/ only',
    ],
    ['build/planted.ts', `import { app } from 'electron'`, 'only app/ may import electron'],
  ])('%s: %s', async (path, text, reason) => {
    expect(await lint(path, `${text}\n`)).toEqual([expect.stringContaining(reason)])
  })
})

describe('what the layers allow passes', () => {
  it.each([
    ['shared/planted.ts', `import { ChangeSet } from '@codemirror/state'\nimport { done } from './host.ts'`],
    ['renderer/db/planted.ts', `import Dexie from 'dexie'\nimport { done } from '../../shared/host.ts'`],
    [
      'renderer/panes/planted.tsx',
      `import { createElement } from 'react'\nimport { createHost } from '../host/host.ts'`,
    ],
    [
      'app/planted.ts',
      `import { app } from 'electron'\nimport { readFile } from 'node:fs/promises'\nimport { done } from '../shared/host.ts'`,
    ],
  ])('%s', async (path, text) => {
    expect(await lint(path, `${text}\n`)).toEqual([])
  })
})

describe('an import cycle is found', () => {
  let folder = ''
  beforeAll(() => {
    // A cycle is a matter of files on the disk, so these two are really there for a moment.
    folder = mkdtempSync(join(root, 'test/unit/build/.cycle-'))
    writeFileSync(
      join(folder, 'one.ts'),
      `import { two } from './two.ts'\nexport const one = (): unknown => two\n`,
    )
    writeFileSync(
      join(folder, 'two.ts'),
      `import { one } from './one.ts'\nexport const two = (): unknown => one\n`,
    )
  })
  afterAll(() => rmSync(folder, { recursive: true, force: true }))

  it('between two files that import each other', async () => {
    const text = `import { two } from './two.ts'\nexport const one = (): unknown => two\n`
    const path = join(folder.slice(root.length), 'one.ts')
    expect(await lint(path, text, ['import-x/no-cycle'])).toEqual([
      expect.stringContaining('import-x/no-cycle'),
    ])
  })
})
