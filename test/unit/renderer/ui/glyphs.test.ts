/** The characters of the icons, held against the list that comes with the font. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, test } from 'vitest'
import { glyphs } from '../../../../renderer/ui/glyphs.ts'

const resolve = createRequire(import.meta.url).resolve

test.each(['regular', 'bold', 'fill', 'light'])(
  'every sign is the one of that name in the font’s own list (@phosphor-icons/web, %s)',
  (weight) => {
    const css = readFileSync(resolve(`@phosphor-icons/web/${weight}`), 'utf8')
    const listed = new Map(
      [...css.matchAll(/\.ph-([a-z0-9-]+):before \{\s*content: "\\([0-9a-f]+)"/gu)].map(([, name, code]) => [
        name,
        String.fromCodePoint(parseInt(code!, 16)),
      ]),
    )
    expect(listed.size).toBeGreaterThan(1000)
    for (const [name, glyph] of Object.entries(glyphs))
      expect([name, listed.get(name)]).toEqual([name, glyph])
  },
)
