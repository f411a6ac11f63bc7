import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { maybeFormError } from '../../../../../renderer/panes/sources/form.ts'
import {
  FORM_DELAY,
  FormDraft,
  isBlank,
  isFormFields,
  noFields,
} from '../../../../../renderer/panes/sources/formDraft.ts'

function settings(first: Record<string, unknown> = {}) {
  const kept = new Map(Object.entries(first))
  return {
    kept,
    findSetting: (key: string) => Promise.resolve(kept.get(key)),
    keepSetting: (key: string, value: unknown) => {
      kept.set(key, value)
      return Promise.resolve()
    },
  }
}

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

describe('the draft of the form', () => {
  test('is written soon after the first key, with all that was typed until then', async () => {
    const lab = settings()
    const draft = new FormDraft(lab, 'form')
    draft.change({ ...noFields, title: 'a' })
    await vi.advanceTimersByTimeAsync(FORM_DELAY - 1)
    draft.change({ ...noFields, title: 'ab' })
    expect(lab.kept.size).toBe(0)
    await vi.advanceTimersByTimeAsync(1)
    expect(lab.kept.get('form')).toMatchObject({ title: 'ab' })
  })

  test('is brought back by the next window', async () => {
    const lab = settings()
    const draft = new FormDraft(lab, 'form')
    draft.change({ ...noFields, text: 'half a text' })
    await draft.write()
    const next = new FormDraft(lab, 'form')
    expect(await next.load()).toBe(true)
    expect(next.store.getState().text).toBe('half a text')
  })

  test('leaves nothing behind once the form is blank again', async () => {
    const lab = settings()
    const draft = new FormDraft(lab, 'form')
    draft.change({ ...noFields, text: 'x' })
    await draft.write()
    draft.change(noFields)
    await draft.write()
    expect(lab.kept.get('form')).toBeNull()
    expect(await new FormDraft(lab, 'form').load()).toBe(false)
  })

  test('never takes the place of what is being typed already', async () => {
    const lab = settings({ form: { ...noFields, title: 'old' } })
    const draft = new FormDraft(lab, 'form')
    draft.change({ ...noFields, title: 'new' })
    expect(await draft.load()).toBe(false)
    expect(draft.store.getState().title).toBe('new')
  })

  test('is not written again when nothing was typed since', async () => {
    const lab = settings()
    const draft = new FormDraft(lab, 'form')
    await draft.write()
    expect(lab.kept.size).toBe(0)
  })

  test('loses what was struck out of it and keeps what was typed since', async () => {
    const lab = settings()
    const draft = new FormDraft(lab, 'form')
    draft.change({ ...noFields, title: 'Key', text: 'pass sesame end' })
    await draft.write()
    draft.change({ ...draft.store.getState(), text: 'pass sesame end, then more' })
    lab.kept.set('form', { ...noFields, title: 'Key', text: 'pass ██████ end' })
    await draft.takeStruck()
    expect(draft.store.getState()).toMatchObject({ title: 'Key', text: 'pass ██████ end, then more' })
    await draft.write()
    expect(lab.kept.get('form')).toMatchObject({ text: 'pass ██████ end, then more' })
  })
})

test('only fields of the right shape are brought back', () => {
  expect(isFormFields(noFields)).toBe(true)
  for (const value of [null, 'x', {}, { ...noFields, text: 3 }, { ...noFields, html: undefined }])
    expect(isFormFields(value)).toBe(false)
})

test('a form of white space is blank', () => {
  expect(isBlank({ ...noFields, text: ' \n' })).toBe(true)
  expect(isBlank({ ...noFields, address: 'x' })).toBe(false)
})

test('a form can be added with an address or a text, and never with half an address', () => {
  expect(maybeFormError(noFields)).not.toBeNull()
  expect(maybeFormError({ ...noFields, title: 'Only a title' })).not.toBeNull()
  expect(maybeFormError({ ...noFields, text: 'x', address: 'docs.example.org' })).toContain('http')
  expect(maybeFormError({ ...noFields, text: 'x' })).toBeNull()
  expect(maybeFormError({ ...noFields, address: 'https://docs.example.org' })).toBeNull()
})
