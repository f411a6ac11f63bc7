import {
  appendFileSync,
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { DropFolders } from '../../../app/drop-folders.ts'
import type { Timings } from '../../../app/drop-folder.ts'

const lab = '0198a8c0-0000-7000-8000-000000000001'
const other = '0198a8c0-0000-7000-8000-000000000002'
const quick: Timings = { settle: 80, gather: 20, poll: 60, patience: 2000 }
const limitBytes = 1000

let base = ''
let folder = ''
let told: string[] = []
let open: DropFolders[] = []

function start(timings = quick): DropFolders {
  const folders = new DropFolders(join(base, 'drop-folders.json'), (changed) => told.push(changed), timings)
  open.push(folders)
  return folders
}
function put(name: string, text = 'Rack'): void {
  writeFileSync(join(folder, name), text)
}
async function namesIn(folders: DropFolders): Promise<unknown> {
  const listed = await folders.list({ lab })
  if (!listed.ok || listed.value.kind !== 'listed') return listed
  return listed.value.files.map((file) => file.name)
}
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 400))

beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'stillroom-drop-'))
  folder = join(base, 'pages')
  mkdirSync(folder)
  told = []
})
afterEach(() => {
  for (const folders of open) folders.stop()
  open = []
})

describe('a drop folder lists', () => {
  it('complete files alone, ordered, with sizes and times, also from the folders directly in it', async () => {
    put('part 10.html')
    put('part 2.html', 'Rack and fans')
    put('empty.html', '')
    put('next.html.crdownload')
    put('next.html.part')
    put('.hidden.html')
    for (const inner of ['part 2_files', 'rack', '.config', 'rack/deeper']) mkdirSync(join(folder, inner))
    for (const inner of ['part 2_files/fan.png', 'rack/fans.md', '.config/x.md', 'rack/deeper/y.md'])
      put(inner)
    symlinkSync('/etc/hostname', join(folder, 'link.txt'))
    const folders = start()
    await folders.choose(lab, folder)
    const listed = await folders.list({ lab })
    expect(listed).toEqual({
      ok: true,
      value: {
        kind: 'listed',
        files: [
          { name: 'part 2.html', size: 13, modifiedMs: expect.any(Number) as number },
          { name: 'part 10.html', size: 4, modifiedMs: expect.any(Number) as number },
          { name: 'rack/fans.md', size: 4, modifiedMs: expect.any(Number) as number },
        ],
        unfinished: 0,
        notes: [],
      },
    })
  })

  it('no file while it still grows', async () => {
    const folders = start({ ...quick, settle: 300 })
    await folders.choose(lab, folder)
    put('growing.html')
    put('done.html')
    const grow = setInterval(() => appendFileSync(join(folder, 'growing.html'), 'x'), 30)
    try {
      const listed = await folders.list({ lab })
      expect(listed).toMatchObject({ value: { files: [{ name: 'done.html' }], unfinished: 1 } })
    } finally {
      clearInterval(grow)
    }
    expect(await namesIn(folders)).toEqual(['done.html', 'growing.html'])
  })

  it('nothing for a lab that has none, and a sentence when it has gone', async () => {
    const folders = start()
    expect(await folders.list({ lab })).toEqual({ ok: true, value: { kind: 'none' } })
    expect(await folders.find({ lab })).toEqual({ ok: true, value: { kind: 'none' } })
    await folders.choose(lab, folder)
    rmSync(folder, { recursive: true })
    expect(await folders.list({ lab })).toMatchObject({
      value: {
        kind: 'unreachable',
        path: folder,
        sentence: expect.stringContaining('goes on by itself') as string,
      },
    })
    expect(await folders.find({ lab })).toMatchObject({ value: { kind: 'folder', isReachable: false } })
  })
})

describe('a change is told', () => {
  it('once when a file is complete, and not for what is unfinished', async () => {
    const folders = start()
    await folders.choose(lab, folder)
    await settled()
    put('fans.html.part')
    await settled()
    expect(told).toEqual([])
    renameSync(join(folder, 'fans.html.part'), join(folder, 'fans.html'))
    await vi.waitFor(() => expect(told).toEqual([lab]))
    await settled()
    expect(told).toEqual([lab])
    put('fans.html', 'Rack, written anew')
    await vi.waitFor(() => expect(told.length).toBeGreaterThan(1))
  })

  it.each([
    ['by the system’s notice, long before the slow look', { ...quick, poll: 600_000 }, 'fans.html'],
    ['by the slow look where no notice comes', quick, 'inner/fans.html'],
  ])('%s', async (_what, timings, name) => {
    mkdirSync(join(folder, 'inner'))
    const folders = start(timings)
    await folders.choose(lab, folder)
    await settled()
    put(name)
    await vi.waitFor(() => expect(told).toContain(lab), { timeout: 5000 })
    expect(await namesIn(folders)).toEqual([name])
  })

  it('when the folder goes, when it comes back, and for what is put there then', async () => {
    put('old.html')
    const folders = start()
    await folders.choose(lab, folder)
    expect(await namesIn(folders)).toEqual(['old.html'])
    told = []
    renameSync(folder, `${folder}-away`)
    await vi.waitFor(() => expect(told).toEqual([lab]))
    mkdirSync(folder)
    await vi.waitFor(() => expect(told.length).toBe(2))
    put('new.html')
    await vi.waitFor(() => expect(told.length).toBe(3))
    expect(await namesIn(folders)).toEqual(['new.html'])
  })

  it('to every lab that has the folder, and to none that has left it', async () => {
    const folders = start()
    await folders.choose(lab, folder)
    await folders.choose(other, folder)
    await settled()
    put('one.html')
    await vi.waitFor(() => expect([...told].sort()).toEqual([lab, other]))
    await folders.leave({ lab })
    told = []
    put('two.html')
    await vi.waitFor(() => expect(told).toContain(other))
    expect(told).not.toContain(lab)
    expect(await folders.find({ lab })).toEqual({ ok: true, value: { kind: 'none' } })
    expect(existsSync(join(folder, 'one.html'))).toBe(true)
  })
})

describe('which folder a lab has', () => {
  it('is still known at the next start, in a file that is written whole', async () => {
    await start().choose(lab, folder)
    put('fans.html')
    const again = start()
    expect(await again.find({ lab })).toEqual({
      ok: true,
      value: { kind: 'folder', name: 'pages', path: folder, isReachable: true },
    })
    expect(await namesIn(again)).toEqual(['fans.html'])
    expect(JSON.parse(readFileSync(join(base, 'drop-folders.json'), 'utf8'))).toEqual({
      folders: { [lab]: folder },
    })
  })

  it.each(['', '{', '[]', '{"folders":{"x":1}}'])('is none when the file holds %j', async (text) => {
    writeFileSync(join(base, 'drop-folders.json'), text)
    expect(await start().find({ lab })).toEqual({ ok: true, value: { kind: 'none' } })
  })

  it('stays as it was when it cannot be written down', async () => {
    const folders = start()
    await folders.choose(lab, folder)
    rmSync(join(base, 'drop-folders.json'))
    mkdirSync(join(base, 'drop-folders.json'))
    expect(await folders.choose(lab, base)).toMatchObject({ ok: false, code: 'not written' })
    expect(await folders.leave({ lab })).toMatchObject({ ok: false, code: 'not written' })
    expect(await folders.find({ lab })).toMatchObject({ value: { path: folder } })
  })
})

describe('a file of the drop folder is read', () => {
  it('by its relative name, up to the limit, also a picture beside a page', async () => {
    put('fans.html')
    mkdirSync(join(folder, 'fans_files'))
    put('fans_files/fan.txt', 'x'.repeat(1001))
    const folders = start()
    await folders.choose(lab, folder)
    const read = await folders.read({ lab, name: 'fans.html', limitBytes })
    expect(read).toEqual({
      ok: true,
      value: { kind: 'read', name: 'fans.html', bytes: new TextEncoder().encode('Rack') },
    })
    const large = await folders.read({ lab, name: 'fans_files/fan.txt', limitBytes })
    expect(large).toMatchObject({ value: { kind: 'refused', name: 'fans_files/fan.txt', size: 1001 } })
  })

  it.each([
    '../secret.txt',
    'inner/../../secret.txt',
    '/etc/hostname',
    'out.txt',
    'outside/secret.txt',
    'dangling.txt',
    '.ssh/key',
    'inner',
    'pipe',
    'C:\\secret.txt',
    'missing.txt',
  ])('but not %s', async (name) => {
    writeFileSync(join(base, 'secret.txt'), 'secret')
    mkdirSync(join(folder, 'inner'))
    mkdirSync(join(folder, '.ssh'))
    put('.ssh/key')
    symlinkSync(join(base, 'secret.txt'), join(folder, 'out.txt'))
    symlinkSync(base, join(folder, 'outside'))
    symlinkSync(join(folder, 'nothing'), join(folder, 'dangling.txt'))
    const { execFileSync } = await import('node:child_process')
    execFileSync('mkfifo', [join(folder, 'pipe')])
    const folders = start()
    await folders.choose(lab, folder)
    const read = await folders.read({ lab, name, limitBytes })
    expect(read).toMatchObject({ ok: false, code: 'not read' })
  })

  it('not for a lab that has none, whatever other labs have', async () => {
    put('fans.html')
    const folders = start()
    await folders.choose(other, folder)
    expect(await folders.read({ lab, name: 'fans.html', limitBytes })).toMatchObject({ ok: false })
  })

  it('by a folder that is itself reached through a link, and not from one beside it with a longer name', async () => {
    mkdirSync(`${folder}-private`)
    writeFileSync(`${folder}-private/key.txt`, 'secret')
    put('fans.html')
    symlinkSync(`${folder}-private/key.txt`, join(folder, 'key.txt'))
    symlinkSync(folder, join(base, 'shown'))
    const folders = start()
    await folders.choose(lab, join(base, 'shown'))
    expect(await folders.read({ lab, name: 'fans.html', limitBytes })).toMatchObject({ ok: true })
    expect(await folders.read({ lab, name: 'key.txt', limitBytes })).toMatchObject({ ok: false })
  })

  it.skipIf(process.getuid?.() === 0)('with a sentence where the system refuses', async () => {
    put('locked.html')
    chmodSync(join(folder, 'locked.html'), 0)
    const folders = start()
    await folders.choose(lab, folder)
    expect(await folders.read({ lab, name: 'locked.html', limitBytes })).toMatchObject({
      sentence: expect.stringContaining('may not be used by you') as string,
    })
  })
})
