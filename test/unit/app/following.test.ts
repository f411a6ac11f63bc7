import { execFileSync, spawn } from 'node:child_process'
import {
  appendFileSync,
  createWriteStream,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { Followings } from '../../../app/following.ts'
import { KeptLogs, type KeptLog } from '../../../app/kept-logs.ts'
import { largestLogPiece, type LogPiece } from '../../../shared/host.ts'

const lab = '0198a8c0-0000-7000-8000-000000000001'
const window = {}

let base = ''
let log = ''
let open: Followings[] = []

function start(): Followings {
  const followings = new Followings({ look: 60, absent: 30 })
  open.push(followings)
  return followings
}
const kept = (path = log, timing: string | null = null): KeptLog => ({ log: 'a'.repeat(32), path, timing })

interface Follower {
  readonly token: string
  readonly opened: { kind: string; size: number; identity: string; offset: number }
  /** Reads until what came satisfies; what came before is kept. */
  until(isEnough: (pieces: readonly LogPiece[]) => boolean): Promise<readonly LogPiece[]>
}

async function follow(
  followings: Followings,
  named = kept(),
  after: { identity: string; offset: number } | null = null,
): Promise<Follower> {
  const result = await followings.follow(window, named, after)
  if (!result.ok) throw new Error(result.sentence)
  const pieces: LogPiece[] = []
  return {
    token: result.value.following,
    opened: result.value,
    until: async (isEnough) => {
      while (!isEnough(pieces)) {
        const read = await followings.read(window, result.value.following)
        if (!read.ok || read.value.kind === 'stopped') throw new Error(`ended with ${JSON.stringify(read)}`)
        pieces.push(...read.value.pieces)
      }
      return pieces
    },
  }
}

const textOf = (pieces: readonly LogPiece[], of: LogPiece['of'] = 'log'): string =>
  pieces
    .map((piece) =>
      piece.kind === 'bytes' && piece.of === of ? Buffer.from(piece.bytes).toString('latin1') : '',
    )
    .join('')
const changesOf = (pieces: readonly LogPiece[]): string[] =>
  pieces.flatMap((piece) => (piece.kind === 'changed' ? [piece.how] : []))
const isCaughtUp = (pieces: readonly LogPiece[]): boolean =>
  pieces.some((piece) => piece.kind === 'caught up')
const ends =
  (text: string) =>
  (pieces: readonly LogPiece[]): boolean =>
    textOf(pieces).endsWith(text)
const changed =
  (how: string) =>
  (pieces: readonly LogPiece[]): boolean =>
    changesOf(pieces).includes(how)

beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'stillroom-follow-'))
  log = join(base, 'logger.log')
  writeFileSync(log, 'mast up\r\n')
})
afterEach(() => {
  for (const followings of open) followings.stopAll()
  open = []
  rmSync(base, { recursive: true, force: true })
})

describe('a followed file', () => {
  it('gives what stood there as earlier, then what comes with its time and place', async () => {
    const follower = await follow(start())
    expect(follower.opened).toMatchObject({ kind: 'file', size: 9, offset: 0 })
    expect(await follower.until(isCaughtUp)).toEqual([
      { kind: 'bytes', of: 'log', offset: 0, bytes: Uint8Array.from(readFileSync(log)), arrivedMs: null },
      { kind: 'caught up', of: 'log' },
    ])
    const before = Date.now()
    appendFileSync(log, 'vane up\r\n')
    const pieces = await follower.until(ends('vane up\r\n'))
    const last = pieces.at(-1)
    expect(last).toMatchObject({ kind: 'bytes', offset: 9 })
    expect(last?.kind === 'bytes' && last.arrivedMs! - before).toBeGreaterThanOrEqual(-1)
    expect(last?.kind === 'bytes' && Date.now() - last.arrivedMs!).toBeGreaterThanOrEqual(0)
  })

  it('gives every byte once, in order, while it is written', async () => {
    const follower = await follow(start())
    let written = 'mast up\r\n'
    const writing = (async () => {
      for (let i = 0; i < 300; i += 1) {
        const text = `${i}: ${'x'.repeat((i * 37) % 400)}\r\n`
        written += text
        appendFileSync(log, text)
        if (i % 10 === 0) await new Promise((resolve) => setTimeout(resolve, 3))
      }
      appendFileSync(log, 'end')
    })()
    expect(textOf(await follower.until(ends('end')))).toBe(`${written}end`)
    await writing
  })

  it('of 100 MB comes in pieces that are bounded, and nothing is read ahead', async () => {
    const line = Buffer.from('2026-11-25T22:11:24Z mast-3 wind 4.1 m/s from 270 deg\r\n')
    writeFileSync(log, Buffer.alloc(100_000_000, line))
    const followings = start()
    const follower = await follow(followings)
    const before = process.memoryUsage().arrayBuffers
    let bytes = 0
    let most = 0
    for (let isDone = false; !isDone;) {
      const read = await followings.read(window, follower.token)
      if (!read.ok || read.value.kind === 'stopped') throw new Error('ended')
      const size = read.value.pieces.reduce(
        (sum, piece) => sum + (piece.kind === 'bytes' ? piece.bytes.length : 0),
        0,
      )
      bytes += size
      most = Math.max(most, size)
      isDone = isCaughtUp(read.value.pieces)
    }
    expect(bytes).toBe(100_000_000)
    expect(most).toBeLessThanOrEqual(largestLogPiece)
    // Whatever the collector has not looked at yet is far less than the file.
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(60_000_000)
  })

  it('keeps when bytes came while nobody read them', async () => {
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    const times: number[] = []
    for (const text of ['one', 'two', 'three']) {
      times.push(Date.now())
      appendFileSync(log, text)
      await new Promise((resolve) => setTimeout(resolve, 120))
    }
    const pieces = await follower.until(ends('three'))
    const came = pieces.flatMap((piece) =>
      piece.kind === 'bytes' && piece.arrivedMs !== null ? [piece.arrivedMs] : [],
    )
    expect(came).toHaveLength(3)
    for (const [i, ms] of came.entries()) expect(Math.abs(ms - times[i]!)).toBeLessThan(100)
  })

  it('that is emptied (as by copytruncate) is said and read from its start', async () => {
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    truncateSync(log, 0)
    await follower.until(changed('truncated'))
    appendFileSync(log, 'new day\r\n')
    const pieces = await follower.until(ends('new day\r\n'))
    expect(pieces.at(-1)).toMatchObject({ offset: 0 })
    expect(changesOf(pieces)).toEqual(['truncated'])
  })

  it('that is emptied and at once longer than before is seen by what stands there', async () => {
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    writeFileSync(log, 'a new day begins with more words\r\n')
    const pieces = await follower.until(ends('more words\r\n'))
    expect(textOf(pieces)).toBe('mast up\r\na new day begins with more words\r\n')
    expect(changesOf(pieces)).toEqual(['truncated'])
  })

  it('whose writer goes on at its old place behind an emptying gives no zeros', async () => {
    const writer = createWriteStream(log, { flags: 'r+', start: 9 })
    const write = (text: string): Promise<void> =>
      new Promise((resolve) => void writer.write(text, () => resolve()))
    await write('x'.repeat(5000))
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    truncateSync(log, 0)
    await write('new day\r\n')
    const pieces = await follower.until(ends('new day\r\n'))
    expect(changesOf(pieces)).toEqual(['truncated'])
    expect(textOf(pieces)).not.toContain('\0')
    writer.destroy()
  })

  it('that is rotated is read to its end, and then the new one', async () => {
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    renameSync(log, `${log}.1`)
    appendFileSync(`${log}.1`, 'last of the old\r\n')
    writeFileSync(log, 'first of the new\r\n')
    appendFileSync(log, 'and more\r\n')
    const pieces = await follower.until(ends('and more\r\n'))
    expect(textOf(pieces)).toBe('mast up\r\nlast of the old\r\nfirst of the new\r\nand more\r\n')
    expect(changesOf(pieces).filter((how) => how !== 'deleted')).toEqual(['replaced'])
    const at = pieces.findIndex((piece) => piece.kind === 'changed' && piece.how === 'replaced')
    expect(textOf(pieces.slice(at))).toBe('first of the new\r\nand more\r\n')
    appendFileSync(log, 'still noticed\r\n')
    await follower.until(ends('still noticed\r\n'))
  })

  it('that is deleted is said once, read on while it is written, and taken up again when it is back', async () => {
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    const writer = createWriteStream(log, { flags: 'a' })
    await new Promise((resolve) => writer.once('open', resolve))
    unlinkSync(log)
    await follower.until(changed('deleted'))
    writer.write('written without a name\r\n')
    await follower.until(ends('without a name\r\n'))
    await new Promise((resolve) => setTimeout(resolve, 150))
    writeFileSync(log, 'back\r\n')
    const pieces = await follower.until(ends('back\r\n'))
    expect(changesOf(pieces)).toEqual(['deleted', 'replaced'])
    writer.destroy()
  })

  it('whose folder goes and comes back goes on where it was', async () => {
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    renameSync(base, `${base}-away`)
    await follower.until(changed('deleted'))
    appendFileSync(join(`${base}-away`, 'logger.log'), 'meanwhile\r\n')
    renameSync(`${base}-away`, base)
    const pieces = await follower.until((some) => changed('back')(some) && ends('meanwhile\r\n')(some))
    expect(textOf(pieces)).toBe('mast up\r\nmeanwhile\r\n')
    expect(changesOf(pieces)).toEqual(['deleted', 'back'])
  })

  it('in whose place something else stands is said, and survived', async () => {
    const follower = await follow(start())
    await follower.until(isCaughtUp)
    renameSync(log, `${log}.1`)
    mkdirSync(log)
    const pieces = await follower.until(changed('unreadable'))
    expect(pieces.at(-1)).toMatchObject({
      sentence: expect.stringContaining('no regular file any more') as string,
    })
    rmSync(log, { recursive: true })
    writeFileSync(log, 'a file again\r\n')
    await follower.until(ends('a file again\r\n'))
  })

  it('goes on behind what was read before, where it is still the same file', async () => {
    const followings = start()
    const first = await follow(followings)
    appendFileSync(log, 'later\r\n')
    const again = await follow(followings, kept(), { identity: first.opened.identity, offset: 9 })
    expect(again.opened.offset).toBe(9)
    expect(textOf(await again.until(isCaughtUp))).toBe('later\r\n')
    unlinkSync(log)
    writeFileSync(log, 'another file\r\n')
    const other = await follow(followings, kept(), { identity: first.opened.identity, offset: 9 })
    expect(textOf(await other.until(isCaughtUp))).toBe('another file\r\n')
  })

  it('with a timing file gives both, the timing first', async () => {
    const timing = join(base, 'logger.tm')
    writeFileSync(timing, '0.5 9\n')
    const follower = await follow(start(), kept(log, timing))
    const pieces = await follower.until(
      (some) => some.filter(({ kind }) => kind === 'caught up').length === 2,
    )
    expect(pieces.map((piece) => `${piece.kind} ${piece.of}`)).toEqual([
      'bytes timing',
      'caught up timing',
      'bytes log',
      'caught up log',
    ])
    appendFileSync(timing, '1.0 2\n')
    await follower.until((some) => textOf(some, 'timing').endsWith('1.0 2\n'))
  })
})

describe.skipIf(process.platform === 'win32')('a named pipe', () => {
  it('is read as it is written, also by one writer after the other', async () => {
    const pipe = join(base, 'console')
    execFileSync('mkfifo', [pipe])
    const follower = await follow(start(), kept(pipe))
    expect(follower.opened.kind).toBe('pipe')
    for (const text of ['first writer\n', 'second writer\n']) {
      spawn('sh', ['-c', `printf '${text}' > '${pipe}'`])
      await follower.until((some) => ends(text)(some) && changed('writer gone')(some))
    }
    expect(textOf(await follower.until(() => true))).toBe('first writer\nsecond writer\n')
  })

  it('loses nothing of many writers that come one close behind the other', async () => {
    const pipe = join(base, 'console')
    execFileSync('mkfifo', [pipe])
    const follower = await follow(start(), kept(pipe))
    spawn('sh', [
      '-c',
      `i=0; while [ $i -lt 200 ]; do printf "$i," > '${pipe}'; i=$((i+1)); done; printf end > '${pipe}'`,
    ])
    const pieces = await follower.until(ends('end'))
    expect(textOf(pieces)).toBe(`${Array.from({ length: 200 }, (_, i) => `${i},`).join('')}end`)
  })

  it('lets its writer wait rather than fill memory', async () => {
    const pipe = join(base, 'console')
    execFileSync('mkfifo', [pipe])
    const followings = start()
    const follower = await follow(followings, kept(pipe))
    const writer = spawn('sh', ['-c', `head -c 5000000 /dev/zero | tr '\\0' x > '${pipe}'`])
    await new Promise((resolve) => setTimeout(resolve, 300))
    expect(writer.exitCode).toBe(null)
    const pieces = await follower.until(changed('writer gone'))
    expect(textOf(pieces)).toHaveLength(5_000_000)
  })

  it('that is deleted and made again is read again', async () => {
    const pipe = join(base, 'console')
    execFileSync('mkfifo', [pipe])
    const follower = await follow(start(), kept(pipe))
    unlinkSync(pipe)
    await follower.until(changed('deleted'))
    execFileSync('mkfifo', [pipe])
    await follower.until(changed('back'))
    spawn('sh', ['-c', `printf again > '${pipe}'`])
    await follower.until(ends('again'))
  })
})

describe('following', () => {
  it('several logs at once keeps them apart', async () => {
    const followings = start()
    const paths = ['a.log', 'b.log'].map((name) => join(base, name))
    for (const path of paths) writeFileSync(path, '')
    const [one, two] = await Promise.all(
      paths.map((path, i) => follow(followings, { ...kept(path), log: String(i).repeat(32) })),
    )
    appendFileSync(paths[1]!, 'two')
    expect(textOf(await two!.until(ends('two')))).toBe('two')
    appendFileSync(paths[0]!, 'one')
    expect(textOf(await one!.until(ends('one')))).toBe('one')
  })

  it('ends for whoever waits, and nobody else can read or stop it', async () => {
    const followings = start()
    const follower = await follow(followings)
    await follower.until(isCaughtUp)
    const other = {}
    expect(await followings.read(other, follower.token)).toMatchObject({ ok: false, code: 'not read' })
    followings.stop(other, follower.token)
    const waiting = followings.read(window, follower.token)
    followings.stop(window, follower.token)
    expect(await waiting).toEqual({ ok: true, value: { kind: 'stopped' } })
    expect(await followings.read(window, follower.token)).toMatchObject({ ok: false })
  })

  it('is for one window at a time, and ends when that window goes', async () => {
    const followings = start()
    await follow(followings)
    const other = {}
    const refused = await followings.follow(other, kept(), null)
    expect(refused).toMatchObject({
      ok: false,
      sentence: expect.stringContaining('another window') as string,
    })
    followings.stopOwner(window)
    expect(await followings.follow(other, kept(), null)).toMatchObject({ ok: true })
  })

  it('refuses what is no file or pipe, and what is not there, with a sentence', async () => {
    const followings = start()
    const sentenceOf = async (path: string): Promise<string> => {
      const result = await followings.follow(window, kept(path), null)
      return result.ok ? '' : result.sentence
    }
    expect(await sentenceOf(base)).toContain('neither a file nor a named pipe')
    expect(await sentenceOf('/dev/null')).toContain('is a device')
    expect(await sentenceOf(join(base, 'none'))).toContain('it is not there any more')
  })
})

describe('named logs', () => {
  const file = (): string => join(base, 'logs.json')

  it('are remembered for each lab across starts, with their timing files, until forgotten', async () => {
    const logs = new KeptLogs(file())
    const added = await logs.add(lab, log)
    if (!added.ok) throw new Error(added.sentence)
    expect(await logs.add(lab, log)).toEqual(added)
    await logs.setTiming(lab, added.value, `${log}.tm`)
    const again = new KeptLogs(file())
    expect(again.list(lab)).toEqual([{ ...added.value, timing: `${log}.tm` }])
    expect(again.list('other')).toEqual([])
    await again.forget(lab, added.value.log)
    expect(new KeptLogs(file()).list(lab)).toEqual([])
  })

  it('that cannot be written down are refused with a sentence and not named', async () => {
    const logs = new KeptLogs(join(base, 'none', 'logs.json'))
    expect(await logs.add(lab, log)).toMatchObject({ ok: false, code: 'not written' })
    expect(logs.list(lab)).toEqual([])
  })

  it('are none where the file is damaged', () => {
    writeFileSync(file(), '{"logs": [1]')
    expect(new KeptLogs(file()).list(lab)).toEqual([])
  })
})
