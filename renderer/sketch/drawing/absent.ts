/**
 * Stands in for layout libraries that are never asked (see build/page.config.mjs): diagrams may not choose another layout,
 * mind maps have our own, and kinds that need these are not drawn.
 */
export default function absent(): never {
  throw new Error('this layout is not part of the program')
}
