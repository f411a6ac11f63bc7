import { expect, test } from 'vitest'
import { intakeHtml } from '../../../../shared/intake/html.ts'

const settings = Array.from(
  { length: 30 },
  (_one, at) => `<dt>interval ${at}</dt><dd>Seconds between two readings of sensor number ${at}.</dd>`,
).join('')

function textOf(body: string): string {
  const intake = intakeHtml('page.html', new TextEncoder().encode(`<html><body>${body}</body></html>`))
  return intake.ok ? intake.text : intake.sentence
}

test('the heading and the words before a list that is nearly all of a page belong to what it says', () => {
  const text = textOf(
    `<div><div class="head"><h2>Weather logger</h2></div><p>How often it reads.</p><div><dl>${settings}</dl></div></div>`,
  )
  expect(text).toContain('## Weather logger')
  expect(text).toContain('How often it reads.')
  expect(text).toContain('sensor number 29')
})

test('links before the block do not', () => {
  const text = textOf(
    `<div><p><a href="https://example.org/1">Back</a> <a href="https://example.org/2">Next page</a></p><div><h2>Settings</h2><dl>${settings}</dl></div></div>`,
  )
  expect(text).not.toContain('Next page')
  expect(text).toContain('## Settings')
})
