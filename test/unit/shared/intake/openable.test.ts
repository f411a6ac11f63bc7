import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { maybeOpenable, plainFileWords } from '../../../../shared/intake/openable.ts'

const text = (words: string): Uint8Array => new TextEncoder().encode(words)
const latin1 = (signs: string): Uint8Array => new Uint8Array(Buffer.from(signs, 'latin1'))
const png = latin1('\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x02\0\0\0\x03\x08\x06\0\0\0')
const jpeg = latin1('\xff\xd8\xff\xc0\0\x11\x08\0\x02\0\x03\x03\x01\x11\0\x02\x11\x01\x03\x11\x01')

describe('original bytes are opened', () => {
  it.each([
    ['a PDF', text('%PDF-1.7\n%\u00e2'), '.pdf'],
    ['a PNG', png, '.png'],
    ['a JPEG', jpeg, '.jpg'],
    ['a GIF', latin1('GIF89a\x02\0\x03\0\0\0\0'), '.gif'],
    ['a WebP', latin1('RIFF\x20\0\0\0WEBPVP8X\n\0\0\0\0\0\0\0\x01\0\0\x02\0\0'), '.webp'],
    ['plain text', text('Fan 3 rattles – 12 °C\n'), '.txt'],
    ['Markdown', text('# Rack\n\n- fans <https://mast.example.org>\n'), '.txt'],
    ['text with a byte order mark', text('\ufeffRack'), '.txt'],
    ['a log with colours', text('\u001b[31mfailed\u001b[0m\n'), '.txt'],
    ['text that quotes a page far down', text(`${'Words about pages. '.repeat(40)}<html>`), '.txt'],
  ])('as %s', (_what, bytes, ending) => {
    expect(maybeOpenable(bytes)?.ending).toBe(ending)
  })

  it.each([
    ['nothing', new Uint8Array()],
    ['a page', text('<!DOCTYPE html><title>Rack</title>')],
    ['a page behind white space and a byte order mark', text('\ufeff \n\t<HTML><body>')],
    ['a page behind words', text('Rack\n<script>alert(1)</script>')],
    ['a page behind a comment', text('<!-- words --><p>Rack')],
    ['SVG', text('<svg xmlns="http://www.w3.org/2000/svg"/>')],
    ['SVG behind words', text('words <svg onload="x()">')],
    ['XML', text('<?xml version="1.0"?><a/>')],
    ['a shell script', text('#!/bin/sh\nrm -r x\n')],
    ['a script behind white space', text('\n#!/usr/bin/env python3\n')],
    ['PHP', text('<?php phpinfo();')],
    ['a batch file', text('@echo off\r\n')],
    ['a starter of a desktop', text('[Desktop Entry]\nExec=sh\n')],
    ['a starter behind a comment', text('# words\n[Desktop Entry]\nExec=sh\n')],
    ['a starter of Windows', text('[InternetShortcut]\nURL=file:///x\n')],
    ['PostScript', text('%!PS-Adobe-3.0\n')],
    ['RTF', text('{\\rtf1\\ansi words}')],
    ['a saved mail or page archive', text('From: x\nMIME-Version: 1.0\n')],
    ['ELF', latin1('\x7fELF\x02\x01\x01\0')],
    ['a Windows program', latin1('MZ\x90\0\x03\0\0\0')],
    ['a Mach-O program', latin1('\xcf\xfa\xed\xfe\x07\0\0\x01')],
    ['WebAssembly', latin1('\0asm\x01\0\0\0')],
    ['a zip or an office file', latin1('PK\x03\x04\x14\0')],
    ['an old office file', latin1('\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1')],
    ['gzip', latin1('\x1f\x8b\x08\0')],
    ['a PDF behind something else', text('<html>%PDF-1.7')],
    ['a picture that is cut off', png.subarray(0, 12)],
    ['text in windows-1252', latin1('Fan 3: 12 \xb0C')],
    ['text in UTF-16', latin1('\xff\xfeR\0a\0c\0k\0')],
    ['text with a zero byte', text('Rack\0')],
  ])('not as %s', (_what, bytes) => {
    expect(maybeOpenable(bytes)).toBeUndefined()
  })

  it('in a kind that the bytes themselves show, whatever they are', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 64 }), (bytes) => {
        const ending = maybeOpenable(bytes)?.ending
        if (ending === '.txt') expect(Buffer.from(bytes).toString('utf8')).not.toMatch(/^\s*(#!|<[a-z!?/])/iu)
        else if (ending !== undefined) expect(bytes.byteLength).toBeGreaterThan(4)
      }),
    )
  })
})

describe('the name under which another program sees a file', () => {
  it('holds letters, digits and hyphens only, whatever the name was', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (name) => {
        expect(plainFileWords(name)).toMatch(/^[\p{L}\p{N}][\p{L}\p{N}-]{0,39}$/u)
      }),
    )
  })

  it('keeps what a person knows the file by', () => {
    expect(plainFileWords('/srv/Fan 3 – Lüfter.v2.pdf')).toBe('Fan-3-Lüfter-v2')
    expect(plainFileWords('report.pdf.exe')).toBe('report-pdf')
    expect(plainFileWords('--help')).toBe('help')
    expect(plainFileWords('…')).toBe('original')
  })
})
