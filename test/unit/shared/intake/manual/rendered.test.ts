import { describe, expect, test } from 'vitest'
import { maybeManual } from '../../../../../shared/intake/manual.ts'
import { taken, text } from './support.ts'

const page = `WEATHER-LOGGER(8)          System Administration          WEATHER-LOGGER(8)

NAME
       weather-logger - write down what the mast’s sensors say

SYNOPSIS
       weather-logger [-v] [--every=SECONDS] DEVICE

DESCRIPTION
       Reads  the  sensors  of the mast and writes one line for each reading.
       Readings that can’t be right are marked and kept, and nothing is inter‐
       polated.

       -v, --verbose
              say more

              and why

       --every=SECONDS
              how often to read

       -n     read nothing

   Files of the day
       A new file is begun at midnight:

           $ weather-logger /dev/ttyUSB0
           2026-11-25T00:00:00Z 3.4

             1 line

       •   one
       •   two

       1.  first
       2.  second

SEE ALSO
       rack-ups(8)

example.org 1.2               3 November 2026               WEATHER-LOGGER(8)
`

const expected = `## NAME

weather-logger - write down what the mast’s sensors say

## SYNOPSIS

weather-logger \\[-v] \\[--every=SECONDS] DEVICE

## DESCRIPTION

Reads the sensors of the mast and writes one line for each reading. Readings that can’t be right are marked and kept, and nothing is interpolated.

- -v, --verbose

  say more

  and why

- \\--every=SECONDS

  how often to read

- -n

  read nothing

### Files of the day

A new file is begun at midnight:

\`\`\`
$ weather-logger /dev/ttyUSB0
2026-11-25T00:00:00Z 3.4

  1 line
\`\`\`

- one
- two

1. first
2. second

## SEE ALSO

rack-ups(8)
`

describe('a page as man prints it', () => {
  test('becomes sections, paragraphs, terms with bodies, examples and lists, without head and foot', () => {
    expect(text(page)).toBe(expected)
  })
  test('is titled by its name, section and purpose, and dated by its foot', () => {
    expect(taken(page)).toMatchObject({
      title: 'weather-logger(8) – write down what the mast’s sensors say',
      dated: '2026-11-03',
      author: null,
      address: null,
      kind: 'manual',
      mediaType: 'text/plain',
      notes: [],
    })
  })
  test('reads the same with bold and underline struck over, or by control sequences', () => {
    const bold = (line: string): string => line.replace(/\S/gu, (sign) => `${sign}\b${sign}`)
    const underlined = (line: string): string => line.replace(/\S/gu, (sign) => `_\b${sign}`)
    const struck = page.replace(/^[A-Z].*$/gmu, bold).replace(/SECONDS/gu, underlined)
    expect(text(struck)).toBe(expected)
    expect(text(page.replace(/^[A-Z].*$/gmu, '\u001b[1m$&\u001b[0m'))).toBe(expected)
  })
  test('of mdoc(7), set in by five columns, has the same structure', () => {
    const mdoc = `RACK(1)  General Commands Manual  RACK(1)

NAME
     rack — list what stands in the rack

DESCRIPTION
     rack lists.

     -a      everything
     -l file
             from file

Stillroom  November 2026  Stillroom
`
    expect(text(mdoc)).toBe(
      '## NAME\n\nrack — list what stands in the rack\n\n## DESCRIPTION\n\nrack lists.\n\n- -a\n\n  everything\n\n- -l file\n\n  from file\n',
    )
    expect(taken(mdoc)).toMatchObject({ title: 'rack(1) – list what stands in the rack', dated: '2026-11' })
  })
  test.each([
    ['a note', 'The rack (old)\n\n  one\n'],
    ['a log', 'Nov 25 10:00:01 rack logger[1]: started\n'],
    ['a page’s first line alone', 'RACK(1)  x  RACK(1)\n'],
  ])('%s is none', (_, words) => {
    expect(maybeManual('a.txt', new TextEncoder().encode(words))).toBeUndefined()
  })
  test('with a name so long that it was printed over its running head is known too', () => {
    const long = `Weather::Logger::Sensors:UserContributed Perl DocuWeather::Logger::Sensors::Mast(3pm)

NAME
       Weather::Logger::Sensors::Mast - the mast

perl v5.36.0                      2026-11-03   Weather::Logger::Sensors::Mast(3pm)
`
    expect(taken(long)).toMatchObject({
      title: 'Weather::Logger::Sensors::Mast(3pm) – the mast',
      dated: '2026-11-03',
      text: '## NAME\n\nWeather::Logger::Sensors::Mast - the mast\n',
    })
  })
  test('takes one line with a full stop for a term where text stands below it, further in', () => {
    const page =
      'RACK(5)  x  RACK(5)\n\nNAME\n       rack - x\n\n       ups Where the power comes from.\n              An address.\n'
    expect(text(page)).toBe('## NAME\n\nrack - x\n\n- ups Where the power comes from.\n\n  An address.\n')
  })
})
