export { FindBox, FindButton } from './FindBox.tsx'
export { FIND_KEYS, openFind } from './open.ts'
