import { DOMParser } from '@xmldom/xmldom'
import { describe, expect, test } from 'vitest'
import type { Drawn } from '../../../../shared/sketch/drawn.ts'
import { toSvgFile } from '../../../../shared/sketch/saved.ts'

const drawn: Drawn = {
  ok: true,
  kind: 'Flow chart',
  title: 'Rack & "dome" <now>',
  width: 40,
  height: 20,
  labels: ['a'],
  svg: {
    type: 'element',
    tagName: 'svg',
    properties: { viewBox: '-5 -2 40 20', fill: 'var(--ink)', fontSize: '15' },
    children: [
      {
        type: 'element',
        tagName: 'path',
        properties: { d: 'M0 0', markerEnd: 'url(#m)', strokeDashArray: ['5', '3'], strokeLineCap: 'round' },
        children: [],
      },
      {
        type: 'element',
        tagName: 'text',
        properties: { textAnchor: 'middle', fill: 'var(--kind-action)' },
        children: [{ type: 'text', value: 'a < b & "c" \u0007\ud800 ü 𝄞' }],
      },
    ],
  },
}

describe('a saved drawing', () => {
  const file = toSvgFile(drawn)

  test('is XML that another program reads without a complaint', () => {
    const complaints: string[] = []
    const read = new DOMParser({ onError: (_level, words) => void complaints.push(words) })
    const { documentElement } = read.parseFromString(file, 'image/svg+xml')
    expect(complaints).toEqual(['Unicode replacement character detected, source encoding issues?'])
    expect(documentElement?.namespaceURI).toBe('http://www.w3.org/2000/svg')
    expect(documentElement?.getElementsByTagName('text')[0]?.textContent).toBe('a < b & "c" \ufffd ü 𝄞')
  })

  test('names attributes as SVG does and has the colours of the light face', () => {
    expect(file).toContain(
      '<path d="M0 0" marker-end="url(#m)" stroke-dasharray="5 3" stroke-linecap="round"/>',
    )
    expect(file).toContain('text-anchor="middle" fill="#1c4189"')
    expect(file).toContain('viewBox="-5 -2 40 20" fill="#23211d" font-size="15" width="40" height="20"')
    expect(file).not.toContain('var(')
  })

  test('lies on a ground of its own that covers it', () => {
    expect(file).toContain('<rect x="-5" y="-2" width="40" height="20" fill="#fdfcfa"/>')
  })

  test('keeps its words, without what XML has no place for', () => {
    expect(file).toContain('a &lt; b &amp; &quot;c&quot; \ufffd ü 𝄞</text>')
    expect(file).toContain('<title>Rack &amp; &quot;dome&quot; &lt;now&gt;</title>')
  })
})
