/**
 * Contrast as WCAG 2.2 defines it: https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio and
 * https://www.w3.org/TR/WCAG22/#dfn-relative-luminance (sRGB, threshold 0.04045 as corrected there in 2021).
 */
export interface Colour {
  /** 0 to 255. */
  readonly red: number
  readonly green: number
  readonly blue: number
  /** 0 to 1. */
  readonly alpha: number
}

/** Reads `#rrggbb` and `rgb(r g b / a%)`. Throws on anything else. */
export function colourOf(text: string): Colour {
  const hex = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(text)
  if (hex !== null) {
    const [red, green, blue] = hex.slice(1).map((pair) => Number.parseInt(pair, 16)) as [
      number,
      number,
      number,
    ]
    return { red, green, blue, alpha: 1 }
  }
  const rgb = /^rgb\((\d+) (\d+) (\d+) \/ (\d+)%\)$/.exec(text)
  if (rgb === null) throw new Error(`not a colour that the check can read: ${text}`)
  const [red, green, blue, percent] = rgb.slice(1).map(Number) as [number, number, number, number]
  return { red, green, blue, alpha: percent / 100 }
}

/** A colour laid over an opaque one. */
export function over(above: Colour, below: Colour): Colour {
  const mix = (a: number, b: number) => a * above.alpha + b * (1 - above.alpha)
  return {
    red: mix(above.red, below.red),
    green: mix(above.green, below.green),
    blue: mix(above.blue, below.blue),
    alpha: 1,
  }
}

export function relativeLuminance({ red, green, blue }: Colour): number {
  const linear = (channel: number) => {
    const share = channel / 255
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
  }
  return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
}

/** 1 to 21. */
export function contrastRatio(one: Colour, other: Colour): number {
  const [darker, lighter] = [relativeLuminance(one), relativeLuminance(other)].sort((a, b) => a - b) as [
    number,
    number,
  ]
  return (lighter + 0.05) / (darker + 0.05)
}
