/** Coverage as a picture: a bar with a legend, told apart by pattern and words as much as by colour. */
import { barOf, wordsOfCounts, type CoverageCounts } from '../../shared/procedure/coverage/summary.ts'
import { stretchWords } from './words.ts'

const order = ['covered', 'leftOut', 'uncertain', 'missing'] as const

export function CoverageBar({ counts }: { readonly counts: CoverageCounts }) {
  const stretches = barOf(counts)
  return (
    <figure className="st-coverage-picture">
      {stretches.length === 0 ? null : (
        <>
          <div className="st-coverage-bar" role="img" aria-label={wordsOfCounts(counts)}>
            {stretches.map(({ is, share }) => (
              <span
                key={is}
                className={`st-coverage-stretch st-coverage-stretch--${is}`}
                style={{ flexGrow: share }}
              />
            ))}
          </div>
          <ul className="st-coverage-legend" aria-hidden="true">
            {order.map((is) => (
              <li key={is}>
                <span className={`st-coverage-swatch st-coverage-stretch--${is}`} />
                {stretchWords[is]} <span className="st-coverage-count">{counts[is]}</span>
              </li>
            ))}
          </ul>
        </>
      )}
      <figcaption className="st-coverage-words">{wordsOfCounts(counts)}</figcaption>
    </figure>
  )
}
