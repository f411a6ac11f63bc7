export { LeavingDialog } from './LeavingDialog.tsx'
export { mayLeave } from './leaving.ts'
export { useWriting, WriteRow } from './Writing.tsx'
