/** What is printed, beside the screen: seen on paper alone, and there only while something is printed. */
import type { ReactNode } from 'react'
import { createPortal } from 'react-dom'
import { usePrinting } from './job.ts'
import { PrintedProcedure } from './PrintedProcedure.tsx'
import './print.css'

export function PrintLayer(): ReactNode {
  const job = usePrinting((state) => state.job)
  if (!job) return null
  return createPortal(
    <div className="st-print" aria-hidden inert>
      <PrintedProcedure job={job} />
    </div>,
    document.body,
  )
}
