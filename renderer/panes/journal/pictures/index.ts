export { KeptPicture } from './KeptPicture.tsx'
export { PhotosPanel } from './PhotosPanel.tsx'
