/** Taken by neither Chromium's own keys nor its menus, nor by the usual screen readers. */
export const COMPOSER_KEYS = 'Alt+J'
