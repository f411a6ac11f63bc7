import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkValue, exampleOf } from '../../../../../shared/procedure/values/check.ts'
import { guessTypes } from '../../../../../shared/procedure/values/guess.ts'
import { valueTypes } from '../../../../../shared/procedure/values/types.ts'

/** A line with the selected value between bars, and the type that must come first. */
const cases = [
  ['ping |192.0.2.10|', 'IPv4 address'],
  ['ping |2001:db8::1|', 'IPv6 address'],
  ['allow |192.0.2.0/24|;', 'network'],
  ['ssh -p |22| gate', 'port'],
  ['listen on port |8443|', 'port'],
  ['curl gate:|8080|/x', 'port'],
  ['cd |/etc/nginx|', 'path'],
  ['edit |chrony.conf|', 'path'],
  ['ssh |anna|@gate', 'user'],
  ['chown |logger|: x', 'user'],
  ['ssh anna@|gate|', 'host name'],
  ['ssh |gate|', 'host name'],
  ['dig |logger.example.org|', 'host name'],
  ['apt install -y |chrony|', 'package'],
  ['apt-get install curl |gnupg|', 'package'],
  ['nginx=|1.22.1-9|', 'version'],
  ['Debian version |12|', 'version'],
  ['lvcreate -L |20G| vg', 'size'],
  ['a file of |512 MiB|', 'size'],
  ['Wait |5 min|.', 'duration'],
  ['sleep |10|', 'duration'],
  ['wake |00:00:5e:00:53:01|', 'MAC address'],
  ['open |https://logger.example.org/|', 'URL'],
  ['certbot -m |observer@example.org|', 'e-mail address'],
  ['until |2026-11-26|', 'date'],
  ['name it |Roof station|', 'free text'],
  ['password: |hunter2|', 'secret'],
  ['DB_PASSWORD=|logger|', 'secret'],
] as const

describe('the guessed type', () => {
  it.each(cases)('of the value in %s is %s', (line, wanted) => {
    const [before = '', value = '', after = ''] = line.split('|')
    expect(guessTypes(value, { before, after })[0]).toBe(wanted)
  })

  it.each(valueTypes.filter((type) => exampleOf(type) !== ''))(
    '%s is among the guesses for its own example',
    (type) => {
      expect(guessTypes(exampleOf(type))).toContain(type)
    },
  )

  it('lets the text through, whatever the text', () => {
    const text = fc.oneof(fc.string(), fc.constantFrom(...cases.map(([line]) => line.split('|')[1]!)))
    fc.assert(
      fc.property(text, fc.string(), fc.string(), (value, before, after) => {
        const types = guessTypes(value, { before, after })
        expect(types.every((type) => checkValue(type, value).ok)).toBe(true)
        expect(new Set(types).size).toBe(types.length)
      }),
    )
  })
})
