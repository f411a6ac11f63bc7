import { mkdirSync, mkdtempSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { walkFolder } from '../../../app/folders.ts'

const fresh = (): string => mkdtempSync(join(tmpdir(), 'stillroom-walk-'))

describe('a folder that is walked', () => {
  it('gives every plain file below it and nothing else, whatever the tree', async () => {
    const segment = fc.constantFrom('a', 'b 10', 'b 2', '.hidden', 'ü')
    const tree = fc.array(fc.array(segment, { minLength: 1, maxLength: 4 }), { maxLength: 12 })
    await fc.assert(
      fc.asyncProperty(tree, async (paths) => {
        const root = fresh()
        const expected = new Set<string>()
        for (const path of paths) {
          const name = [...path, 'page.html'].join('/')
          mkdirSync(join(root, ...path), { recursive: true })
          writeFileSync(join(root, name), 'x')
          symlinkSync(root, join(root, ...path, `up-${expected.size}-${Math.random()}`))
          if (!path.includes('.hidden')) expected.add(name)
        }
        const { files, notes } = await walkFolder(root)
        expect(new Set(files.map((file) => file.name))).toEqual(expected)
        expect(files).toHaveLength(expected.size)
        expect(notes).toEqual([])
      }),
      { numRuns: 40 },
    )
  })

  it('is left at its bounds, with a sentence each', async () => {
    const root = fresh()
    mkdirSync(join(root, 'a/b/c'), { recursive: true })
    for (const name of ['a/b/c/deep.md', 'a/1.md', 'a/2.md', 'z.md']) writeFileSync(join(root, name), 'x')
    const shallow = await walkFolder(root, { files: 10, depth: 1 })
    expect(shallow.files.map((file) => file.name)).toEqual(['a/1.md', 'a/2.md', 'z.md'])
    expect(shallow.notes).toEqual([expect.stringContaining('folders deep')])
    const few = await walkFolder(root, { files: 2, depth: 5 })
    expect(few.files).toHaveLength(2)
    expect(few.notes).toEqual([expect.stringContaining('more than')])
    expect((await walkFolder(root, { files: 4, depth: 5 })).notes).toEqual([])
  })

  it('throws what the system answers when it is not there', async () => {
    await expect(walkFolder(join(fresh(), 'none'))).rejects.toThrow('ENOENT')
  })
})
