// @vitest-environment happy-dom
import { act } from 'react'
import { createRoot } from 'react-dom/client'
import { expect, test, vi } from 'vitest'
import { unheardKinds, withoutUnheard } from '../../../renderer/unheard.ts'

vi.stubGlobal('IS_REACT_ACT_ENVIRONMENT', true)

test('React hears keys, presses and what is typed, and is not called for the kinds that nobody listens for', () => {
  const element = document.body.appendChild(document.createElement('div'))
  const asked: string[] = []
  const add = element.addEventListener.bind(element)
  element.addEventListener = ((kind: string, ...rest: [EventListener, boolean]) => {
    asked.push(kind)
    add(kind, ...rest)
  }) as typeof element.addEventListener
  const root = createRoot(withoutUnheard(element))
  const heard: string[] = []
  const note = ({ type }: { readonly type: string }): void => void heard.push(type)
  act(() => root.render(<input onKeyDown={note} onClick={note} onChange={note} />))
  for (const kind of unheardKinds) expect(asked).not.toContain(kind)
  expect(asked).toContain('keydown')

  const input = element.querySelector('input')!
  act(() => {
    input.dispatchEvent(new KeyboardEvent('keydown', { key: 'a', bubbles: true }))
    const { set } = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!
    set!.call(input, 'a')
    input.dispatchEvent(new Event('input', { bubbles: true }))
    input.click()
  })
  expect(heard).toEqual(['keydown', 'change', 'click'])
  act(() => root.unmount())
})
