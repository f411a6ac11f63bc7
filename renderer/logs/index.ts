export { LogsPanel } from './LogsPanel.tsx'
