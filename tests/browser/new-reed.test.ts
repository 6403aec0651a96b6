import { expect } from 'chai';
import '../../components/case/new-reed.ts';
import { deepText } from './deep-text.ts';
import { emptyLibrary } from './library.ts';
import { until } from './until.ts';

it('asks about a typed label with more than can be seen, and keeps it once that is out', async () => {
  const { store, host } = await emptyLibrary();
  const el = document.createElement('bench-new-reed');
  host.append(el);
  await el.updateComplete;
  el.show();
  const field = el.shadowRoot!.querySelector<HTMLInputElement>('input[name=label]')!;
  const keep = () => el.shadowRoot!.querySelector('form')!.requestSubmit();
  field.value = 'K-\u200b1';
  keep();
  await until(() => deepText(el).includes('a space without width'));
  expect(field.value).to.equal('K-1');
  expect(store.reeds).to.deep.equal([]);
  keep();
  await until(() => store.reeds.length === 1);
  expect(store.reeds[0]!.label).to.equal('K-1');
  location.hash = '';
});
