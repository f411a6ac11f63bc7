import { describe, expect, it } from 'vitest'
import { readQuestion } from '../../../../../shared/find/ask/question.ts'

describe('a question', () => {
  it.each([
    ['how do I swap the cable', 'how'],
    ['howto swap the cable', 'how'],
    ['the link is gone, how can I get it back', 'how'],
    ['how many cables are there', 'what'],
    ['Why did the roof open?', 'why'],
    ['since when is the roof open', 'when'],
    ['on which day did the roof open', 'when'],
    ['which roof is open', 'what'],
    ['in which drawer is the cable', 'what'],
    ['mount: /srv: unknown filesystem type', 'error'],
    ['roofd gives ENOSPC', 'error'],
    ['503 Service Unavailable', 'error'],
    ['cable drawer', 'plain'],
    ['', 'plain'],
  ] as const)('%s asks for: %s', (typed, sort) => {
    expect(readQuestion(typed).sort).toBe(sort)
  })

  it('is about the words that are left when asking and filling are taken away', () => {
    expect(readQuestion('how do I get the spare cable out of /srv/box-2 please?').words).toEqual([
      'spare',
      'cable',
      '/srv/box-2',
    ])
  })

  it('keeps all its words where none would be left', () => {
    expect(readQuestion('how do I do it').words).toEqual(['how', 'do', 'I', 'do', 'it'])
  })

  it('tells what is done from what it is done with', () => {
    expect([...readQuestion('how do I swap the old cable').doing]).toEqual(['swap'])
    expect([...readQuestion('why does the old cable hum').doing]).toEqual(['hum'])
    expect([...readQuestion('why does the cable of the roof hum').doing]).not.toContain('cable')
    expect([...readQuestion('the drawer after cleaning').doing]).toEqual([])
  })
})
