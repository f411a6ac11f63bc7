/**
 * Tidied texts as another reader of Markdown sees them: the reference implementation of CommonMark in JavaScript
 * (package commonmark, https://github.com/commonmark/commonmark.js).
 */
import { Parser, type Node } from 'commonmark'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { replacementsOf, tidy } from '../../shared/journal/tidy/tidy.ts'
import { raw } from '../unit/shared/journal/tidy/raw.ts'

function nodesOf(text: string): Node[] {
  const nodes: Node[] = []
  const walker = new Parser().parse(text).walker()
  for (let step = walker.next(); step; step = walker.next()) if (step.entering) nodes.push(step.node)
  return nodes
}

const codesOf = (text: string): Node[] => nodesOf(text).filter(({ type }) => type === 'code_block')

/** The numbers of the lines of a tidied text in which a fence was made to open, from 1. */
function linesOfNewFences(text: string): number[] {
  let made = ''
  let at = 0
  const lines: number[] = []
  for (const { from, to, insert } of replacementsOf(tidy(text).edits)) {
    made += text.slice(at, from)
    for (const { index, 0: fence } of insert.matchAll(/`{3,}(?:sh|text)/gu))
      if (fence) lines.push((made + insert.slice(0, index)).split('\n').length)
    made += insert
    at = to
  }
  return lines
}

describe('commonmark.js', () => {
  test('sees a block of code at every fence that tidying makes', () => {
    let count = 0
    fc.assert(
      fc.property(raw, ({ text }) => {
        const opened = codesOf(tidy(text).text).map(({ sourcepos }) => sourcepos[0][0])
        const made = linesOfNewFences(text)
        count += made.length
        for (const line of made) expect(opened).toContain(line)
      }),
      { numRuns: 300 },
    )
    expect(count).toBeGreaterThan(100)
  })

  test('sees as much code as before where nothing was a machine’s', () => {
    const human = raw.filter(({ machine }) => machine.length === 0)
    fc.assert(
      fc.property(human, ({ text }) => {
        expect(codesOf(tidy(text).text).map(({ literal }) => literal)).toEqual(
          codesOf(text).map(({ literal }) => literal),
        )
      }),
      { numRuns: 300 },
    )
  })

  test('sees the command without its prompt, its output to the last blank, and sentences as sentences', () => {
    const text = [
      '##Dome',
      'We looked at the  rack again.',
      'root@gate:~# ip -br addr  show',
      'lo     UNKNOWN  127.0.0.1/8  ',
      '* eth0   UP   192.0.2.7/24',
      '',
      'It was the cable, so we have to buy one.',
    ].join('\n')
    const nodes = nodesOf(tidy(text).text)
    const read = nodes
      .filter(({ type }) => ['heading', 'paragraph', 'code_block'].includes(type))
      .map((node) => [node.type, node.type === 'code_block' ? node.literal : node.firstChild?.literal])
    expect(read).toEqual([
      ['heading', 'Dome'],
      ['paragraph', 'We looked at the rack again.'],
      ['code_block', 'ip -br addr  show\n'],
      ['code_block', 'lo     UNKNOWN  127.0.0.1/8  \n* eth0   UP   192.0.2.7/24\n'],
      ['paragraph', 'It was the cable, so we have to buy one.'],
    ])
  })
})
