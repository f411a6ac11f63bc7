/** Special characters by their names, as groff_char(7) and mandoc_char(7) list them: name and sign in turn. */
const table = `
  dq " sh # Do $ aq ' pl + sl / eq = at @ lB [ rs \\ rB ] a^ ^ ha ^ ru _ ul _ ga \` ff ff Fi ffi Fl ffl
  fi fi fl fl lC { ba | or | rC } a~ ~ ti ~ r! ¡ ct ¢ Po £ Cs ¤ Ye ¥ bb ¦ sc § ad ¨ co © Of ª Fo « no
  ¬ tno ¬ rg ® a- ¯ de ° +- ± t+- ± S2 ² S3 ³ aa ´ mc µ ps ¶ pc · ac ¸ S1 ¹ Om º Fc » 14 ¼ 12 ½ 34 ¾
  r? ¿ \`A À 'A Á ^A Â ~A Ã :A Ä oA Å AE Æ ,C Ç \`E È 'E É ^E Ê :E Ë \`I Ì 'I Í ^I Î :I Ï -D Ð ~N Ñ \`O Ò
  'O Ó ^O Ô ~O Õ :O Ö mu × tmu × /O Ø \`U Ù 'U Ú ^U Û :U Ü 'Y Ý TP Þ ss ß \`a à 'a á ^a â ~a ã :a ä oa å
  ae æ ,c ç \`e è 'e é ^e ê :e ë \`i ì 'i í ^i î :i ï Sd ð ~n ñ \`o ò 'o ó ^o ô ~o õ :o ö di ÷ tdi ÷ /o ø
  \`u ù 'u ú ^u û :u ü 'y ý Tp þ :y ÿ 'C Ć 'c ć .i ı IJ Ĳ ij ĳ /L Ł /l ł OE Œ oe œ vS Š vs š :Y Ÿ vZ Ž
  vz ž Fn ƒ .j ȷ ah ˇ ab ˘ a. ˙ ao ˚ ho ˛ *A Α *B Β *G Γ *D Δ *E Ε *Z Ζ *Y Η *H Θ *I Ι *K Κ *L Λ *M Μ
  *N Ν *C Ξ *O Ο *P Π *R Ρ *S Σ *T Τ *U Υ *F Φ *X Χ *Q Ψ *W Ω *a α *b β *g γ *d δ *e ε *z ζ *y η *h θ
  *i ι *k κ *l λ *m μ *n ν *c ξ *o ο *p π *r ρ ts ς *s σ *t τ *u υ +f φ *x χ *q ψ *w ω +h ϑ *f ϕ +p ϖ
  +e ϵ hy ‐ en – em — oq ‘ cq ’ bq ‚ lq “ rq ” Bq „ dg † dd ‡ bu • fm ′ sd ″ fo ‹ fc › rn ‾ f/ ⁄ Eu €
  eu € -h ℏ hbar ℏ Im ℑ wp ℘ Re ℜ tm ™ Ah ℵ 18 ⅛ 38 ⅜ 58 ⅝ 78 ⅞ <- ← ua ↑ -> → da ↓ <> ↔ va ↕ CR ↵ lA
  ⇐ uA ⇑ rA ⇒ dA ⇓ hA ⇔ vA ⇕ fa ∀ pd ∂ te ∃ es ∅ gr ∇ mo ∈ nm ∉ st ∋ product ∏ coproduct ∐ sum ∑ mi −
  -+ ∓ ** ∗ sqrt √ sr √ pt ∝ if ∞ /_ ∠ AN ∧ OR ∨ ca ∩ cu ∪ integral ∫ is ∫ 3d ∴ tf ∴ ap ∼ |= ≃ =~ ≅ ~=
  ≈ ~~ ≈ != ≠ == ≡ ne ≢ <= ≤ >= ≥ << ≪ >> ≫ sb ⊂ sp ⊃ nb ⊄ nc ⊅ ib ⊆ ip ⊇ c+ ⊕ c* ⊗ pp ⊥ md ⋅ lc ⌈ rc
  ⌉ lf ⌊ rf ⌋ lt ⎧ lk ⎨ lb ⎩ braceex ⎪ bv ⎪ rt ⎫ rk ⎬ rb ⎭ an ⎯ br │ sq □ lz ◊ ci ○ lh ☜ rh ☞ SP ♠ CL
  ♣ HE ♥ DI ♦ OK ✓ la ⟨ ra ⟩
`

const words = table.trim().split(/\s+/u)
const glyphs = new Map<string, string>()
for (let i = 0; i + 1 < words.length; i += 2) glyphs.set(words[i]!, words[i + 1]!)

/** Accents by their names, as they follow a letter (`\\[e aa]`). */
const accents = new Map([
  ['aa', '\u0301'],
  ['ga', '\u0300'],
  ['a^', '\u0302'],
  ['a~', '\u0303'],
  ['ad', '\u0308'],
  ['ac', '\u0327'],
  ['ao', '\u030a'],
  ['ah', '\u030c'],
  ['ab', '\u0306'],
  ['a-', '\u0304'],
  ['ho', '\u0328'],
])

/** The sign that a name stands for: a name of the table, `u2014`, `u0065_0301`, `char233`, or a letter with accents. */
export function maybeGlyph(name: string): string | undefined {
  const known = glyphs.get(name)
  if (known !== undefined) return known
  if (/^u[0-9A-F]{4,6}(?:_[0-9A-F]{4,6})*$/u.test(name))
    return fromPoints(
      name
        .slice(1)
        .split('_')
        .map((hex) => Number.parseInt(hex, 16)),
    )
  if (/^char\d{1,3}$/u.test(name)) return fromPoints([Number(name.slice(4))])
  const [base, ...marks] = name.split(' ')
  if (marks.length === 0 || base === undefined) return undefined
  const signs = marks.map((mark) => accents.get(mark))
  const letter = base.length === 1 ? base : maybeGlyph(base)
  return letter === undefined || signs.includes(undefined)
    ? undefined
    : (letter + signs.join('')).normalize('NFC')
}

function fromPoints(points: readonly number[]): string | undefined {
  const isSound = points.every(
    (point) => point >= 0x20 && point <= 0x10ffff && (point < 0xd800 || point > 0xdfff),
  )
  return isSound ? String.fromCodePoint(...points).normalize('NFC') : undefined
}
