import { describe, expect, test } from 'vitest'
import { intakeHtml } from '../../../../shared/intake/html.ts'

function text(body: string): string {
  const intake = intakeHtml(
    'a.html',
    new TextEncoder().encode(`<!doctype html><title>t</title><body>${body}`),
  )
  if (!intake.ok) throw new Error(intake.sentence)
  return intake.text
}
const words = '<p>The logger writes to its disk once a minute, and the rack has two of them.</p>'.repeat(20)
const links = '<ul><li><a href="/a">Alpha page</a></li><li><a href="/b">Beta page</a></li></ul>'

describe('a page is freed from', () => {
  test.each([
    ['a sidebar of links', `<div class="sidebar">${links}</div>`, 'Alpha'],
    [
      'a menu beside the heading of its header',
      `<header><h1>Rack</h1><div id="gtoc">${links}</div></header>`,
      'Alpha',
    ],
    ['a footer that is only styled as one', '<div id="footer">Last updated yesterday</div>', 'Last updated'],
    [
      'links to where a name is defined',
      '<h2>log() <a class="srclink" href="/src">source</a></h2>',
      'source',
    ],
  ])('%s', (_, html, left) => {
    expect(text(`<div>${html}${words}</div>`)).not.toContain(left)
  })
})

describe('a page keeps', () => {
  test.each([
    [
      'a box of words that is called a sidebar',
      '<div class="sidebar"><p>Hard links are second names.</p></div>',
      'Hard links',
    ],
    ['a heading whose own name sounds like a menu', '<h3 id="nav">nav</h3>', '### nav'],
    [
      'a section whose id sounds like a menu',
      '<section id="sidebar"><h2>Sidebar</h2><p>Is set by an option.</p></section>',
      'Is set by',
    ],
    ['the heading of its header', `<header><h1>Rack</h1><div>${links}</div></header>`, '# Rack'],
  ])('%s', (_, html, kept) => {
    expect(text(`<div>${html}${words}</div>`)).toContain(kept)
  })
  test('a heading with a list of its own parts, also beside the block that holds nearly all words', () => {
    const outline = '<div class="toc"><h3>Contents</h3><ul><li><a href="#a">Part a</a></li></ul></div>'
    const elsewhere = outline.replace('#a', '/a')
    expect(text(`<div>${outline}<div>${words}</div></div>`)).toContain('### Contents')
    expect(text(`<div>${elsewhere}<div>${words}</div></div>`)).not.toContain('### Contents')
  })
  test('no backticks of code without words', () => {
    expect(
      text(`<table><tr><th>a</th><th>b</th></tr><tr><td><code></code></td><td>x</td></tr></table>`),
    ).not.toContain('`')
  })
})
