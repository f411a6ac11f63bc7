export { KeptPicture } from './KeptPicture.tsx'
