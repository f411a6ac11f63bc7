import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FolderId } from '../../../../shared/lab/ids.ts'
import type { Folder } from '../../../../shared/lab/model.ts'
import { linesOf, toFolderTree } from '../../../../shared/sources/folder-tree.ts'
import { anyFolders, folder, idOf } from './scene.ts'

const id = (at: number) => idOf<FolderId>('folder', at)

describe('the tree of folders', () => {
  const tree = toFolderTree([
    folder(0, 'Rack'),
    folder(1, 'disk 10', 0),
    folder(2, 'Disk 9', 0),
    folder(3, 'raid', 2),
    folder(4, 'Dome'),
  ])

  it('shows those beside each other by name, numbers by their size and in any case', () => {
    const lines = linesOf(tree, () => true).map(
      ({ folder: { name }, level, place, siblings, hasChildren }) =>
        `${'.'.repeat(level - 1)}${name} ${place}/${siblings}${hasChildren ? ' +' : ''}`,
    )
    expect(lines).toEqual(['Dome 1/2', 'Rack 2/2 +', '.Disk 9 1/2 +', '..raid 1/1', '.disk 10 2/2'])
  })

  it('leaves out what lies in folders that are closed', () => {
    const names = linesOf(tree, (one) => one !== id(2)).map(({ folder: { name } }) => name)
    expect(names).toEqual(['Dome', 'Rack', 'Disk 9', 'disk 10'])
  })

  it('knows the way up, the way down and the names on it', () => {
    expect(tree.upFrom(id(3))).toEqual([id(3), id(2), id(0)])
    expect(tree.downFrom(id(0))).toEqual([id(0), id(2), id(3), id(1)])
    expect(tree.pathOf(id(3))).toEqual(['Rack', 'Disk 9', 'raid'])
    expect([tree.upFrom(id(9)), tree.downFrom(id(9)), tree.pathOf(id(9))]).toEqual([[], [], []])
  })

  it('holds every folder once, whatever they say of each other, with ways up and down that agree', () => {
    fc.assert(
      fc.property(anyFolders, (folders) => {
        const all = toFolderTree(folders)
        const shown = linesOf(all, () => true).map((line) => line.folder.id)
        expect([...shown].sort()).toEqual(folders.map((one) => one.id).sort())
        for (const one of folders)
          for (const other of folders)
            expect(all.downFrom(one.id).includes(other.id)).toBe(all.upFrom(other.id).includes(one.id))
      }),
    )
  })

  it('moves no folder whose way up ends', () => {
    fc.assert(
      fc.property(anyFolders, (folders) => {
        const tree = toFolderTree(folders)
        for (const one of folders) {
          const up = naiveUp(one, folders)
          if (up) expect(tree.upFrom(one.id)).toEqual(up)
        }
      }),
    )
  })
})

/** null where it runs in a ring */
function naiveUp(from: Folder, all: readonly Folder[]): FolderId[] | null {
  const up: FolderId[] = []
  let at: Folder | undefined = from
  while (at) {
    if (up.includes(at.id)) return null
    up.push(at.id)
    at = all.find((one) => one.id === at!.parent)
  }
  return up
}
