import { questionStyles } from './pocket-questions.styles.ts';
import { pocketStyles } from './pocket-round.styles.ts';
import { fittingStyles } from './round-fitting.styles.ts';
import { outlineStyles } from './round-outline.styles.ts';
import { styles } from './round-screen.styles.ts';

/** Everything that a round looks like, at the desk and in the hand; later ones win. */
export const roundStyles = [styles, fittingStyles, outlineStyles, pocketStyles, questionStyles];
