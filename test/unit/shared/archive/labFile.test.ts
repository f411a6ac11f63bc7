import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { filesToLab, labToFiles, type Tools } from '../../../../shared/archive/labFile.ts'
import { addEntry, addProject, addSource } from '../../../../shared/lab/acts.ts'
import type { Lab } from '../../../../shared/lab/model.ts'
import { openTestLab, repeatableSurroundings } from '../../support/lab.ts'
import { labWithRevisedLink } from '../../support/revisedLink.ts'

const tools: Tools = {
  sha256: (bytes) => Promise.resolve(createHash('sha256').update(bytes).digest('hex')),
  encode: (text) => new TextEncoder().encode(text),
  decode: (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes),
}

async function filledLab(text = 'Ran `sync` \u2028 and waited. 🛰️', bytes = Uint8Array.of(0, 255, 10, 13)) {
  const around = repeatableSurroundings()
  const opened = await openTestLab(around)
  const { project, change } = addProject(around, { title: 'Logger', aim: '', status: 'under way' })
  const entry = addEntry(around, { project: project.id, kind: 'action', text })
  const sha256 = await tools.sha256(bytes)
  const capture = { text, bytes, sha256, mediaType: 'text/plain' }
  const input = {
    title: text,
    address: null,
    kind: 'text',
    wayIn: 'file',
    projects: [project.id],
    capture,
  } as const
  await opened.committer.commitAll([change, entry.change, addSource(around, input).change])
  // An undone source leaves its bytes in the Change that took it away.
  await opened.committer.undo()
  await opened.committer.commit(addSource(around, input).change)
  const lab: Lab = { id: opened.id, name: 'Observatory', created: around.clock.now() }
  return { around, opened, lab }
}

describe('the lab file', () => {
  it('gives back every record of every table', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.string({ unit: 'grapheme', minLength: 1 }),
        fc.uint8Array(),
        async (text, bytes) => {
          const { around, opened, lab } = await filledLab(text, bytes)
          const dump = await opened.dump()
          const read = await filesToLab(await labToFiles(lab, dump, around.clock.now(), tools), tools)
          if (!read.ok) throw new Error(read.sentence)
          const empty = await openTestLab(repeatableSurroundings(2))
          await empty.fill(read.value.dump)
          expect(await empty.dump()).toEqual(dump)
          expect(await empty.rebuild()).toBe(true)
          expect(read.value.lab).toEqual(lab)
        },
      ),
      { numRuns: 25 },
    )
  })

  it('gives back which link revises which, in what stands and in the past, and undo goes on from there', async () => {
    const { lab: opened, first, second } = await labWithRevisedLink()
    const lab: Lab = { id: opened.id, name: 'Dome', created: opened.surroundings.clock.now() }
    const files = await labToFiles(lab, await opened.dump(), opened.surroundings.clock.now(), tools)
    const read = await filesToLab(files, tools)
    if (!read.ok) throw new Error(read.sentence)
    const empty = await openTestLab(repeatableSurroundings(2))
    await empty.fill(read.value.dump)
    const standing = async () =>
      (await empty.queries.standingLinks(second.newer.node.id)).map(({ link }) => link)
    expect(await standing()).toEqual([second])
    expect(second.revises).toBe(first.id)
    expect(await empty.queries.goneLinks([first.id])).toEqual([first])
    expect((await empty.committer.undo()).ok).toBe(true)
    expect(await standing()).toEqual([first])
    expect(await empty.rebuild()).toBe(true)
  })

  it('refuses a file in which any one byte was changed', async () => {
    const { around, opened, lab } = await filledLab()
    const files = await labToFiles(lab, await opened.dump(), around.clock.now(), tools)
    const places = [...files].flatMap(([path, bytes]) =>
      bytes.length > 0 ? [{ path, length: bytes.length }] : [],
    )
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...places),
        fc.nat(),
        fc.integer({ min: 1, max: 255 }),
        async ({ path, length }, at, bits) => {
          const bytes = Uint8Array.from(files.get(path)!)
          bytes[at % length]! ^= bits
          const read = await filesToLab(new Map([...files, [path, bytes]]), tools).catch(() => ({
            ok: false,
          }))
          expect(read.ok).toBe(false)
        },
      ),
      { numRuns: 300 },
    )
  })

  it('refuses a file with a part missing or added', async () => {
    const { around, opened, lab } = await filledLab()
    const files = await labToFiles(lab, await opened.dump(), around.clock.now(), tools)
    for (const path of files.keys()) {
      const fewer = new Map(files)
      fewer.delete(path)
      expect((await filesToLab(fewer, tools)).ok, path).toBe(false)
    }
    expect((await filesToLab(new Map([...files, ['blobs/extra', Uint8Array.of(1)]]), tools)).ok).toBe(false)
  })

  it('is checked by sha256sum (GNU coreutils) alone', async () => {
    const { around, opened, lab } = await filledLab()
    const files = await labToFiles(lab, await opened.dump(), around.clock.now(), tools)
    const folder = mkdtempSync(join(tmpdir(), 'lab-file-'))
    try {
      for (const [path, bytes] of files) {
        mkdirSync(dirname(join(folder, path)), { recursive: true })
        writeFileSync(join(folder, path), bytes)
      }
      const said = execFileSync('sha256sum', ['--check', '--strict', 'SHA256SUMS'], {
        cwd: folder,
        encoding: 'utf8',
      })
      expect(said.trim().split('\n')).toHaveLength(files.size - 1)
      writeFileSync(join(folder, 'README.txt'), 'changed')
      expect(() =>
        execFileSync('sha256sum', ['--check', '--status', 'SHA256SUMS'], { cwd: folder }),
      ).toThrow()
    } finally {
      rmSync(folder, { recursive: true })
    }
  })
})
