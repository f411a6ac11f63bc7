import type { Schema } from 'hast-util-sanitize'

/**
 * What rendered Markdown may consist of. The renderer makes nothing else; this is the second net behind it.
 * No element here can run, load or navigate, except pictures whose bytes stand in the text.
 */
export const renderedSchema: Schema = {
  tagNames: [
    'a',
    'blockquote',
    'br',
    'code',
    'del',
    'div',
    'em',
    'h1',
    'h2',
    'h3',
    'h4',
    'h5',
    'h6',
    'hr',
    'img',
    'input',
    'li',
    'mark',
    'ol',
    'p',
    'pre',
    'span',
    'strong',
    'sup',
    'table',
    'tbody',
    'td',
    'th',
    'thead',
    'tr',
    'ul',
  ],
  attributes: {
    '*': ['dataFrom', 'dataTo', 'className'],
    a: ['dataAddress', 'title'],
    img: ['src', 'alt', 'title'],
    input: [['type', 'checkbox'], ['disabled', true], 'checked', 'ariaLabel'],
    ol: ['start'],
    td: ['align'],
    th: ['align'],
  },
  required: { input: { type: 'checkbox', disabled: true } },
  protocols: { src: ['data'] },
  clobber: [],
  strip: ['script', 'style'],
}
