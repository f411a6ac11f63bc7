// @vitest-environment happy-dom
import { act } from 'react'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { entryKinds, linkTypes, sourceKinds, stepPartKinds } from '../../../../shared/lab/model.ts'
import { KindTag, LinkBadge } from '../../../../renderer/ui/Badge.tsx'
import { Button } from '../../../../renderer/ui/Button.tsx'
import { Confirm, Dialog } from '../../../../renderer/ui/Dialog.tsx'
import { ErrorSentence } from '../../../../renderer/ui/ErrorSentence.tsx'
import { TextInput } from '../../../../renderer/ui/Field.tsx'
import { AddIcon, UndoIcon } from '../../../../renderer/ui/icons.tsx'
import { entryKindFaces, sourceKindFaces, stepPartFaces } from '../../../../renderer/ui/kinds.ts'
import { Menu, MenuAt } from '../../../../renderer/ui/Menu.tsx'
import type { MenuLine } from '../../../../renderer/ui/MenuList.tsx'
import { noticeStaysMs, Notices, type Notice } from '../../../../renderer/ui/Notices.tsx'
import { ProgressLine } from '../../../../renderer/ui/ProgressLine.tsx'
import { SegmentedKinds } from '../../../../renderer/ui/SegmentedKinds.tsx'
import { createScreen, type Screen } from './screen.ts'

let screen: Screen
beforeEach(() => {
  screen = createScreen()
})
afterEach(() => {
  screen.clear()
  vi.useRealTimers()
})

const focused = () => document.activeElement?.textContent ?? ''

describe('buttons', () => {
  test('a button with an icon alone has a name, and the same words come up when the keyboard reaches it', () => {
    screen.draw(<Button icon={UndoIcon} label="Undo" keys="Ctrl+Z" />)
    const button = screen.find('button')
    expect(button.getAttribute('aria-label')).toBe('Undo')
    expect(button.getAttribute('aria-keyshortcuts')).toBe('Control+Z')
    expect(button.querySelector('.st-icon')?.getAttribute('aria-hidden')).toBe('true')
    act(() => button.focus())
    expect(screen.find('.st-tip').matches(':popover-open')).toBe(true)
    expect(screen.find('.st-tip').textContent).toBe('UndoCtrl+Z')
    screen.press('Escape')
    expect(screen.find('.st-tip').matches(':popover-open')).toBe(false)
  })

  test('one bubble serves all buttons: it shows the words of the one that was reached last', () => {
    screen.draw(
      <>
        <Button icon={UndoIcon} label="Undo" />
        <Button icon={AddIcon} label="Add" keys="A" />
      </>,
    )
    expect(screen.page.querySelectorAll('.st-tip')).toHaveLength(0)
    const [undo, add] = screen.page.querySelectorAll('button')
    act(() => undo!.focus())
    act(() => add!.focus())
    expect(screen.page.querySelectorAll('.st-tip')).toHaveLength(1)
    expect(screen.find('.st-tip').textContent).toBe('AddA')
    expect(screen.find('.st-tip').parentElement).toBe(add!.parentElement)
    expect(screen.find('.st-tip').matches(':popover-open')).toBe(true)
    act(() => add!.blur())
    expect(screen.find('.st-tip').matches(':popover-open')).toBe(false)
  })

  test('words that change while they are shown are shown anew', () => {
    screen.draw(<Button icon={UndoIcon} label="Fold" />)
    act(() => screen.find('button').focus())
    screen.draw(<Button icon={UndoIcon} label="Unfold" />)
    expect(screen.find('.st-tip').textContent).toBe('Unfold')
    expect(screen.find('.st-tip').matches(':popover-open')).toBe(true)
  })

  test('a button never sends a form unless it says so', () => {
    screen.draw(<Button icon={AddIcon}>Add</Button>)
    expect(screen.find('button').getAttribute('type')).toBe('button')
    expect(screen.page.querySelector('.st-tip')).toBeNull()
  })

  test('only a button that can stay pressed says whether it is', () => {
    screen.draw(
      <>
        <Button pressed={false}>A</Button>
        <Button>B</Button>
      </>,
    )
    const [a, b] = screen.page.querySelectorAll('button')
    expect(a?.getAttribute('aria-pressed')).toBe('false')
    expect(b?.hasAttribute('aria-pressed')).toBe(false)
  })
})

test('a field ties its label, its hint and its error to the control', () => {
  screen.draw(
    <TextInput
      label="Title"
      hint="A few words."
      error="The title is empty. Give it a word."
      defaultValue=""
    />,
  )
  const input = screen.find('input')
  expect(screen.find('label').getAttribute('for')).toBe(input.id)
  const told = input
    .getAttribute('aria-describedby')!
    .split(' ')
    .map((id) => document.getElementById(id)?.textContent?.trim())
  expect(told).toEqual(['A few words.', 'The title is empty. Give it a word.'])
  expect(input.getAttribute('aria-invalid')).toBe('true')
})

describe('kinds', () => {
  test('every kind has a word and an icon that no other of its family has', () => {
    for (const [kinds, faces] of [
      [entryKinds, entryKindFaces],
      [stepPartKinds, stepPartFaces],
      [sourceKinds, sourceKindFaces],
    ] as const) {
      const found = Object.values(faces)
      expect(Object.keys(faces).sort()).toEqual([...kinds].sort())
      expect(new Set(found.map((face) => face.word)).size).toBe(kinds.length)
      expect(new Set(found.map((face) => face.icon)).size).toBe(kinds.length)
    }
  })

  test('a tag shows icon and word together', () => {
    screen.draw(<KindTag kind="problem" />)
    expect(screen.find('.st-kind-tag .st-icon')).toBeTruthy()
    expect(screen.find('.st-kind-tag').textContent).toBe('Problem')
  })

  test('the chooser is one radio group with one stop for Tab, and arrows choose', () => {
    const onChange = vi.fn()
    screen.draw(<SegmentedKinds value="action" onChange={onChange} />)
    const radios = [...screen.page.querySelectorAll('[role="radio"]')]
    expect(radios.map((radio) => radio.getAttribute('aria-label'))).toEqual(
      entryKinds.map((kind) => entryKindFaces[kind].word),
    )
    expect(radios.filter((radio) => radio.getAttribute('tabindex') === '0')).toHaveLength(1)
    act(() => screen.find('[data-kind="action"]').focus())
    screen.press('ArrowLeft')
    expect(onChange).toHaveBeenCalledWith('list')
    expect((document.activeElement as HTMLElement).dataset['kind']).toBe('list')
    screen.click('[data-kind="fix"]')
    expect(onChange).toHaveBeenLastCalledWith('fix')
  })
})

test('link types are told apart by word and by border, not by colour', () => {
  const looks = linkTypes.map((type) => {
    screen.draw(<LinkBadge type={type} />)
    const badge = screen.find('.st-badge')
    expect(badge.textContent).toBe(type)
    return badge.className
  })
  expect(looks[linkTypes.indexOf('quotes')]).toContain('--solid')
  expect(looks[linkTypes.indexOf('derives')]).toContain('--dashed')
  screen.draw(<LinkBadge type="quotes" isLoose />)
  expect(screen.find('.st-badge').textContent).toBe('quotes, loose')
})

describe('a menu', () => {
  const chosen = vi.fn()
  const lines: readonly MenuLine[] = [
    { kind: 'heading', id: 'h', word: 'Carry to' },
    { id: 'e', word: 'Expect of step 4', onChoose: () => void chosen('e') },
    { id: 'n', word: 'New step after 4', onChoose: () => void chosen('n') },
    { kind: 'rule', id: 'r' },
    {
      id: 'w',
      word: 'Why of step 4',
      disabledBecause: 'There is one already.',
      onChoose: () => void chosen('w'),
    },
  ]
  const at = { left: 0, top: 0, right: 10, bottom: 10 }
  beforeEach(() => chosen.mockClear())

  test('it opens with the first line in focus, walks by arrows and letters, and chooses', () => {
    const onClose = vi.fn()
    screen.draw(<MenuAt label="Carry to" lines={lines} at={at} onClose={onClose} />)
    expect(focused()).toBe('Expect of step 4')
    screen.press('ArrowUp')
    expect(focused()).toContain('Why of step 4')
    screen.press('n')
    expect(focused()).toBe('New step after 4')
    act(() => (document.activeElement as HTMLElement).click())
    expect(chosen.mock.calls).toEqual([['n']])
    expect(onClose).toHaveBeenCalled()
  })

  test('a line that cannot be chosen says why and does nothing', () => {
    const onClose = vi.fn()
    screen.draw(<MenuAt label="Carry to" lines={lines} at={at} onClose={onClose} />)
    screen.press('End')
    expect(focused()).toContain('There is one already.')
    expect(document.activeElement?.getAttribute('aria-disabled')).toBe('true')
    act(() => (document.activeElement as HTMLElement).click())
    expect(chosen).not.toHaveBeenCalled()
    expect(onClose).not.toHaveBeenCalled()
  })

  test('behind a button nothing of it is in the page, nor made, before the button is pressed', () => {
    const make = vi.fn(() => lines)
    screen.draw(
      <Menu label="Carry to" lines={make} trigger={(attributes) => <Button {...attributes}>Carry</Button>} />,
    )
    const opener = screen.find('button')
    expect(opener.getAttribute('aria-haspopup')).toBe('menu')
    expect(screen.page.querySelector('[popover]')).toBeNull()
    screen.click('button')
    const popover = screen.find('[popover]')
    expect(popover.id).toBe(opener.getAttribute('popovertarget'))
    expect(make).not.toHaveBeenCalled()
    act(() => {
      popover.dispatchEvent(Object.assign(new Event('beforetoggle'), { newState: 'open' }))
      popover.dispatchEvent(Object.assign(new Event('toggle'), { newState: 'open' }))
    })
    expect(make).toHaveBeenCalled()
    expect(focused()).toBe('Expect of step 4')
    expect(screen.find('button').getAttribute('aria-expanded')).toBe('true')
  })

  test('Escape closes it and the focus goes back to where it was', () => {
    screen.draw(<Button>Before</Button>)
    act(() => screen.find('button').focus())
    const before = document.activeElement
    const onClose = vi.fn()
    screen.draw(
      <>
        <Button>Before</Button>
        <MenuAt label="Carry to" lines={lines} at={at} onClose={onClose} />
      </>,
    )
    expect(focused()).toBe('Expect of step 4')
    screen.press('Escape')
    expect(onClose).toHaveBeenCalled()
    expect(document.activeElement).toBe(before)
  })
})

describe('a dialog', () => {
  test('it is not modal, closes by Escape and gives the focus back', () => {
    const onClose = vi.fn()
    screen.draw(<Button>Open</Button>)
    act(() => screen.find('button').focus())
    const before = document.activeElement
    const showModal = vi.spyOn(HTMLDialogElement.prototype, 'showModal')
    screen.draw(
      <>
        <Button>Open</Button>
        <Dialog title="Add a source" onClose={onClose}>
          <TextInput label="Address" data-first />
        </Dialog>
      </>,
    )
    expect(showModal).not.toHaveBeenCalled()
    expect(document.activeElement).toBe(screen.find('input'))
    screen.press('Escape')
    expect(onClose).toHaveBeenCalledTimes(1)
    screen.draw(<Button>Open</Button>)
    expect(document.activeElement).toBe(before)
  })

  test('before something is taken away for good it is modal, and the safe button has the focus', () => {
    const showModal = vi.spyOn(HTMLDialogElement.prototype, 'showModal')
    const onConfirm = vi.fn()
    const onClose = vi.fn()
    screen.draw(
      <Confirm title="Strike this text out?" act="Strike out" onConfirm={onConfirm} onClose={onClose}>
        <p>It cannot be undone.</p>
      </Confirm>,
    )
    expect(showModal).toHaveBeenCalledTimes(1)
    expect(focused()).toBe('Leave it as it is')
    act(() => (document.activeElement as HTMLElement).click())
    expect(onClose).toHaveBeenCalled()
    screen.click('.st-button--danger')
    expect(onConfirm).toHaveBeenCalledTimes(1)
  })
})

describe('notices', () => {
  const carried: Notice = {
    id: '1',
    tone: 'done',
    words: 'Carried to step 4.',
    action: { word: 'Undo', onAct: vi.fn() },
  }
  const failed: Notice = { id: '2', tone: 'problem', words: 'The file could not be written.' }

  test('the live region is there before its words', () => {
    screen.draw(<Notices notices={[]} onDismiss={() => undefined} />)
    expect(screen.find('[aria-live="polite"]').textContent).toBe('')
  })

  test('a notice goes after its time, a problem stays', () => {
    vi.useFakeTimers()
    const onDismiss = vi.fn()
    screen.draw(<Notices notices={[carried, failed]} onDismiss={onDismiss} />)
    act(() => void vi.advanceTimersByTime(noticeStaysMs - 1))
    expect(onDismiss).not.toHaveBeenCalled()
    act(() => void vi.advanceTimersByTime(10 * noticeStaysMs))
    expect(onDismiss.mock.calls).toEqual([['1']])
  })

  test('a notice that holds the focus stays until it is left', () => {
    vi.useFakeTimers()
    const onDismiss = vi.fn()
    screen.draw(<Notices notices={[carried]} onDismiss={onDismiss} />)
    act(() => screen.find('.st-notice button').focus())
    act(() => void vi.advanceTimersByTime(10 * noticeStaysMs))
    expect(onDismiss).not.toHaveBeenCalled()
    act(() => screen.find('.st-notice button').blur())
    act(() => void vi.advanceTimersByTime(noticeStaysMs))
    expect(onDismiss).toHaveBeenCalledWith('1')
  })

  test('its action acts once and takes the notice away', () => {
    const onDismiss = vi.fn()
    screen.draw(<Notices notices={[carried]} onDismiss={onDismiss} />)
    screen.click('.st-notice .st-button--plain')
    expect(carried.action?.onAct).toHaveBeenCalledTimes(1)
    expect(onDismiss).toHaveBeenCalledWith('1')
  })
})

test('an error is an alert that says what happened, what is safe and what to do', () => {
  screen.draw(<ErrorSentence happened="It broke." safe="All is kept." next="Try again." />)
  expect(screen.find('[role="alert"]').textContent).toBe('It broke. All is kept.Try again.')
})

test('progress of unknown length claims no number, and a share outside 0 to 1 is held there', () => {
  screen.draw(<ProgressLine words="Reading" share={null} />)
  expect(screen.find('[role="progressbar"]').hasAttribute('aria-valuenow')).toBe(false)
  screen.draw(<ProgressLine words="Reading" share={1.4} />)
  expect(screen.find('[role="progressbar"]').getAttribute('aria-valuenow')).toBe('100')
})
