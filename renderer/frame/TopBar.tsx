import type { ReactNode } from 'react'
import { NameMark } from './NameMark.tsx'

export interface TopBarProps {
  /** The lab's name and its menu. */
  readonly lab: ReactNode
  /** The project's name and its switcher. */
  readonly project: ReactNode
  /** Between project and the rest, for instance finding. */
  readonly middle?: ReactNode
  readonly undoRedo?: ReactNode
  readonly settings?: ReactNode
}

/** The head of the screen: whose work this is, and what reaches over all three panes. */
export function TopBar({ lab, project, middle, undoRedo, settings }: TopBarProps) {
  return (
    <header className="st-topbar">
      <NameMark />
      <div className="st-topbar-where">
        {lab}
        <span className="st-topbar-slash" aria-hidden="true" />
        {project}
      </div>
      <div className="st-topbar-middle">{middle}</div>
      <div className="st-topbar-group">{undoRedo}</div>
      <div className="st-topbar-group">{settings}</div>
    </header>
  )
}
