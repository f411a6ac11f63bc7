import fc from 'fast-check'
import type { Element, ElementContent } from 'hast'
import { fromHtml } from 'hast-util-from-html'
import { visit } from 'unist-util-visit'
import { describe, expect, test } from 'vitest'
import { toFinished } from '../../../../shared/sketch/finish.ts'
import { withIds } from '../../../../shared/sketch/ids.ts'
import { toSafeDrawing } from '../../../../shared/sketch/safe.ts'

const svgOf = (inner: string): Element =>
  fromHtml(`<svg viewBox="0 0 10 10">${inner}</svg>`, { fragment: true }).children[0] as Element

/** Everything that a browser of today runs, loads or follows from within SVG, and ways to write it that slip past others. */
const attacks = [
  '<script>alert(1)</script>',
  '<script href="https://evil.example.org/x.js"></script>',
  '<a href="javascript:alert(1)"><text>x</text></a>',
  '<a xlink:href="https://evil.example.org/"><text>x</text></a>',
  '<image href="https://evil.example.org/x.png" width="9" height="9"/>',
  '<image xlink:href="data:image/svg+xml,<svg onload=alert(1)>" />',
  '<use href="https://evil.example.org/x.svg#a"/>',
  '<use xlink:href="#a"/>',
  '<foreignObject width="9" height="9"><iframe src="https://evil.example.org/"></iframe></foreignObject>',
  '<foreignObject><img src=x onerror=alert(1)></foreignObject>',
  '<g onclick="alert(1)" onload="alert(1)" onfocus="alert(1)" tabindex="0"><rect width="9" height="9"/></g>',
  '<rect width="9" height="9" fill="url(https://evil.example.org/x.svg#a)"/>',
  '<rect width="9" height="9" style="fill:url(https://evil.example.org/)"/>',
  '<path d="M0 0L9 9" marker-end="url(https://evil.example.org/x.svg#m)"/>',
  '<rect width="9" height="9" filter="url(https://evil.example.org/f)" mask="url(//evil.example.org/m)" clip-path="url(//evil.example.org/c)"/>',
  '<style>@import url(https://evil.example.org/x.css);rect{fill:url(//evil.example.org)}</style>',
  '<animate attributeName="href" values="javascript:alert(1)"/><set attributeName="onclick" to="alert(1)"/>',
  '<text><animate attributeName="x" from="0" to="9" begin="click"/></text>',
  '<feImage href="https://evil.example.org/x.png"/><filter id="f"><feImage href="//evil.example.org"/></filter>',
  '<handler type="application/ecmascript">alert(1)</handler><listener event="load"/>',
  '<metadata><x xmlns="http://www.w3.org/1999/xhtml"><script>alert(1)</script></x></metadata>',
  '<text fill="var(--secret)">x</text><text fill="expression(alert(1))">x</text>',
  '<text class="st-button" id="composer" data-entry="x" name="body">x</text>',
  '<svg onload="alert(1)"><script>alert(1)</script></svg>',
  '<iframe srcdoc="<script>alert(1)</script>"></iframe><object data="//evil.example.org"></object>',
]

const allowedTags = [
  'svg',
  'g',
  'defs',
  'marker',
  'path',
  'rect',
  'circle',
  'ellipse',
  'line',
  'polygon',
  'polyline',
  'text',
  'tspan',
]

function checkSafe(drawing: Element): void {
  visit(drawing, 'element', ({ tagName, properties }) => {
    expect(allowedTags).toContain(tagName)
    for (const [name, value] of Object.entries(properties)) {
      expect(name).not.toMatch(/^on|href|style|class|^data|src/iu)
      expect(String(value)).not.toMatch(/evil|alert|script|expression|secret|url\((?!#)/iu)
      if (name === 'id') expect(tagName).toBe('marker')
    }
  })
}

describe('the second net', () => {
  test.each(attacks)('nothing of %s is left that could act', (attack) => {
    const safe = toSafeDrawing(svgOf(attack))!
    checkSafe(safe)
  })

  test.each(attacks)('nor where it comes from the library, with the words of it kept: %s', (attack) => {
    const result = toFinished(`<svg viewBox="0 0 10 10">${attack}<text>Words</text></svg>`, 'pie', 'pie')
    if (!result.ok) throw new Error(result.reason)
    checkSafe(result.svg)
    expect(result.labels).toContain('Words')
  })

  test('what a drawing is made of passes unchanged', () => {
    const drawing = svgOf(
      '<defs><marker id="m" viewBox="0 0 9 9" orient="auto" markerUnits="userSpaceOnUse" refX="1" refY="2" markerWidth="3" markerHeight="4"><path d="M0,0L9,4.5z" fill="var(--ink)"/></marker></defs>' +
        '<g transform="translate(1.5, -2) rotate(45)"><rect x="1" y="2" width="3" height="4" rx="2px" fill="#ff00aa" stroke="var(--rule-strong)" stroke-width="1.25px" stroke-dasharray="5 3"/>' +
        '<path d="M1,2C3,4 5e-1,6 7,8" marker-end="url(#m)" fill="none"/><text x="1" dy="1.1em" text-anchor="middle" font-weight="600"><tspan x="0">Words</tspan></text></g>',
    )
    visit(drawing, (node) => void delete node.position)
    const safe = toSafeDrawing(drawing)!
    visit(safe, (node) => void delete node.position)
    expect(JSON.parse(JSON.stringify(safe))).toEqual(
      JSON.parse(JSON.stringify({ ...drawing, data: undefined })),
    )
  })

  test('no tree at all gets more through than is on the list', () => {
    const names = fc.constantFrom(
      ...allowedTags,
      'script',
      'a',
      'image',
      'use',
      'style',
      'foreignObject',
      'animate',
      'set',
    )
    const properties = fc.dictionary(
      fc.constantFrom(
        'fill',
        'href',
        'onClick',
        'style',
        'className',
        'id',
        'd',
        'transform',
        'markerEnd',
        'x',
        'src',
        'xLinkHref',
      ),
      fc.constantFrom(
        'red',
        'url(//evil.example.org)',
        'url(#m)',
        'javascript:alert(1)',
        'M0 0',
        '1',
        'expression(1)',
        'var(--secret)',
      ),
    )
    const trees = (depth: number): fc.Arbitrary<ElementContent> =>
      fc
        .tuple(names, properties, depth > 0 ? fc.array(trees(depth - 1), { maxLength: 3 }) : fc.constant([]))
        .map(([tagName, own, children]) => ({
          type: 'element' as const,
          tagName,
          properties: own,
          children: [...children],
        }))
    fc.assert(
      fc.property(fc.array(trees(3), { maxLength: 5 }), (children) => {
        const safe = toSafeDrawing({ type: 'element', tagName: 'svg', properties: {}, children })
        checkSafe(safe!)
      }),
    )
  })

  test('what is no drawing is refused', () => {
    for (const other of [
      null,
      undefined,
      1,
      'svg',
      {},
      { type: 'text', value: 'x' },
      svgOf('').children,
      { type: 'element', tagName: 'div', children: [] },
    ])
      expect(toSafeDrawing(other)).toBeNull()
  })
})

test('ids of a drawing and what refers to them get the prefix together', () => {
  const svg = svgOf('<marker id="m"/><path d="M0 0" marker-end="url(#m)" fill="none"/>')
  const text = JSON.stringify(withIds(svg, 'a-'))
  expect(text).toContain('"id":"a-m"')
  expect(text).toContain('url(#a-m)')
  expect(JSON.stringify(svg)).not.toContain('a-m')
})
