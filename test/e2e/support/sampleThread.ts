/** Words of the sample that the specs carry: each stands once where it is looked for. */
export const thread = {
  project: 'Weather logger on a disk',
  source: 'How the logger writes',
  sourceWords: 'or the last line may be torn',
  actionWords: 'systemctl stop weather-logger',
  outputWords: 'Active: inactive (dead)',
} as const
