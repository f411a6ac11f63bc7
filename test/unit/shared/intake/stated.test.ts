import { describe, expect, test } from 'vitest'
import { intakeHtml } from '../../../../shared/intake/html.ts'

function stated(html: string): readonly [string | null, string | null] {
  const intake = intakeHtml('page.html', new TextEncoder().encode(`<!doctype html>${html}<p>words`))
  if (!intake.ok) throw new Error(intake.sentence)
  return [intake.author, intake.dated]
}
const linked = (value: unknown): string =>
  `<script type="application/ld+json">${JSON.stringify(value)}</script>`

describe('author and date of a page', () => {
  test.each([
    ['<meta name="author" content="Ada Example">', 'Ada Example', null],
    [
      '<meta name=AUTHOR content=" Ada\n Example "><meta name=date content="2024-03-01">',
      'Ada Example',
      '2024-03-01',
    ],
    [
      '<meta property="article:published_time" content="2023-05-06T07:08:09+02:00">',
      null,
      '2023-05-06T07:08:09+02:00',
    ],
    [
      '<meta name="DCTERMS.creator" content="A. One"><meta name="dcterms.issued" content="2019-07">',
      'A. One',
      '2019-07',
    ],
    [
      '<meta name=citation_author content="One, A."><meta name=citation_author content="Two, B."><meta name=citation_publication_date content="2018/04/05">',
      'One, A., Two, B.',
      '2018-04-05',
    ],
    [
      linked({ '@type': 'TechArticle', author: { name: 'C. Three' }, datePublished: '2022-01-02T03:04Z' }),
      'C. Three',
      '2022-01-02T03:04:00Z',
    ],
    [
      linked({
        '@graph': [
          { '@type': 'Person', author: 'no' },
          { '@type': ['Article'], author: [{ name: 'D' }, 'E'], datePublished: '2021' },
        ],
      }),
      'D, E',
      '2021',
    ],
    [
      '<article><header><a rel="author" href="/f">F. Four</a> <time datetime="2020-02-03">long ago</time></header></article>',
      'F. Four',
      '2020-02-03',
    ],
    ['<address rel=author>G. Five</address>', 'G. Five', null],
  ])('%j states %j and %j', (html, author, date) => {
    expect(stated(html)).toEqual([author, date])
  })
  test.each([
    '<p>By Ada Example, 3 March 2024</p>',
    '<meta name=author content="https://people.example.org/ada">',
    '<meta name=author content=""><meta name=date content="03/04/2024">',
    '<meta name=date content="2024-02-31">',
    '<time datetime="2020-02-03">in the text</time>',
    '<article><p>words <time datetime="2020-02-03">then</time></article>',
    '<script type="application/ld+json">{"@type":"Article",</script>',
    linked({ '@type': 'Comment', author: 'H', datePublished: '2020-01-01' }),
    linked(null),
  ])('%j states neither', (html) => {
    expect(stated(html)).toEqual([null, null])
  })
})
