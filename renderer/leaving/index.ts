export { LeavingDialog } from './LeavingDialog.tsx'
export { letFileOut, letPrintOut } from './letOut.ts'
export { useWriting, WriteRow } from './Writing.tsx'
