import { expect } from 'chai';
import '../../components/notes/notes.ts';
import '../../components/cane/cane-screen.ts';
import '../../components/case/case-screen.ts';
import '../../components/gauge/gauge-page.ts';
import '../../components/lesson/lesson-screen.ts';
import '../../components/rotation/rotation-screen.ts';
import '../../components/round/round-start.ts';
import { deepText } from './deep-text.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

/** What each place has to warn of. */
const PLACES = {
  'bench-case': [/knife/, /dust/],
  'bench-cane': [/knife/, /dust/, /gouger/],
  'bench-gauge-page': [/ball dents a thin wet tip/],
  'bench-round-start': [/ball dents a thin wet tip/],
  'bench-lesson': [/from mouth to mouth/, /knife/],
  'bench-rotation': [/Rinse a reed/, /mouldy/],
  'bench-trial-form': [/Rinse a reed/, /from mouth to mouth/],
  'bench-tied-form': [/knife/, /ends of the wire/, /Varnish and ink/],
  'bench-reed-form': [/mouldy/],
} as const;

describe('cautions', () => {
  for (const [place, words] of Object.entries(PLACES)) {
    it(`stand in ${place}, and defer to local rules and licensed practice`, async () => {
      const { store, host } = await emptyLibrary();
      const reed = { kind: 'reed' as const, label: 'T-1', styleId: 'long-scrape', state: 'playing' as const };
      await store.keep([{ ...reed, tags: [] }], 'invented');
      const el = document.createElement(place);
      Object.assign(el, { reed: store.reeds[0] });
      host.append(el);
      await until(() => el.shadowRoot && words.every((word) => word.test(deepText(el.shadowRoot!))));
      expect(deepText(el.shadowRoot!)).to.match(/Local rules and licensed practitioners come first/);
    });
  }
});
