/**
 * A still in three strokes, one for each pane: the pot with the raw matter, the head and its arm, the vessel
 * for what runs off.
 */
export function StillMark({ size = '1.9rem' }: { readonly size?: string }) {
  return (
    <svg
      className="st-still"
      viewBox="0 0 44 32"
      style={{ height: size }}
      aria-hidden="true"
      focusable="false"
    >
      <path
        className="st-still-pot"
        d="M9.2 13.5 C5 15.2 2.5 18.4 2.5 22 C2.5 26.6 6.6 29.5 12 29.5 C17.4 29.5 21.5 26.6 21.5 22 C21.5 18.4 19 15.2 14.8 13.5"
      />
      <path className="st-still-fill" d="M3.6 22.5 C3.9 26 7.4 28.3 12 28.3 C16.6 28.3 20.1 26 20.4 22.5 Z" />
      <path
        className="st-still-head"
        d="M9.2 13.5 L8.4 9.5 C7.4 5.4 9.4 2.5 12.6 2.5 C15.6 2.5 17 4.4 19.6 6.2 L35.5 17.2"
      />
      <path className="st-still-head" d="M14.8 13.5 L15.4 10.4 C15.7 9 16.7 8.8 17.8 9.5 L33 20" />
      <path
        className="st-still-vessel"
        d="M29.5 23 L29.5 26.5 C29.5 28.4 30.8 29.5 32.6 29.5 L38.4 29.5 C40.2 29.5 41.5 28.4 41.5 26.5 L41.5 23"
      />
    </svg>
  )
}

/** The program's name with its mark. */
export function NameMark() {
  return (
    <span className="st-name">
      <StillMark />
      <span className="st-name-word">Stillroom</span>
    </span>
  )
}
