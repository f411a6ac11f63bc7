/** The whole way from a text to a drawing, with a font that is made up, since there are none here. */
import type { Element } from 'hast'
import { visit } from 'unist-util-visit'
import { beforeAll, describe, expect, test } from 'vitest'
import { setUpScreen } from '../../../../renderer/sketch/drawing/screen.ts'
import type { Drawn, SketchResult } from '../../../../shared/sketch/drawn.ts'
import { MAX_SKETCH_EDGES, MAX_SKETCH_TEXT } from '../../../../shared/sketch/kinds.ts'
import { tokens, type Token } from '../../../../shared/sketch/palette.ts'
import { sketchPatterns } from '../../../../shared/sketch/patterns.ts'
import { sketchSamples } from '../../../support/sketchSamples.ts'
import { colourOf, contrastRatio } from '../ui/contrast.ts'
import { tokensOf } from '../ui/styles.ts'

let draw: (text: string) => Promise<SketchResult>

beforeAll(async () => {
  setUpScreen((text, { size }) => ({
    width: text.length * size * 0.55,
    ascent: size * 0.95,
    descent: size * 0.25,
  }))
  ;({ drawSketch: draw } = await import('../../../../renderer/sketch/drawing/draw.ts'))
})

async function drawn(text: string): Promise<Drawn> {
  const result = await draw(text)
  if (!result.ok) throw new Error(result.reason)
  return result
}

async function reasonFor(text: string): Promise<string> {
  const result = await draw(text)
  if (result.ok) throw new Error('it was drawn')
  return result.reason
}

const everything = [...sketchPatterns, ...sketchSamples]

function coloursIn(svg: Element): Set<string> {
  const colours = new Set<string>()
  visit(svg, 'element', ({ properties }) => {
    for (const name of ['fill', 'stroke'])
      if (properties[name] !== undefined) colours.add(String(properties[name]))
  })
  return colours
}

describe('every kind that is drawn', () => {
  test.each(everything)(
    '$word: has its words as text, in our colours alone, twice the same',
    async ({ word, text }) => {
      const one = await drawn(text)
      expect(one.labels.length).toBeGreaterThan(1)
      for (const label of one.labels) expect(label).not.toMatch(/NaN|undefined|&#|°/u)
      expect(JSON.stringify(one.svg)).not.toMatch(/NaN|foreignObject|undefined/u)
      const foreign = [...coloursIn(one.svg)].filter(
        (colour) => colour !== 'none' && !colour.startsWith('var('),
      )
      expect(foreign.every((colour) => text.includes(colour) || word === 'Coloured flow chart')).toBe(true)
      expect(await draw(text)).toEqual(one)
    },
  )

  test('words of the patterns are all there', async () => {
    const [network, decision, mindMap, sequence] = await Promise.all(
      sketchPatterns.map(({ text }) => drawn(text)),
    )
    expect(network!.labels).toEqual(
      expect.arrayContaining(['Router 192.0.2.1', 'Rack', 'Dome', 'wireless', 'fibre']),
    )
    expect(decision!.labels).toEqual(expect.arrayContaining(['Has the logger power?', 'yes', 'no']))
    expect(mindMap!.labels).toEqual(
      expect.arrayContaining(['Replace the weather logger', 'Port 7 of the switch']),
    )
    expect(sequence!.labels).toEqual(expect.arrayContaining(['Weather logger', 'Stored', '[every minute]']))
    expect([network, decision, mindMap, sequence].map((one) => one!.kind)).toEqual([
      'Flow chart',
      'Flow chart',
      'Mind map',
      'Sequence',
    ])
  })

  test('words lie within the drawing', async () => {
    const { svg, width, height } = await drawn('flowchart LR\n a[A rather long name of a thing] --> b')
    expect(svg.properties['viewBox']).toMatch(/^[-\d.]+ [-\d.]+ [\d.]+ [\d.]+$/u)
    expect(width).toBeGreaterThan(30 * 15 * 0.5)
    expect(height).toBeGreaterThan(30)
  })

  test('a title that the text gives becomes the drawing’s', async () => {
    expect((await drawn('flowchart LR\n accTitle: The way of a reading\n a --> b')).title).toBe(
      'The way of a reading',
    )
  })
})

describe('colours', () => {
  const light = tokensOf(':root')
  const dark = tokensOf(":root[data-theme='dark']")
  const inks: readonly Token[] = ['--ink', '--ink-soft']
  const fills = (Object.keys(tokens) as Token[]).filter((name) =>
    /^--(?:sketch|paper-raised|mark)/u.test(name),
  )

  test.each([
    ['light', light],
    ['dark', dark],
  ])('in the %s face ink has a contrast of at least 4.5 on every fill (WCAG 2.2, 1.4.3)', (_, face) => {
    expect(fills.length).toBeGreaterThan(7)
    for (const fill of fills)
      for (const ink of inks)
        expect(
          contrastRatio(colourOf(face.get(ink)!), colourOf(face.get(fill)!)),
          `${ink} on ${fill}`,
        ).toBeGreaterThanOrEqual(4.5)
  })

  test('the colours of a saved file are those of the light face', () => {
    for (const [name, colour] of Object.entries(tokens))
      if (name !== '--paper') expect(light.get(name), name).toBe(colour)
  })

  test('what the text colours keeps its colour, with an ink on it that can be read', async () => {
    const { svg } = await drawn(
      'flowchart LR\n a[Dark] --> b[Pale]\n style a fill:#102030\n style b fill:#ffe0f0',
    )
    const inksOn: string[] = []
    visit(svg, 'element', ({ tagName, properties }) => {
      if (tagName === 'text') inksOn.push(String(properties['fill']))
    })
    expect(coloursIn(svg)).toContain('#102030')
    expect(inksOn).toEqual(['#ffffff', '#1c1a17'])
  })
})

describe('a text that is no diagram', () => {
  test.each([
    ['flowchart LR\n a --> b\n b -- ] c', 'Line 3: “b -- ] c” does not fit here.'],
    [
      '%% a remark\n\nsequenceDiagram\n  %% another\n  a->>b: x\n  b-) oops ]',
      'Line 6: “b-) oops ]” does not fit here.',
    ],
    ['gitGraph\n commit\n frobnicate', 'Line 3: “frobnicate” does not fit here.'],
    ['pie\n "a" : many', 'Line 2: “"a" : many” does not fit here.'],
    [
      'mindmap\n middle\n  a\n second',
      'Line 4: “second” stands as far left as the middle of the mind map. Only the middle may; indent the others.',
    ],
    [
      '\n\nSwitch the logger off.',
      'Line 3: “Switch the logger off.” names no kind of diagram that is drawn here, such as flowchart, mindmap or sequenceDiagram.',
    ],
    [
      'C4Context\n Person(a, "A")',
      'Line 1: “C4Context” names no kind of diagram that is drawn here, such as flowchart, mindmap or sequenceDiagram.',
    ],
    ['  \n', 'There is nothing to draw yet.'],
  ])('says where and what: %j', async (text, reason) => {
    expect(await reasonFor(text)).toBe(reason)
  })

  test('after a mistake the next text is drawn as ever', async () => {
    await reasonFor('flowchart LR\n a -- ] b')
    expect((await drawn('flowchart LR\n a --> b')).labels).toEqual(['a', 'b'])
  })
})

describe('bounds', () => {
  test('a text that is too long, or has too many lines between things, is not drawn', async () => {
    expect(await reasonFor(`flowchart LR\n a[${'x'.repeat(MAX_SKETCH_TEXT)}]`)).toMatch(/too large/u)
    const many = Array.from({ length: MAX_SKETCH_EDGES + 1 }, (_, i) => `a${i}-->b`).join('\n')
    expect(await reasonFor(`flowchart LR\n${many}`)).toMatch(/too large/u)
  })
})

describe('a text that means harm', () => {
  const attacks: readonly (readonly [string, string])[] = [
    [
      'click with a script',
      'flowchart LR\n a --> b\n click a href "javascript:alert(1)"\n click b call alert(1)',
    ],
    ['click with an address', 'flowchart LR\n a --> b\n click a "https://evil.example.org/" _blank'],
    [
      'a picture from elsewhere',
      'flowchart LR\n a@{ img: "https://evil.example.org/x.png", label: "a", w: 60, h: 60 }\n a --> b',
    ],
    ['an icon', 'flowchart LR\n a@{ icon: "fa:user", label: "a" } --> b'],
    ['HTML in labels', 'flowchart LR\n a["<img src=x onerror=alert(1)><script>alert(1)</script>text"] --> b'],
    ['HTML by entities', 'flowchart LR\n a["#lt;img src=x onerror=alert(1)#gt;"] --> b'],
    [
      'settings that lower the guard',
      '%%{init: {"securityLevel": "loose", "htmlLabels": true, "flowchart": {"htmlLabels": true}, "maxEdges": 99999}}%%\nflowchart LR\n a["<b onclick=alert(1)>a</b>"] --> b\n click a call alert(1)',
    ],
    [
      'settings in a head',
      '---\nconfig:\n  securityLevel: loose\n  htmlLabels: true\n  theme: forest\n---\nflowchart LR\n a --> b',
    ],
    [
      'a style sheet of its own',
      '%%{init: {"themeCSS": "@import url(https://evil.example.org/x.css); * { fill: url(https://evil.example.org) }"}}%%\nflowchart LR\n a --> b',
    ],
    [
      'fonts and variables',
      '%%{init: {"fontFamily": "x; } * { fill: url(//evil.example.org)", "themeVariables": {"primaryColor": "url(//evil.example.org)"}}}%%\nflowchart LR\n a --> b',
    ],
    [
      'styles with addresses',
      '%%{init: {"themeVariables": {"lineColor": "url(https://evil.example.org/x.svg#y)"}}}%%\nstateDiagram-v2\n a --> b\n classDef x fill:#f00,filter:none,background:evil\n class a x',
    ],
    [
      'links of a sequence',
      'sequenceDiagram\n participant a\n participant b\n link a: Go @ javascript:alert(1)\n links b: {"Go": "https://evil.example.org/"}\n a->>b: x',
    ],
    [
      'properties of objects',
      '%%{init: {"__proto__": {"polluted": true}, "constructor": {"prototype": {"polluted": true}}}}%%\nflowchart LR\n a --> b',
    ],
    ['a formula', 'flowchart LR\n a["$$x^2 <script>alert(1)</script>$$"] --> b'],
    ['direction marks', 'flowchart LR\n a["\u202etxt.exe\u202c\u2067x\u2069"] --> b'],
  ]

  test.each(attacks)('%s: comes out as a picture that can do nothing', async (_, text) => {
    const result = await draw(text)
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined()
    if (!result.ok) throw new Error(result.reason)
    visit(result.svg, 'element', ({ tagName, properties }) => {
      expect(['a', 'image', 'script', 'style', 'foreignObject', 'use', 'iframe']).not.toContain(tagName)
      for (const [name, value] of Object.entries(properties)) {
        expect(name).not.toMatch(/^(?:on|href|src|style$|class|xlink|data)/iu)
        expect(String(value)).not.toMatch(/evil|script|alert|url\((?!#)/iu)
      }
    })
    expect(result.labels.length).toBeGreaterThanOrEqual(1)
  })

  test('settings of a text do not last beyond it', async () => {
    const before = await drawn('flowchart LR\n a --> b')
    await draw(
      '%%{init: {"flowchart": {"nodeSpacing": 200, "padding": 90}, "themeVariables": {"primaryColor": "#ff0000"}}}%%\nflowchart LR\n a --> b',
    )
    expect(await drawn('flowchart LR\n a --> b')).toEqual(before)
  })
})
