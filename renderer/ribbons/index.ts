/** Ribbons between the panes: from a piece of text to where it came from, and to what came of it. */
import './ribbons.css'

export { Ribbons } from './Ribbons.tsx'
export { RibbonsBeside, RibbonsButton } from './RibbonsBeside.tsx'
