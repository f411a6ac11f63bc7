/**
 * Property tests draw the same cases in every run, so that a run says something about the change and not about luck.
 * `SEED=<n> npx vitest run …` looks elsewhere; what it finds becomes an example beside the property.
 */
import fc from 'fast-check'

fc.configureGlobal({ seed: Number(process.env.SEED ?? 20260302) })
