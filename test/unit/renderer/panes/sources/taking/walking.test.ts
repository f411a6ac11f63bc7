import { describe, expect, test } from 'vitest'
import { filesOf } from '../../../../../../renderer/panes/sources/taking/walking.ts'
import { withoutCompanions } from '../../../../../../renderer/panes/sources/taking.ts'

type Tree = { readonly [name: string]: Tree | 'file' | 'unreadable' }

/** An entry as the File and Directory Entries API gives it; folders come in portions of three. */
function entryOf(name: string, node: Tree | 'file' | 'unreadable'): FileSystemEntry {
  if (typeof node === 'string') {
    const file = (give: (file: File) => void, fail: () => void) =>
      node === 'file' ? give(new File([name], name)) : fail()
    return { name, isFile: true, isDirectory: false, file } as unknown as FileSystemEntry
  }
  const createReader = () => {
    const left = Object.entries(node).map(([child, below]) => entryOf(child, below))
    return { readEntries: (give: (entries: FileSystemEntry[]) => void) => give(left.splice(0, 3)) }
  }
  return { name, isFile: false, isDirectory: true, createReader } as unknown as FileSystemEntry
}
const walk = async (tree: Tree) => {
  const { files, notes } = await filesOf(Object.entries(tree).map(([name, node]) => entryOf(name, node)))
  return { paths: files.map(({ file, directories }) => [...directories, file.name].join('/')), notes }
}

describe('folders that are dropped', () => {
  test('give all their files by name, however many portions they come in', async () => {
    const docs = {
      'part 10.txt': 'file',
      'part 2.txt': 'file',
      a: 'file',
      b: 'file',
      sub: { c: 'file' },
    } as const
    expect(await walk({ docs, 'single.txt': 'file' })).toEqual({
      paths: ['docs/a', 'docs/b', 'docs/part 2.txt', 'docs/part 10.txt', 'docs/sub/c', 'single.txt'],
      notes: [],
    })
  })

  test('lose what is hidden and what a browser saved beside a page', async () => {
    const tree = {
      docs: {
        '.git': { config: 'file' },
        '.hidden': 'file',
        'fans.html': 'file',
        fans_files: { 'a.css': 'file' },
        'Pumpen.htm': 'file',
        'Pumpen-Dateien': { 'b.png': 'file' },
        files: { 'c.txt': 'file' },
      },
    } as const
    expect((await walk(tree)).paths).toEqual(['docs/fans.html', 'docs/files/c.txt', 'docs/Pumpen.htm'])
  })

  test('name what cannot be read and go on', async () => {
    const { paths, notes } = await walk({ docs: { a: 'unreadable', b: 'file' } })
    expect(paths).toEqual(['docs/b'])
    expect(notes).toEqual([expect.stringContaining('“a” could not be read')])
  })

  test('are read to their bounds, which is said', async () => {
    const deep = Array.from({ length: 25 }).reduce<Tree>((below) => ({ a: 'file', in: below }), {})
    const shallow = await walk(deep)
    expect(shallow.paths.length).toBe(21)
    expect(shallow.notes).toEqual([expect.stringContaining('20 folders deep')])
    const many = Object.fromEntries(Array.from({ length: 5100 }, (_, at) => [`f${at}`, 'file' as const]))
    const { paths, notes } = await walk({ many })
    expect(paths.length).toBe(5000)
    expect(notes).toEqual([expect.stringContaining('5000 files')])
  })
})

test('of the files of a chosen folder those beside a saved page are left out, at any depth', () => {
  const names = [
    'fans.html',
    'fans_files/a.css',
    'fans_files/deep/b.png',
    'sub/p.htm',
    'sub/p-Dateien/c.js',
    'sub/files/d.txt',
  ]
  expect(withoutCompanions(names.map((name) => ({ name }))).map(({ name }) => name)).toEqual([
    'fans.html',
    'sub/p.htm',
    'sub/files/d.txt',
  ])
})
