export { SealPanel } from './SealPanel.tsx'
