/** The left pane. */
import './sources.css'

export { useSourcesPane } from './useSourcesPane.tsx'
