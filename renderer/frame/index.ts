/** The frame that the panes hang in. Needs renderer/ui/index.ts for its tokens. */
import './frame.css'

export * from './geometry.ts'
export * from './fullWidth.ts'
export * from './layout.ts'
export * from './NameMark.tsx'
export * from './content.ts'
export { ThreePanes, type ThreePanesProps } from './ThreePanes.tsx'
export * from './RibbonPicture.tsx'
export * from './Screen.tsx'
export * from './StatusLine.tsx'
export * from './TopBar.tsx'
export { unfoldPane } from './unfolding.ts'
