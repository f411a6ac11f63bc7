import { describe, expect, it } from 'vitest'
import { forgetRemembered, remembered } from '../../../../shared/lab/remembered.ts'

describe('what is remembered', () => {
  it('is read once until it is forgotten, and no more of it than is said', () => {
    const read: string[] = []
    const lengthOf = remembered(
      2,
      (text: string) => text,
      (text) => {
        read.push(text)
        return text.length
      },
    )
    expect([lengthOf('a'), lengthOf('a'), lengthOf('bb')]).toEqual([1, 1, 2])
    expect(read).toEqual(['a', 'bb'])
    forgetRemembered()
    lengthOf('a')
    expect(read).toEqual(['a', 'bb', 'a'])
    for (const text of ['bb', 'c', 'a']) lengthOf(text)
    expect(read).toEqual(['a', 'bb', 'a', 'bb', 'c', 'a'])
  })
})
