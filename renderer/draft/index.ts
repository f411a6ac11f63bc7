export { DRAFT_KEYS, lineOfDraft, lineOfDraftFrom, showDraft, useDraftKey } from './open.ts'
