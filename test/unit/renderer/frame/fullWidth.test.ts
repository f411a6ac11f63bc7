import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { formerAfter, toggleFullWidth } from '../../../../renderer/frame/fullWidth.ts'
import {
  bands,
  defaultLayout,
  isPaneLayout,
  toggleFold,
  type PaneLayout,
} from '../../../../renderer/frame/layout.ts'

const layouts = fc
  .subarray([...bands], { maxLength: 2 })
  .map((folded): PaneLayout => ({ ...defaultLayout, folded }))

describe('full width', () => {
  it('leaves one pane open, and a second press brings the former layout back', () => {
    fc.assert(
      fc.property(layouts, fc.constantFrom(...bands), (layout, band) => {
        const wide = toggleFullWidth(layout, null, band)
        expect(wide.layout.folded).toEqual(bands.filter((other) => other !== band))
        expect(isPaneLayout(wide.layout)).toBe(true)
        expect(toggleFullWidth(wide.layout, wide.former, band)).toEqual({ layout, former: null })
      }),
    )
  })

  it('brings the former layout back also when the journal was unfolded meanwhile', () => {
    const before: PaneLayout = { ...defaultLayout, folded: ['procedure'] }
    const wide = toggleFullWidth(before, null, 'sources')
    const withJournal = toggleFold(wide.layout, 'journal')
    const former = formerAfter(withJournal, wide.former, 'sources')
    expect(former).not.toBeNull()
    expect(toggleFullWidth(withJournal, former, 'sources').layout).toEqual(before)
  })

  it('is over once all panes are open or the wide one is folded', () => {
    expect(formerAfter(defaultLayout, defaultLayout, 'sources')).toBeNull()
    expect(formerAfter({ ...defaultLayout, folded: ['sources'] }, defaultLayout, 'sources')).toBeNull()
  })
})
