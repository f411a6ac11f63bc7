import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fold, maybeStem } from '../../../../../shared/find/index/fold.ts'
import { toQueryForms, toWordForms } from '../../../../../shared/find/index/forms.ts'

const formsOf = (word: string): string[] => toWordForms(word).forms.map(({ form }) => form)

describe('forms of a word', () => {
  it.each([
    ['disk', ['disk']],
    ['UUID', ['uuid']],
    [
      '/etc/ssh/sshd_config',
      ['/etc/ssh/sshd_config', '/etc/ssh', '/etc', 'etc', 'ssh', 'sshd_config', 'sshd', 'config'],
    ],
    ['/etc/fstab', ['/etc/fstab', '/etc', 'etc', 'fstab']],
    ['~/.ssh/known_hosts', ['~/.ssh/known_hosts', '~/.ssh', 'ssh', 'known_hosts', 'known', 'hosts']],
    [
      '--no-install-recommends',
      ['--no-install-recommends', 'no-install-recommends', 'no', 'install', 'recommends'],
    ],
    ['-rf', ['-rf', 'rf']],
    ['eth0', ['eth0', 'eth']],
    ['10.0.2.0/24', ['10.0.2.0/24', '10.0.2.0', '10.0', '10.0.2']],
    ['foo_bar.service', ['foo_bar.service', 'foo_bar', 'foo', 'bar', 'service']],
    ['v2.38.1', ['v2.38.1', '2.38.1', '2.38']],
    ['5.10.0-21-amd64', ['5.10.0-21-amd64', '5.10.0', '5.10', 'amd64', 'amd']],
    ['E212', ['e212']],
    ['0x80', ['0x80']],
    ['EACCES', ['eacces']],
    [
      'root@gate.example.org',
      ['root@gate.example.org', 'root', 'gate.example.org', 'gate', 'example', 'org'],
    ],
    ['192.0.2.1:8080', ['192.0.2.1:8080', '192.0.2.1', '192.0', '192.0.2', '8080']],
    ['NetworkManager', ['networkmanager', 'network', 'manager']],
    ['Überwachung', ['uberwachung']],
    ['don’t', ["don't", 'don']],
    ['監視サーバ', ['監視サーバ', '監視', '視サ', 'サー', 'ーバ']],
  ])('of %s are it and its parts', (word, forms) => {
    expect(formsOf(word)).toEqual(forms)
  })

  it('of an address of a page are host, port and the parts of its path', () => {
    expect(formsOf('https://wx.example.org:8080/log.html')).toEqual(
      expect.arrayContaining(['wx.example.org', '8080', 'log.html', 'log']),
    )
  })

  it('are looked for without those that stand for more than the word', () => {
    expect(toQueryForms('/etc/ssh/sshd_config')).not.toContain('/etc/ssh')
    expect(toQueryForms('10.0.2.0/24')).toEqual(['10.0.2.0/24', '10.0.2.0'])
  })

  it('stand within the width of their word, the whole one first and each once', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }), (word) => {
        const { forms, width } = toWordForms(word)
        expect(new Set(forms.map(({ form }) => form)).size).toBe(forms.length)
        for (const { at } of forms) expect(at === 0 || at < width).toBe(true)
        expect(width).toBeGreaterThanOrEqual(1)
      }),
    )
  })
})

describe('folding', () => {
  it.each([
    ['Café', 'cafe'],
    ['ŁÓDŹ', 'lodz'],
    ['Straße', 'strasse'],
    ['ﬁle', 'file'],
    ['Ёлка', 'елка'],
    ['smörgås', 'smorgas'],
    ['한국', '한국'],
  ])('%s is %s', (word, folded) => {
    expect(fold(word)).toBe(folded)
  })

  it('done twice changes nothing more', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (word) => {
        expect(fold(fold(word))).toBe(fold(word))
      }),
    )
  })

  it('gives stems of words of letters alone, as Porter publishes them', () => {
    // Examples from Porter: An algorithm for suffix stripping, Program 14(3), 1980.
    expect(['caresses', 'ponies', 'relational', 'hopping', 'adjustment'].map(maybeStem)).toEqual([
      'caress',
      'poni',
      'relat',
      'hop',
      'adjust',
    ])
    expect(['eth0', 'sshd_config', 'uber-fast', 'rf'].map(maybeStem)).toEqual([null, null, null, null])
  })
})
