/** How light a colour is, to choose the ink that is read on it (WCAG 2.2, relative luminance). */

const named: Readonly<Record<string, string>> = {
  aqua: '#00ffff',
  black: '#000000',
  blue: '#0000ff',
  brown: '#a52a2a',
  coral: '#ff7f50',
  crimson: '#dc143c',
  cyan: '#00ffff',
  fuchsia: '#ff00ff',
  gold: '#ffd700',
  gray: '#808080',
  green: '#008000',
  grey: '#808080',
  indigo: '#4b0082',
  ivory: '#fffff0',
  khaki: '#f0e68c',
  lavender: '#e6e6fa',
  lightblue: '#add8e6',
  lightgray: '#d3d3d3',
  lightgreen: '#90ee90',
  lightgrey: '#d3d3d3',
  lightyellow: '#ffffe0',
  lime: '#00ff00',
  magenta: '#ff00ff',
  maroon: '#800000',
  navy: '#000080',
  olive: '#808000',
  orange: '#ffa500',
  pink: '#ffc0cb',
  purple: '#800080',
  red: '#ff0000',
  salmon: '#fa8072',
  silver: '#c0c0c0',
  tan: '#d2b48c',
  teal: '#008080',
  tomato: '#ff6347',
  violet: '#ee82ee',
  wheat: '#f5deb3',
  white: '#ffffff',
  yellow: '#ffff00',
}

/** 0 for black to 1 for white; undefined for a colour that is not understood. */
export function maybeLuminance(colour: string): number | undefined {
  const parts = maybeParts(colour.trim().toLowerCase())
  if (!parts) return undefined
  const [red, green, blue] = parts.map((part) => {
    const share = Math.min(255, Math.max(0, part)) / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!
}

function maybeParts(colour: string): number[] | undefined {
  const hex = /^#([0-9a-f]{3,8})$/u.exec(named[colour] ?? colour)?.[1]
  if (hex !== undefined) {
    const whole = hex.length < 6 ? [...hex].map((digit) => digit + digit).join('') : hex
    return [0, 2, 4].map((at) => parseInt(whole.slice(at, at + 2), 16))
  }
  const rgb = /^rgba?\(\s*([\d.]+)[\s,]+([\d.]+)[\s,]+([\d.]+)/u.exec(colour)
  return rgb ? rgb.slice(1, 4).map(Number) : undefined
}

const DARK_INK = '#1c1a17'
const LIGHT_INK = '#ffffff'

/** The ink that stands out more from a fill. */
export function inkOn(luminance: number): string {
  return (luminance + 0.05) ** 2 > 0.05 * 1.05 ? DARK_INK : LIGHT_INK
}
