export { passRewriting } from './passRewriting.tsx'
export { RewriteStore } from './RewriteStore.tsx'
