import { describe, expect, test, vi } from 'vitest'
import {
  IntakeQueue,
  unknownOf,
  type EndedRun,
  type IntakeItem,
  type IntakeRun,
  type ItemEnd,
  type QueueParts,
  type TakenIn,
} from '../../../../../renderer/panes/sources/intakeQueue.ts'
import {
  IntakeCancelled,
  type IntakeAnswer,
  type IntakeProgress,
  type IntakeTask,
} from '../../../../../renderer/workers/intake.ts'
import { nothingStated } from '../../../../../shared/intake/taken.ts'

const item = (name: string, more: Partial<IntakeItem> = {}): IntakeItem => ({
  ...unknownOf,
  name,
  wayIn: 'file',
  task: { kind: 'text', name, text: name },
  ...more,
})
const runOf = (items: readonly IntakeItem[], more: Partial<IntakeRun<string>> = {}): IntakeRun<string> => ({
  place: 'project',
  items,
  isInFolders: false,
  isQuiet: false,
  wasTaken: () => false,
  onEnd: () => undefined,
  ...more,
})
const run = (...names: string[]) => runOf(names.map((name) => item(name)))

const taken = (title: string): TakenIn => ({
  ok: true,
  title,
  address: null,
  kind: 'text',
  text: title,
  mediaType: 'text/plain',
  ...nothingStated,
  notes: [],
  bytes: new Uint8Array(),
  sha256: title,
})
const kinds = ({ ends }: EndedRun<string>) => ends.map(({ kind }) => kind)
const there: ItemEnd = { kind: 'there', source: null, change: null }

interface Running {
  readonly task: IntakeTask
  readonly tell: (progress: IntakeProgress) => void
  readonly answer: (answer: IntakeAnswer) => void
  readonly break: (error: unknown) => void
}

/** A queue whose work is ended by the test. Its keeper keeps nothing before the run ends, like a batch. */
function setUp(parts: Partial<QueueParts<string>> = {}) {
  const running: Running[] = []
  const kept: string[] = []
  const through: EndedRun<string>[] = []
  const queue = new IntakeQueue<string>({
    takeIn: (task, tell) => {
      let cancel = (): void => undefined
      const answer = new Promise<IntakeAnswer>((resolve, reject) => {
        cancel = () => reject(new IntakeCancelled())
        running.push({ task, tell, answer: resolve, break: reject })
      })
      return { answer, cancel: () => cancel() }
    },
    beginKeeping: (_run, onEnd) => {
      const batch: [IntakeItem, string][] = []
      return {
        keep: (one, { sha256 }) => Promise.resolve(void batch.push([one, sha256])),
        keepLink: (one) => Promise.resolve(void batch.push([one, 'link'])),
        finish: () => {
          for (const [one, sha256] of batch) {
            kept.push(one.name)
            onEnd(one, there, sha256)
          }
          return Promise.resolve()
        },
      }
    },
    onBookmarks: () => undefined,
    onThrough: (ended) => through.push(ended),
    pause: () => Promise.resolve(),
    ...parts,
  })
  const answerAll = async (count: number): Promise<void> => {
    for (let at = 0; at < count; at++) {
      await vi.waitFor(() => expect(running.length).toBeGreaterThan(at))
      running[at]!.answer(taken(running[at]!.task.name))
    }
  }
  return { queue, running, kept, through, answerAll, state: () => queue.store.getState() }
}
const idle = { current: null, waiting: 0, problems: [] }

describe('taking things in', () => {
  test('one is under way at a time, in the order in which they came', async () => {
    const { queue, running, kept, through, state } = setUp()
    const ended = queue.add(run('a', 'b', 'c'))
    for (const at of [0, 1, 2]) {
      await vi.waitFor(() => expect(running.length).toBe(at + 1))
      expect(state()).toMatchObject({
        current: { words: `Reading ${'abc'[at]!}`, at: at + 1, of: 3 },
        waiting: 2 - at,
      })
      running[at]!.answer(taken(running[at]!.task.name))
    }
    expect(kinds(await ended)).toEqual(['there', 'there', 'there'])
    expect(kept).toEqual(['a', 'b', 'c'])
    expect(through.length).toBe(1)
    expect(state()).toEqual(idle)
  })

  test('progress is shown with what is being done, and the page of a paged document', async () => {
    const { queue, running, state } = setUp()
    void queue.add(run('log'))
    await vi.waitFor(() => expect(running.length).toBe(1))
    running[0]!.tell({ doing: 'reading', share: 0.4 })
    expect(state().current).toEqual({ words: 'Reading log', share: 0.4, at: 1, of: 1 })
    running[0]!.tell({ doing: 'cleaning', share: 0.5, page: { at: 3, of: 6 } })
    expect(state().current).toEqual({ words: 'Cleaning log, page 3 of 6', share: 0.5, at: 1, of: 1 })
  })

  test('progress too small to be seen draws nothing anew', async () => {
    const { queue, running } = setUp()
    void queue.add(run('log'))
    await vi.waitFor(() => expect(running.length).toBe(1))
    let drawn = 0
    queue.store.subscribe(() => drawn++)
    for (let at = 0; at < 10_000; at++) running[0]!.tell({ doing: 'reading', share: at / 10_000 })
    expect(drawn).toBeLessThanOrEqual(101)
  })

  test('what fails ends with its sentence, and the next one goes on', async () => {
    const { queue, running, answerAll } = setUp()
    const ended = queue.add(run('bad', 'good'))
    await vi.waitFor(() => expect(running.length).toBe(1))
    running[0]!.answer({ ok: false, code: 'empty', sentence: 'Nothing in it.' })
    await answerAll(2)
    expect((await ended).ends).toEqual([{ kind: 'failed', sentence: 'Nothing in it.' }, there])
  })

  test('a file is fetched only when its turn comes, and what cannot be fetched fails with its sentence', async () => {
    const fetched: string[] = []
    const lazily = (name: string, isThere: boolean) =>
      item(name, {
        task: () => {
          fetched.push(name)
          return Promise.resolve(
            isThere
              ? { ok: true, task: { kind: 'text', name, text: name } }
              : { ok: false, sentence: 'It is gone.' },
          )
        },
      })
    const { queue, running, answerAll } = setUp()
    const ended = queue.add(runOf([lazily('a', true), lazily('b', false), lazily('c', true)]))
    await vi.waitFor(() => expect(running.length).toBe(1))
    expect(fetched).toEqual(['a'])
    await answerAll(2)
    expect((await ended).ends).toEqual([there, { kind: 'failed', sentence: 'It is gone.' }, there])
  })

  test('bookmarks are handed on and hold nothing up', async () => {
    const asked: string[] = []
    const { queue, running, answerAll } = setUp({ onBookmarks: (_run, { name }) => void asked.push(name) })
    const ended = queue.add(run('bookmarks.html', 'page.html'))
    await vi.waitFor(() => expect(running.length).toBe(1))
    const links = {
      ok: true,
      kind: 'bookmarks',
      links: [],
      notes: [],
      bytes: new Uint8Array(),
      sha256: 'x',
    } as const
    running[0]!.answer(links)
    await answerAll(2)
    expect(kinds(await ended)).toEqual(['asked', 'there'])
    expect(asked).toEqual(['bookmarks.html'])
  })

  test('an address without text is kept without being read', async () => {
    const { queue, running } = setUp()
    const address = 'https://docs.example.org/'
    const ended = await queue.add(runOf([item('x', { task: { kind: 'link', address }, address })]))
    expect(kinds(ended)).toEqual(['there'])
    expect(running.length).toBe(0)
  })

  test('one that is called off is not kept, and what waits goes on', async () => {
    const { queue, running, kept, answerAll } = setUp()
    const ended = queue.add(run('a', 'b'))
    await vi.waitFor(() => expect(running.length).toBe(1))
    queue.cancel()
    await answerAll(2)
    expect(kinds(await ended)).toEqual(['cancelled', 'there'])
    expect(kept).toEqual(['b'])
  })

  test('one that is called off while it is fetched is not read', async () => {
    let give: () => void = () => undefined
    const slow = item('slow', {
      task: () =>
        new Promise((resolve) => {
          give = () => resolve({ ok: true, task: { kind: 'text', name: 'slow', text: '' } })
        }),
    })
    const { queue, running } = setUp()
    const ended = queue.add(runOf([slow]))
    await vi.waitFor(() => expect(queue.store.getState().current).not.toBeNull())
    queue.cancel()
    give()
    expect(kinds(await ended)).toEqual(['cancelled'])
    expect(running.length).toBe(0)
  })

  test('all can be called off at once; what was read before stays', async () => {
    const { queue, running, kept, state } = setUp()
    const told: string[] = []
    const onEnd = ({ name }: IntakeItem, { kind }: ItemEnd): void => void told.push(`${name} ${kind}`)
    const first = queue.add(
      runOf(
        ['a', 'b', 'c', 'd'].map((name) => item(name)),
        { onEnd },
      ),
    )
    const second = queue.add(runOf([item('e')], { onEnd }))
    await vi.waitFor(() => expect(running.length).toBe(1))
    running[0]!.answer(taken('a'))
    await vi.waitFor(() => expect(running.length).toBe(2))
    queue.cancelAll()
    expect(kinds(await first)).toEqual(['there', 'cancelled', 'cancelled', 'cancelled'])
    expect(kinds(await second)).toEqual(['cancelled'])
    expect(kept).toEqual(['a'])
    expect(told.sort()).toEqual(['a there', 'b cancelled', 'c cancelled', 'd cancelled', 'e cancelled'])
    expect(state()).toEqual(idle)
    const third = queue.add(run('f'))
    await vi.waitFor(() => expect(running.length).toBe(3))
    running[2]!.answer(taken('f'))
    expect(kinds(await third)).toEqual(['there'])
  })

  test('a few things that come while many are read go in between them', async () => {
    const { queue, running } = setUp()
    const many = queue.add(run(...Array.from({ length: 20 }, (_, at) => `many ${at}`)))
    await vi.waitFor(() => expect(running.length).toBe(1))
    const few = queue.add(run('few'))
    running[0]!.answer(taken('many 0'))
    await vi.waitFor(() => expect(running.length).toBe(2))
    expect(running[1]!.task.name).toBe('few')
    running[1]!.answer(taken('few'))
    expect(kinds(await few)).toEqual(['there'])
    for (let at = 2; at < 21; at++) {
      await vi.waitFor(() => expect(running.length).toBe(at + 1))
      running[at]!.answer(taken('many'))
    }
    expect(kinds(await many).every((kind) => kind === 'there')).toBe(true)
  })

  test('a worker that breaks ends in a sentence with the name, and the queue goes on', async () => {
    const logged = vi.spyOn(console, 'error').mockImplementation(() => undefined)
    const { queue, running } = setUp()
    const first = queue.add(run('odd.html'))
    await vi.waitFor(() => expect(running.length).toBe(1))
    running[0]!.break(new Error('boom'))
    expect((await first).ends).toMatchObject([{ kind: 'failed' }])
    expect((await first).ends[0]).toHaveProperty('sentence', expect.stringContaining('“odd.html”'))
    expect(logged).toHaveBeenCalledOnce()
    const second = queue.add(run('b'))
    await vi.waitFor(() => expect(running.length).toBe(2))
    running[1]!.answer(taken('b'))
    expect(kinds(await second)).toEqual(['there'])
    logged.mockRestore()
  })

  test('a sentence that is told stays until it is dismissed', () => {
    const { queue, state } = setUp()
    queue.tell('No room.', 'the words')
    expect(state().problems).toEqual([{ id: 1, sentence: 'No room.', rescue: 'the words' }])
    queue.dismiss(1)
    expect(state()).toEqual(idle)
  })

  test('cancelling with nothing under way does nothing', async () => {
    const { queue, state, answerAll } = setUp()
    queue.cancel()
    queue.cancelAll()
    expect(state()).toEqual(idle)
    const ended = queue.add(run('a'))
    await answerAll(1)
    expect(kinds(await ended)).toEqual(['there'])
  })
})
