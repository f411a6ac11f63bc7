export { HelpPanel } from './HelpPanel.tsx'
