import { expect, test } from 'vitest'
import { addressOfClipboard, type AddressForm } from '../../../../shared/intake/clipboard-address.ts'

const page = 'https://docs.example.org/mast?height=9'
const of = (forms: Partial<Record<AddressForm, Uint8Array>>) =>
  addressOfClipboard((form) => forms[form] ?? null)
const utf8 = (text: string) => new TextEncoder().encode(text)

test('the page that a browser notes beside copied HTML is found, whichever browser and system', () => {
  expect(of({ 'chromium/x-source-url': utf8(page) })).toBe(page)
  expect(of({ 'org.chromium.source-url': utf8(`${page}\0`) })).toBe(page)
  expect(of({ 'text/x-moz-url-priv': new Uint8Array(Buffer.from(page, 'utf16le')) })).toBe(page)
  const header = `Version:0.9\r\nStartHTML:0000000105\r\nSourceURL:${page}\r\n<html><body><!--StartFragment--><p>x</p><!--EndFragment--></body></html>`
  expect(of({ 'HTML Format': utf8(header) })).toBe(page)
})

test('what is no page on the web is none, and later forms are looked at', () => {
  expect(of({})).toBe(null)
  expect(of({ 'chromium/x-source-url': utf8('app://stillroom/') })).toBe(null)
  expect(of({ 'chromium/x-source-url': utf8('javascript:alert(1)') })).toBe(null)
  expect(
    of({ 'chromium/x-source-url': utf8('file:///etc/passwd'), 'org.chromium.source-url': utf8(page) }),
  ).toBe(page)
  expect(of({ 'chromium/x-source-url': new Uint8Array(2_000_000) })).toBe(null)
})
