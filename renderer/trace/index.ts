/** Tracing: from anything, what it came from and what came of it. */
import './trace.css'

export { SetAgain } from './SetAgain.tsx'
export { TracePanel } from './TracePanel.tsx'
