import { describe, expect, test } from 'vitest'
import { taken, text } from './support.ts'

const node = `File: weather.info,  Node: Top,  Next: Reading,  Up: (dir)

The weather logger
******************

   This manual tells how the mast’s sensors are read, by day and by night,
in summer and winter.

* Menu:

* Reading::             How readings are taken
                          and kept
* Mast: Climbing.       Who may climb

   Go on.
`
const second = `File: weather.info,  Node: Reading,  Prev: Top,  Up: Top

1 Reading
=========

‘-v’
‘--verbose’
     Say more.

     For example:

          weather-logger -v
`
const expected = `# The weather logger

This manual tells how the mast’s sensors are read, by day and by night, in summer and winter.

Menu:

- Reading: How readings are taken and kept
- Mast: Climbing. Who may climb

Go on.

## 1 Reading

- ‘-v’\\
  ‘--verbose’

  Say more.

  For example:

  \`\`\`
  weather-logger -v
  \`\`\`
`

describe('an info text', () => {
  test('as info prints it becomes headings, menus, terms and examples', () => {
    expect(text(`${node}\n${second}`)).toBe(expected)
    expect(taken(node)).toMatchObject({
      title: 'The weather logger',
      kind: 'manual',
      mediaType: 'text/plain',
    })
  })
  test('as its file has it loses what only programs read', () => {
    const file = `This is weather.info, produced by makeinfo version 6.8 from weather.texi.

INFO-DIR-SECTION Observatory
START-INFO-DIR-ENTRY
* Weather: (weather).  Logging.
END-INFO-DIR-ENTRY

\u001f
${node}\0\b[index\0\b]
\u001f
${second}
\u001f
Tag Table:
Node: Top\u007f200
\u001f
End Tag Table
`
    expect(text(file)).toBe(
      `This is weather.info, produced by makeinfo version 6.8 from weather.texi.\n\n${expected}`,
    )
  })
  test('keeps footnotes behind a menu as paragraphs', () => {
    const notes = '   ---------- Footnotes ----------\n\n   (1) A mast is\nno tree.\n'
    expect(text(`${node}\n${notes}`)).toMatch(/\n\n\(1\) A mast is no tree\.\n$/u)
  })
})
