export { PrintButtons } from './PrintButtons.tsx'
export { PrintLayer } from './PrintLayer.tsx'
export type { ToPrint } from './print.ts'
