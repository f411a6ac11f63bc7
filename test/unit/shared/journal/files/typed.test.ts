import { describe, expect, it } from 'vitest'
import { contentOf } from '../../../../../shared/journal/files/content.ts'
import { noFile, typedFile } from '../../../../../shared/journal/files/typed.ts'

describe('a file as it was typed', () => {
  it('is its content in one fence, with the path, owner and mode that were said', () => {
    const about = { ...noFile, path: ' /etc/nut/ups.conf ', owner: 'root', mode: 'rw-r-----' }
    const typed = typedFile('[mast]\n  driver = usbhid-ups', about)!
    expect(typed.file).toMatchObject({
      path: '/etc/nut/ups.conf',
      owner: 'root',
      mode: '0640',
      form: 'content',
    })
    expect(contentOf(typed.text, typed.file)).toBe('[mast]\n  driver = usbhid-ups\n')
  })

  it('is a difference where a unified diff was pasted, and the diff names the path', () => {
    const diff = '--- a/etc/fstab\n+++ b/etc/fstab\n@@ -1 +1 @@\n-LABEL=root / ext4\n+LABEL=new / ext4\n'
    expect(typedFile(`diff of both:\n${diff}`, noFile)).toMatchObject({
      text: '```diff\n' + diff.trimEnd() + '\n```',
      file: { path: '/etc/fstab', form: 'diff' },
    })
    expect(typedFile(diff, { ...noFile, path: '/etc/fstab.new' })!.file.path).toBe('/etc/fstab.new')
  })

  it('stays as it is where it already holds a fence, and is none without a path', () => {
    const text = 'As shipped:\n\n```ini\na = 1\n```'
    expect(typedFile(text, { ...noFile, path: '/etc/x' })!.text).toBe(text)
    expect(typedFile('a = 1', noFile)).toBeUndefined()
  })
})
