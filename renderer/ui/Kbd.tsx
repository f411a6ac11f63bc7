/** Keys as they stand on a keyboard, for instance 'Ctrl+Enter'. */
export function Kbd({ keys }: { readonly keys: string }) {
  return (
    <kbd className="st-kbd">
      {keys.split('+').map((key, place) => (
        <span key={place}>
          {place === 0 ? null : <span className="st-kbd-plus">+</span>}
          {key}
        </span>
      ))}
    </kbd>
  )
}
