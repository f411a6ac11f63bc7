import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import {
  SketchDrawer,
  type Apart,
  type SketchMessage,
  type SketchRequest,
} from '../../../../renderer/workers/sketch.ts'
import type { Drawn } from '../../../../shared/sketch/drawn.ts'

const drawing = (text: string): Drawn => ({
  ok: true,
  kind: 'Flow chart',
  title: null,
  svg: { type: 'element', tagName: 'svg', properties: { viewBox: '0 0 9 9' }, children: [] },
  width: 9,
  height: 9,
  labels: [text],
})

/** A worker that answers when it is told to. */
class HeldWorker implements Apart {
  onmessage: Apart['onmessage'] = null
  onerror: Apart['onerror'] = null
  readonly asked: SketchRequest[] = []
  isOver = false

  postMessage(request: SketchRequest): void {
    this.asked.push(request)
  }
  terminate(): void {
    this.isOver = true
  }
  say(message: SketchMessage): void {
    this.onmessage?.({ data: message } as MessageEvent<SketchMessage>)
  }
  answer(change: (drawn: Drawn) => Drawn = (drawn) => drawn): void {
    const { number, text } = this.asked.at(-1)!
    this.say({ kind: 'drawn', number, result: change(drawing(text)) })
  }
}

const times = { patienceMs: 100, firstPatienceMs: 500, idleMs: 1000 }
let workers: HeldWorker[]
let drawer: SketchDrawer
const texts = (): string[] => workers.flatMap(({ asked }) => asked.map(({ text }) => text))
const settle = (): Promise<unknown> => vi.advanceTimersByTimeAsync(0)

beforeEach(() => {
  vi.useFakeTimers()
  workers = []
  drawer = new SketchDrawer(() => {
    const worker = new HeldWorker()
    workers.push(worker)
    return worker
  }, times)
})
afterEach(() => vi.useRealTimers())

describe('drawing apart', () => {
  test('no worker runs before a diagram is asked for; one text is drawn once for all who ask', async () => {
    expect(workers).toHaveLength(0)
    const [one, other] = [drawer.draw('a'), drawer.draw('a')]
    await settle()
    workers[0]!.answer()
    expect(await one.answer).toBe(await other.answer)
    expect(drawer.find('a')).toBe(await one.answer)
    await drawer.draw('a').answer
    expect(texts()).toEqual(['a'])
  })

  test('texts are drawn one after the other, and those that nobody waits for any more are left out', async () => {
    drawer.draw('a')
    const gone = drawer.draw('b')
    const again = drawer.draw('c')
    again.stop()
    drawer.draw('c')
    await settle()
    gone.stop()
    gone.stop()
    expect(texts()).toEqual(['a'])
    workers[0]!.answer()
    expect(texts()).toEqual(['a', 'c'])
  })

  test('what takes too long is ended and said, and the next text gets a fresh worker', async () => {
    const first = drawer.draw('a')
    await settle()
    workers[0]!.answer()
    await first.answer
    const slow = drawer.draw('slow')
    const next = drawer.draw('next')
    await vi.advanceTimersByTimeAsync(99)
    expect(workers[0]!.isOver).toBe(false)
    await vi.advanceTimersByTimeAsync(1)
    expect(workers[0]!.isOver).toBe(true)
    expect(await slow.answer).toMatchObject({ ok: false, code: 'too slow' })
    expect(workers[1]!.asked.map(({ text }) => text)).toEqual(['next'])
    workers[1]!.answer()
    expect(await next.answer).toMatchObject({ ok: true })
    expect(drawer.find('slow')).toMatchObject({ code: 'too slow' })
  })

  test('the first drawing has longer, since the library is loaded for it', async () => {
    const first = drawer.draw('a')
    await vi.advanceTimersByTimeAsync(400)
    workers[0]!.answer()
    expect(await first.answer).toMatchObject({ ok: true })
  })

  test('an answer that comes late, after its worker was ended, changes nothing', async () => {
    const slow = drawer.draw('slow')
    await vi.advanceTimersByTimeAsync(500)
    await slow.answer
    const next = drawer.draw('next')
    await settle()
    workers[0]!.answer()
    workers[1]!.answer()
    expect(await next.answer).toMatchObject({ labels: ['next'] })
  })

  test('a worker that breaks is said, not kept, and tried anew', async () => {
    const complaint = vi.spyOn(console, 'error').mockReturnValue()
    const broken = drawer.draw('a')
    await settle()
    workers[0]!.onerror!({ message: 'no' } as ErrorEvent)
    expect(await broken.answer).toMatchObject({ ok: false, code: 'broken' })
    expect(drawer.find('a')).toBeUndefined()
    const again = drawer.draw('a')
    await settle()
    workers[1]!.answer()
    expect(await again.answer).toMatchObject({ ok: true })
    expect(complaint).toHaveBeenCalledOnce()
  })

  test('the worker goes when there was nothing to draw for a while', async () => {
    const one = drawer.draw('a')
    await settle()
    workers[0]!.answer()
    await one.answer
    await vi.advanceTimersByTimeAsync(999)
    expect(workers[0]!.isOver).toBe(false)
    await vi.advanceTimersByTimeAsync(1)
    expect(workers[0]!.isOver).toBe(true)
  })

  test('only so many drawings are kept, those last asked for', async () => {
    for (let i = 0; i < 200; i += 1) {
      const work = drawer.draw(String(i))
      await settle()
      workers[0]!.answer()
      await work.answer
      drawer.find('0')
    }
    expect(drawer.find('0')).toBeDefined()
    expect(drawer.find('1')).toBeUndefined()
    expect(drawer.find('199')).toBeDefined()
    const kept = Array.from({ length: 200 }, (_, i) => drawer.find(String(i))).filter(Boolean)
    expect(kept).toHaveLength(150)
  })

  test('what comes from the worker is held to the list of what may be shown', async () => {
    const work = drawer.draw('a')
    await settle()
    workers[0]!.answer((drawn) => ({
      ...drawn,
      svg: {
        ...drawn.svg,
        properties: { viewBox: '0 0 9 9', onLoad: 'alert(1)' },
        children: [
          {
            type: 'element',
            tagName: 'script',
            properties: {},
            children: [{ type: 'text', value: 'alert(1)' }],
          },
        ],
      },
    }))
    const result = await work.answer
    expect(JSON.stringify(result)).not.toContain('alert')
  })
})
