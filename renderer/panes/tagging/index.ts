export { TagField, type TagFieldProps } from './TagField.tsx'
