import './journal.css'

export { useJournalPane } from './useJournalPane.tsx'
