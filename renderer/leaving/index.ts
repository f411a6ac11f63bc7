export { LeavingDialog } from './LeavingDialog.tsx'
export { mayLeave } from './leaving.ts'
