/** Words of the sheet that says where a figure or a rule is from. */
export const sources_en = {
  title: 'Where this is from',
  evidence: {
    seen: 'Read in the page named.',
    derived: 'Worked out from what was read.',
    'common practice': 'Common practice, no source.',
    memory: 'From memory.',
  },
  none: 'No source stands in the tables.',
  defer: 'The local authority’s word comes before this.',
  looking: 'Looking it up',
};

export type SourceWords = typeof sources_en;
