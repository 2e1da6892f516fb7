/** Die Wörter des Blatts, das sagt, woher eine Zahl oder eine Regel ist. */
import type { SourceWords } from './sources.en';

export const sources_de = {
  title: 'Woher das ist',
  evidence: {
    seen: 'Auf der genannten Seite gelesen.',
    derived: 'Aus Gelesenem errechnet.',
    'common practice': 'Übliche Praxis, keine Quelle.',
    memory: 'Aus dem Gedächtnis.',
  },
  none: 'In den Tabellen steht keine Quelle.',
  defer: 'Das Wort der Behörde am Ort geht dem vor.',
  looking: 'Wird nachgesehen',
} satisfies SourceWords;
