export { countTags, type OwnTag } from './offers.ts'
export { TagField, type TagFieldProps } from './TagField.tsx'
