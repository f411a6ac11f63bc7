/** The views of a trace, one at a time (WAI-ARIA APG, tabs pattern: one stop for Tab, arrows move and choose). */
import { useId, useRef, type KeyboardEvent, type ReactNode } from 'react'
import { nextPlace } from '../ui/roving.ts'

export interface Tab<T extends string> {
  readonly id: T
  readonly word: string
}

export interface TabsProps<T extends string> {
  readonly label: string
  readonly tabs: readonly Tab<T>[]
  readonly chosen: T
  readonly onChoose: (tab: T) => void
  /** What the chosen view shows. */
  readonly children: ReactNode
}

export function Tabs<T extends string>({ label, tabs, chosen, onChoose, children }: TabsProps<T>) {
  const id = useId()
  const list = useRef<HTMLDivElement>(null)
  const onKeyDown = (event: KeyboardEvent) => {
    const place = nextPlace(
      event.key,
      tabs.findIndex((tab) => tab.id === chosen),
      tabs.length,
      'horizontal',
    )
    const next = place === null ? undefined : tabs[place]
    if (!next) return
    event.preventDefault()
    onChoose(next.id)
    list.current?.querySelector<HTMLElement>(`[data-tab="${next.id}"]`)?.focus()
  }
  return (
    <>
      <div ref={list} role="tablist" aria-label={label} className="st-tabs" onKeyDown={onKeyDown}>
        {tabs.map((tab) => (
          <button
            key={tab.id}
            id={`${id} ${tab.id}`.replaceAll(' ', '-')}
            type="button"
            role="tab"
            aria-selected={tab.id === chosen}
            aria-controls={`${id}-shown`}
            tabIndex={tab.id === chosen ? 0 : -1}
            data-tab={tab.id}
            className="st-tab"
            onClick={() => onChoose(tab.id)}
          >
            {tab.word}
          </button>
        ))}
      </div>
      <div
        id={`${id}-shown`}
        role="tabpanel"
        aria-labelledby={`${id} ${chosen}`.replaceAll(' ', '-')}
        className="st-panel-body st-scroll"
        tabIndex={0}
      >
        {children}
      </div>
    </>
  )
}
