/** What comes at a prompt at which nothing was typed, and what does not. */
import { describe, expect, it } from 'vitest'
import type { FoundCommand } from '../../../../../shared/journal/terminal/found.ts'
import { LogReader } from '../../../../../shared/journal/terminal/reader.ts'

async function read(text: string): Promise<FoundCommand[]> {
  const found: FoundCommand[] = []
  const reader = new LogReader({ columns: 80, rows: 24, onFound: (one) => found.push(one) })
  await reader.push(new TextEncoder().encode(text.replaceAll('\n', '\r\n')), 0)
  reader.end()
  return found
}

const told = (found: readonly FoundCommand[]): string[][] =>
  found.map(({ command, output }) => [command, output])

const prompt = 'root@gate:/etc# '
const A = '\u001b]133;A\u0007'
const B = '\u001b]133;B\u0007'
const C = '\u001b]133;C\u0007'
const D = '\u001b]133;D;0\u0007'
const marked = `${A}gate# ${B}`

describe('a terminal that is reset', () => {
  const noise = String.fromCharCode(
    ...Array.from({ length: 3000 }, (_, i) => (i * 7919 + (i >> 3) * 31) % 128),
  )

  it.each([
    ['at once', ''],
    ['behind many lines', 'line\n'.repeat(300)],
    ['on the alternate screen', '\u001b[?1049hfull screen'],
    ['behind bytes that are no text', noise],
  ])('loses nothing from before and goes on: %s', async (_, between) => {
    const text = `${prompt}date\nFriday\n${prompt}cat what\n${between}\u0018\u001b\\\u001bc${prompt}pwd\n/etc\n${prompt}`
    const found = told(await read(text))
    expect(found.map(([command]) => command)).toEqual(['date', 'cat what', 'pwd'])
    expect(found.at(-1)).toEqual(['pwd', '/etc'])
  })
})

describe('what comes at an empty prompt', () => {
  it('is offered as output alone, where prompts are learned', async () => {
    const text = `${prompt}sleep 2 &\n[1] 4711\n${prompt}\n[1]+  Done   sleep 2\n${prompt}\n${prompt}date\nFriday\n${prompt}`
    expect(told(await read(text))).toEqual([
      ['sleep 2 &', '[1] 4711'],
      ['', '[1]+  Done   sleep 2'],
      ['date', 'Friday'],
    ])
  })

  it('is offered at its place, and at the end of a log too', async () => {
    const text = `${prompt}true\n${prompt}\nThe system will power off now!\n`
    const found = await read(text)
    expect(told(found)).toEqual([
      ['true', ''],
      ['', 'The system will power off now!'],
    ])
    expect(found[1]!.place).toEqual({ host: 'gate', user: 'root', directory: '/etc' })
  })

  it('is offered where the shell marks its prompts', async () => {
    const text = `${marked}sleep 2 &\n${C}[1] 4711\n${D}${marked}\n[1]+  Done   sleep 2\n${marked}\n${marked}date\n${C}Friday\n${D}${marked}`
    expect(told(await read(text))).toEqual([
      ['sleep 2 &', '[1] 4711'],
      ['', '[1]+  Done   sleep 2'],
      ['date', 'Friday'],
    ])
  })

  it('is nothing where a command was given up, a remark typed, or an editor listed what fits', async () => {
    expect(told(await read(`${prompt}rm -r x^C\n${prompt}# later\n${prompt}true\n${prompt}`))).toEqual([
      ['true', ''],
    ])
    const listing = `${marked}ls \ncheck.py  conf\n${marked}ls conf\n${C}logger.conf\n${D}${marked}`
    expect(told(await read(listing))).toEqual([['ls conf', 'logger.conf']])
  })
})
