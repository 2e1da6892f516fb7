/** Where a long compound may be broken: browsers on phones know no German, and a tile is narrower than "Trockenbohnen". */
const JOINTS = /(Trocken|Winter|Riesen|Knollen|Stauden|Wurzel|Gemüse|Süß|Tief|Einge)(?=[a-zäöüß]{4})/g;

/** The word with soft hyphens at its joints; others as they are. */
export const breakable = (word: string): string => word.replace(JOINTS, '$1\u00ad');
