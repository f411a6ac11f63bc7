import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { StepId } from '../../../../shared/lab/ids.ts'
import { signalWordMeanings, signalWords } from '../../../../shared/safety/signal-words/caution.ts'
import { entryLabel } from '../../../../shared/export/labels.ts'
import { procedureToMarkdown } from '../../../../shared/export/procedure-markdown.ts'
import { hostileMarkdown } from '../markdown/hostile.ts'
import { entryOrigin, momentAt, part, procedureOf, sourceOrigin } from './examples.ts'

const rack = sourceOrigin('s1', 'The rack', 'https://docs.example.org/rack')

describe('an exported procedure', () => {
  test('reads as a person would write it', () => {
    const markdown = procedureToMarkdown(
      {
        title: 'Move `the logger`',
        purpose: 'Get the readings off the failing disk.',
        steps: [
          {
            parts: [
              part('why', 'The old disk loses writes.'),
              part(
                'do',
                'Stop it:\n\n```sh\nsudo systemctl stop logger\n```',
                rack,
                entryOrigin('e2', 9, 'action', 'Stopped it.'),
              ),
              part(
                'caution',
                'Mains voltage behind the rack: defer to local codes.',
                entryOrigin('e1', 5, 'problem', 'A **spark**.'),
              ),
              part('expect', '`inactive (dead)`', rack),
            ],
          },
          { parts: [part('if it fails', 'Look at the log.')] },
        ],
      },
      { journal: true },
    )
    expect(markdown).toBe(`# Move \`the logger\`

## Purpose

Get the readings off the failing disk.

## Steps

1. **Caution:** Mains voltage behind the rack: defer to local codes.

   **Do:** Stop it:

   \`\`\`sh
   sudo systemctl stop logger
   \`\`\`

   Source: [^1]

   **Expect:** \`inactive (dead)\`[^1]

   **Why:** The old disk loses writes.

   Rests on: [Entry 1](#entry-1-2026-11-25-020500-0100-problem), [Entry 2](#entry-2-2026-11-25-020900-0100-action)

2. **If it fails:** Look at the log.

## Journal

### Entry 1: 2026-11-25 02:05:00 +01:00, problem

A **spark**.

### Entry 2: 2026-11-25 02:09:00 +01:00, action

Stopped it.

[^1]: Source: The rack, <https://docs.example.org/rack>, taken 2026-11-25 02:00:00 +01:00.
`)
  })

  test('has sections, sub-steps, places, files and references with present numbers', () => {
    const id = '0190a2b4-7c3e-7000-8000-0123456789ab' as StepId
    const file = { path: '/etc/fstab', owner: 'root', group: 'root', mode: '0644', form: 'content' } as const
    const markdown = procedureToMarkdown(
      {
        title: 'Move',
        purpose: '',
        own: [
          { kind: 'scope', text: 'The logger.' },
          { kind: 'closing checks', text: `Look as in [step 9](step:${id}).` },
        ],
        steps: [
          { level: 'section', parts: [part('heading', 'Before')] },
          { place: 'on logger, as root', parts: [part('do', 'Stop it.'), part('condition', 'IF it runs.')] },
          { level: 'sub-step', parts: [part('do', 'Wait.\n\n- a\n- b')] },
          { level: 'sub-step', id, parts: [part('do', 'Look.')] },
          { level: 'section', parts: [part('heading', 'The *disk*')] },
          {
            pointOfNoReturn: true,
            parts: [
              { ...part('file', '```\nUUID=0f /\n```'), file },
              part('caution', 'WARNING: Sharp edges.\n\n*To avoid it:* wear gloves.'),
              part('do', 'See [step 7](step:0190a2b4-7c3e-7000-8000-000000000000).'),
            ],
          },
        ],
      },
      { journal: false },
    )
    expect(markdown).toBe(`# Move

## Made for

The logger.

## Steps

### Before

1. *On logger, as root:*

   **When:** IF it runs.

   **Do:** Stop it.

   - **1.1** **Do:** Wait.

     - a
     - b

   - **1.2** **Do:** Look.

### The *disk*

2. **Point of no return.** What is done from here on cannot be taken back.

   **Warning:** Sharp edges.

   *To avoid it:* wear gloves.

   **Do:** See step 7 (gone).

   **File** \`/etc/fstab\` (root:root, 0644):

   \`\`\`
   UUID=0f /
   \`\`\`

## Closing checks

Look as in step 1.2.
`)
  })

  test('writes a caution before what is done, and its signal word first, however it was typed', () => {
    for (const word of signalWords) {
      const typed = [
        `${word.toUpperCase()}: hot.`,
        `**${word}:** hot.`,
        `__${signalWordMeanings[word].word}!__ hot.`,
      ]
      for (const text of typed) {
        const parts = [part('do', 'Touch it.'), part('caution', text)]
        const markdown = procedureToMarkdown(
          { title: 'T', purpose: '', steps: [{ parts }] },
          { journal: false },
        )
        expect(markdown).toContain(`1. **${signalWordMeanings[word].word}:** hot.\n\n   **Do:** Touch it.`)
      }
    }
  })

  test('leaves the journal out unless it is asked for', () => {
    const procedure = procedureOf(part('do', 'Stop it.', entryOrigin('e1', 5, 'action', 'stopped')))
    expect(procedureToMarkdown(procedure, { journal: false })).toBe(
      '# Move the logger\n\n## Steps\n\n1. **Do:** Stop it.\n',
    )
  })

  test('keeps the number of a step without text', () => {
    const procedure = { title: '', purpose: ' \n', steps: [{ parts: [] }, { parts: [part('do', 'Go on.')] }] }
    expect(procedureToMarkdown(procedure, { journal: false })).toBe(
      '# Untitled procedure\n\n## Steps\n\n1.\n\n2. **Do:** Go on.\n',
    )
  })

  test('keeps equal footnote and link names of two parts apart', () => {
    const one = 'First[^n], [page].\n\n[^n]: Note one.\n\n[page]: https://one.example.org'
    const two = 'Second[^n], [page].\n\n[^n]: Note two.\n\n[page]: https://two.example.org'
    const markdown = procedureToMarkdown(procedureOf(part('do', one), part('do', two)), { journal: false })
    expect(markdown).toContain('First[^1], [page](https://one.example.org).')
    expect(markdown).toContain('Second[^2], [page](https://two.example.org).')
    expect(markdown).toContain('[^1]: Note one.\n\n[^2]: Note two.\n')
  })

  test('shows what would stay invisible: unused definitions, footnotes that nothing names, raw HTML', () => {
    const hidden =
      '[x]: y\n\n[^a]: nobody names me[^b]\n\n[^b]: nor me[^a]\n\n<!-- a remark -->\n\nand <kbd>Ctrl</kbd>'
    const markdown = procedureToMarkdown(procedureOf(part('do', hidden)), { journal: false })
    expect(markdown).toContain('**Do:** \\[x]: y')
    expect(markdown).toMatch(/\\\[\^a]: nobody names me\[\^\d]/)
    expect(markdown).toContain('nor me')
    expect(markdown).toContain('```\n   <!-- a remark -->\n   ```')
    expect(markdown).toContain('\\<kbd>Ctrl\\</kbd>')
  })

  test('makes no link of an address that could run', () => {
    const text =
      '[press](javascript:alert(1)) ![p](data:text/html;base64,PHN2Zz4=) [q](java&#x0A;script:alert(1))'
    const markdown = procedureToMarkdown(procedureOf(part('do', text)), { journal: false })
    expect(markdown).toContain('press (javascript:alert(1)) p q')
    expect(markdown).not.toMatch(/\]\(\s*(java|data)/)
  })

  test('fences output that holds fences of any length', () => {
    for (let length = 3; length < 12; length += 1) {
      const inner = '`'.repeat(length)
      const text = `${'~'.repeat(3)}\n${inner}\nsudo reboot\n${inner}\n~~~`
      const markdown = procedureToMarkdown(procedureOf(part('expect', text)), { journal: false })
      expect(markdown).toContain(`   ${inner}\`\n   ${inner}\n   sudo reboot\n   ${inner}\n   ${inner}\`\n`)
    }
  })

  test('shows a text word for word where it is nested too deeply to be taken over', () => {
    const markdown = procedureToMarkdown(procedureOf(part('do', `${'> '.repeat(200)}deep`)), {
      journal: false,
    })
    expect(markdown).toContain(`\`\`\`\n   ${'> '.repeat(200)}deep\n   \`\`\``)
  })

  test('numbers the entries of the journal in time order, each once', () => {
    const late = entryOrigin('e1', 40, 'fix', 'late')
    const early = entryOrigin('e2', 10, 'action', 'early')
    const markdown = procedureToMarkdown(procedureOf(part('do', 'a', late), part('do', 'b', early, late)), {
      journal: true,
    })
    expect(markdown.indexOf('Entry 1: 2026-11-25 02:10')).toBeGreaterThan(0)
    expect(markdown.match(/^### Entry/gm)).toHaveLength(2)
  })

  test('is the same bytes each time, with plain line ends and one at the end, whatever the text', () => {
    fc.assert(
      fc.property(hostileMarkdown, hostileMarkdown, hostileMarkdown, (title, purpose, text) => {
        const build = (): string =>
          procedureToMarkdown(
            {
              title,
              purpose,
              steps: [
                {
                  parts: [
                    part('do', text, sourceOrigin('s', title, text), entryOrigin('e', 1, 'action', purpose)),
                  ],
                },
              ],
            },
            { journal: true },
          )
        const markdown = build()
        expect(build()).toBe(markdown)
        expect(markdown).not.toMatch(/[\r\0]/)
        expect(markdown).toMatch(/[^\n]\n$/)
        expect(markdown.startsWith('# ')).toBe(true)
      }),
      { numRuns: 150 },
    )
  })
})

test('an entry is labelled with its moment, its offset and its kind', () => {
  expect(entryLabel({ kind: 'observation', moment: momentAt(7) })).toBe(
    '2026-11-25 02:07:00 +01:00, observation',
  )
})
