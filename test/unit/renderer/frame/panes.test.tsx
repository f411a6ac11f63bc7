// @vitest-environment happy-dom
import { act, useState } from 'react'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { defaultLayout, type PaneLayout } from '../../../../renderer/frame/layout.ts'
import { PaneSplitter } from '../../../../renderer/frame/PaneSplitter.tsx'
import { RibbonPicture } from '../../../../renderer/frame/RibbonPicture.tsx'
import { ThreePanes } from '../../../../renderer/frame/ThreePanes.tsx'
import { createScreen, type Screen } from '../ui/screen.ts'

let screen: Screen
beforeEach(() => {
  screen = createScreen()
  vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(1280)
  vi.spyOn(HTMLElement.prototype, 'clientHeight', 'get').mockReturnValue(700)
})
afterEach(() => {
  screen.clear()
  vi.restoreAllMocks()
})

function Panes({
  first = defaultLayout,
  onLayout,
}: {
  readonly first?: PaneLayout
  readonly onLayout?: (layout: PaneLayout) => void
}) {
  const [layout, setLayout] = useState(first)
  return (
    <ThreePanes
      layout={layout}
      onLayout={(next) => {
        setLayout(next)
        onLayout?.(next)
      }}
      sources={{ title: 'Sources', count: 3, countWords: '3 sources', body: <p>s</p> }}
      journal={{ title: 'Journal', body: <p>j</p>, foot: <input aria-label="New entry" /> }}
      procedure={{ title: 'Procedure', body: <p>p</p> }}
      ribbons={(geometry) => (
        <RibbonPicture geometry={geometry}>
          {geometry.gaps.map((gap) => (
            <path key={gap.left} d={`M${gap.left} 0 H${gap.right}`} />
          ))}
        </RibbonPicture>
      )}
    />
  )
}

const order = () =>
  [...screen.page.querySelectorAll<HTMLElement>('[data-band]')].map((pane) => pane.dataset['band'])

describe('three panes', () => {
  test('they always stand in the same order, folded or not', () => {
    screen.draw(<Panes first={{ ...defaultLayout, folded: ['journal'] }} />)
    expect(order()).toEqual(['sources', 'journal', 'procedure'])
    screen.click('[data-band="sources"] [data-fold]')
    expect(order()).toEqual(['sources', 'journal', 'procedure'])
  })

  test('ribbons get one picture over the whole frame, and the gaps in its pixels', () => {
    screen.draw(<Panes />)
    const paths = [...screen.page.querySelectorAll('svg.st-ribbons path')].map((path) =>
      path.getAttribute('d'),
    )
    expect(paths).toHaveLength(2)
    const [left, right] = /^M(\d+) 0 H(\d+)$/.exec(paths[0]!)!.slice(1).map(Number) as [number, number]
    expect(right - left).toBe(36)
    expect(screen.find('svg.st-ribbons').getAttribute('width')).toBe('1280')
  })

  test('a pane folds to a button with its name and count, and the focus goes along both ways', () => {
    screen.draw(<Panes />)
    screen.click('[data-band="sources"] [data-fold]')
    const spine = screen.find('.st-spine')
    expect(spine.getAttribute('aria-label')).toBe('Unfold Sources, 3 sources')
    expect(document.activeElement).toBe(spine)
    screen.click('.st-spine')
    expect(document.activeElement).toBe(screen.find('[data-band="sources"] [data-fold]'))
  })

  test('the last open pane cannot be folded', () => {
    screen.draw(<Panes first={{ ...defaultLayout, folded: ['sources', 'procedure'] }} />)
    expect(screen.page.querySelector('[data-band="journal"] [data-fold]')).toBeNull()
    expect(screen.page.querySelectorAll('.st-spine')).toHaveLength(2)
  })

  test('Enter on a splitter folds the outer pane beside it and unfolds it again', () => {
    const onLayout = vi.fn<(layout: PaneLayout) => void>()
    screen.draw(<Panes onLayout={onLayout} />)
    const [, second] = screen.page.querySelectorAll<HTMLElement>('[role="separator"]')
    act(() => second!.focus())
    screen.press('Enter')
    expect(onLayout.mock.lastCall?.[0].folded).toEqual(['procedure'])
    screen.press('Enter')
    expect(onLayout.mock.lastCall?.[0].folded).toEqual([])
  })
})

describe('a splitter (WAI-ARIA APG, window splitter)', () => {
  const reach = { now: 300, min: 200, max: 500 }
  const onWidth = vi.fn()
  const splitter = (
    <PaneSplitter place={0} reach={reach} step={15} onWidth={onWidth} onFold={() => undefined} />
  )
  beforeEach(() => onWidth.mockClear())

  test('it tells its place and its limits', () => {
    screen.draw(splitter)
    const line = screen.find('[role="separator"]')
    const told = ['valuenow', 'valuemin', 'valuemax'].map((name) => line.getAttribute(`aria-${name}`))
    expect(told).toEqual(['300', '200', '500'])
    expect(line.getAttribute('aria-orientation')).toBe('vertical')
    expect(line.getAttribute('tabindex')).toBe('0')
  })

  test('arrows move it, Shift moves it further, Home and End go to the limits', () => {
    screen.draw(splitter)
    act(() => screen.find('[role="separator"]').focus())
    screen.press('ArrowLeft')
    screen.press('ArrowRight')
    screen.press('ArrowRight', { shiftKey: true })
    screen.press('Home')
    screen.press('End')
    screen.press('x')
    expect(onWidth.mock.calls.flat()).toEqual([285, 315, 360, 200, 500])
  })

  test('it follows the pointer that took hold of it, by mouse or touch, and no other', () => {
    screen.draw(splitter)
    const line = screen.find('[role="separator"]')
    line.setPointerCapture = () => undefined
    const pointer = (type: string, pointerId: number, clientX: number) =>
      screen.fire(
        '[role="separator"]',
        new PointerEvent(type, { bubbles: true, pointerId, clientX, button: 0, pointerType: 'touch' }),
      )
    pointer('pointermove', 1, 900)
    pointer('pointerdown', 1, 310)
    pointer('pointermove', 2, 700)
    pointer('pointermove', 1, 350)
    pointer('pointerup', 1, 350)
    pointer('pointermove', 1, 400)
    expect(onWidth.mock.calls.flat()).toEqual([340])
  })
})
