import type { Band } from './layout.ts'

/** Unfolds a pane from elsewhere, where it is folded. The frame folds panes; their own buttons unfold them. */
export function unfoldPane(band: Band): void {
  document.querySelector<HTMLElement>(`.st-pane--${band}.st-pane--folded .st-spine`)?.click()
}
