/** What stands on a page around what it says: menus, bars, forms, programs. */
import type { Element } from 'hast'
import {
  attribute,
  headingNames,
  holdsElement,
  outermostElements,
  preNames,
  styleNames,
  textOf,
} from './elements.ts'

/** Never shown as text, whatever they hold. */
const programs = new Set([
  'script',
  'style',
  'noscript',
  'template',
  'iframe',
  'frame',
  'frameset',
  'object',
  'embed',
  'applet',
  'svg',
  'math',
  'canvas',
  'audio',
  'video',
  'link',
  'meta',
  'base',
  'title',
  'head',
  'map',
  'area',
  'datalist',
  'source',
  'track',
  'param',
  'portal',
])
const controls = new Set([
  'input',
  'button',
  'select',
  'option',
  'optgroup',
  'textarea',
  'progress',
  'meter',
  'dialog',
])
const surroundings = new Set(['nav', 'footer', 'menu'])
const roles = new Set([
  'navigation',
  'search',
  'banner',
  'contentinfo',
  'menu',
  'menubar',
  'toolbar',
  'alert',
  'dialog',
])
const styledAsSurroundings =
  /^(?:(?:page|site)?[-_]?footer|(?:site|page|doc|main|top|global|side|prev-?next|bottom)?[-_]?nav(?:bar|igation|header|footer|links)?|breadcrumbs?|skip-?(?:link|nav|to-content)|cookie-?(?:banner|notice|consent)|share-?(?:buttons|links)|social-?(?:links|share)|edit-?(?:link|page)|mw-editsection|print-?only)$/u
const styledAsSidebar = /^(?:site|page|left|right|side)?[-_]?sidebar$/u
/** Links to where a thing is defined, as documentation generators set them beside each name. */
const styledAsSourceLink = new Set(['src', 'srclink', 'viewcode-link', 'viewcode-back'])
const lineNumbers = /^(?:linenos?|linenodiv|gutter|rouge-gutter|line-?numbers(?:-rows)?)$/u

/** Elements that are left out of a page as well as of a pasted fragment. */
export function isNeverShown(element: Element): boolean {
  if (programs.has(element.tagName) || controls.has(element.tagName)) return true
  return isHidden(element) || isLineNumbers(element) || isHeadingAnchor(element)
}

/** Elements of a page that are not part of what it says. */
export function isFurniture(element: Element): boolean {
  if (headingNames.has(element.tagName) || holdsElement(element, preNames)) return false
  if (surroundings.has(element.tagName)) return true
  if (element.tagName === 'header') return !holdsElement(element, headingNames)
  if (element.tagName === 'form') return isMostlyControls(element)
  if (element.tagName === 'aside')
    return shareOfLinks(element) > 0.5 || styleNames(element).some((n) => /sidebar|toc/u.test(n))
  if (roles.has(attribute(element, 'role')?.toLowerCase() ?? '')) return true
  return isStyledAsSurroundings(element)
}

/**
 * Names can mislead: a box beside the text is called a sidebar too, and a section gets its id from its own heading. What is
 * mostly words and not links stays.
 */
function isStyledAsSurroundings(element: Element): boolean {
  const names = styleNames(element)
  if (element.tagName === 'a') return names.some((name) => styledAsSourceLink.has(name))
  if (names.some((name) => styledAsSidebar.test(name))) return shareOfLinks(element) > 0.5
  if (!names.some((name) => styledAsSurroundings.test(name))) return false
  return !holdsElement(element, headingNames) || shareOfLinks(element) > 0.5
}

/** Part of a page's head beside its headings: a list of ways to other pages, or of the page's own parts. */
export function isMenuOfHeader(element: Element): boolean {
  return (
    !holdsElement(element, headingNames) && !holdsElement(element, preNames) && shareOfLinks(element) > 0.5
  )
}

/** A list of the page's own parts, under a heading: it leads nowhere else, so it belongs to what the page says. */
export function isOwnOutline(element: Element): boolean {
  if (!holdsElement(element, headingNames)) return false
  const links = outermostElements(
    element,
    (node) => node.tagName === 'a' && node.properties['href'] !== undefined,
  )
  return links.length > 0 && links.every((link) => attribute(link, 'href')?.startsWith('#'))
}

function isHidden(element: Element): boolean {
  if (attribute(element, 'hidden') !== undefined) return true
  if (/(?:^|;)\s*(?:display\s*:\s*none|visibility\s*:\s*hidden)/iu.test(attribute(element, 'style') ?? ''))
    return true
  return attribute(element, 'ariaHidden') === 'true' && !holdsElement(element, preNames)
}

function isLineNumbers(element: Element): boolean {
  return styleNames(element).some((name) => lineNumbers.test(name)) && /^[\d\s]*$/u.test(textOf(element))
}

/** The little sign behind a heading that links to the heading itself. */
function isHeadingAnchor(element: Element): boolean {
  if (element.tagName !== 'a' || !attribute(element, 'href')?.includes('#')) return false
  // Fonts of little pictures use code points of the private use area.
  return /^[\s¶#§🔗\p{Co}]*$/u.test(textOf(element)) && !holdsElement(element, new Set(['img']))
}

/** Some servers wrap the whole page in one form; such a form holds headings or much more text than a label has. */
function isMostlyControls(form: Element): boolean {
  return !holdsElement(form, headingNames) && textOf(form).trim().length < 500
}

/** Length of the words that link somewhere, as a share of all. 0 for an element without words. */
export function shareOfLinks(element: Element): number {
  const all = lengthOf(element, false)
  return all === 0 ? 0 : lengthOf(element, true) / all
}

function lengthOf(element: Element, onlyLinks: boolean, isInLink = false): number {
  const inLink = isInLink || element.tagName === 'a'
  return element.children.reduce((sum, child) => {
    if (child.type === 'element') return sum + lengthOf(child, onlyLinks, inLink)
    return child.type === 'text' && (inLink || !onlyLinks)
      ? sum + child.value.replace(/\s+/gu, '').length
      : sum
  }, 0)
}
