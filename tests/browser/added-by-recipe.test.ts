import { expect } from 'chai';
import { fixture, html } from '@open-wc/testing-helpers';
import { PASS_FILES } from '../../components/bench/pass-files.ts';
import '../../components/bench/reed-files.ts';
import '../../components/bench/sheet.ts';
import '../../components/bench/there-now.ts';
import { ZONE_COLUMNS } from '../../src/answers/record/tables.ts';
import { figuresById, reportReed } from '../../src/report/reed-report.ts';
import { reportText } from '../../src/report/report-text.ts';
import type { DeskFit } from '../../components/bench/desk-fit.ts';
import { deepText } from './deep-text.ts';
import { inventedBench } from './invented-bench.ts';
import { until } from './until.ts';
import { expectAccessible } from './accessible.ts';

const writing = { unit: 'hundredths', decimal: 'point' } as const;

// The recipes for contributors: one function and one row.
describe('a figure that is added to a zone', () => {
  let fit: DeskFit;
  before(async () => {
    ZONE_COLUMNS.push({
      key: 'half',
      head: 'Half of it',
      quantity: 'thickness',
      figure: ({ mean }) => (mean ? { valueMm: mean.valueMm / 2, uMm: mean.uMm / 2 } : 'not read'),
    });
    fit = await (await inventedBench()).fit('K-117');
  });
  after(() => ZONE_COLUMNS.pop());

  const cells = (root: Element) =>
    [...root.shadowRoot!.querySelectorAll('bench-reed-zones')].flatMap((zones) => [
      ...zones
        .shadowRoot!.querySelector('bench-figures-table')!
        .shadowRoot!.querySelectorAll<HTMLTableCellElement>(
          'td[data-figure="K-117, pass 0: zone.heart.half"]',
        ),
    ]);
  const shown = (root: Element) => cells(root).map((cell) => cell.textContent.replace(/\s+/g, ' ').trim());

  it('stands under There now, on the sheet and in the report, with one value', async () => {
    const { benched } = fit;
    const there = await fixture(
      html`<bench-there-now .benched=${benched} .pass=${0} .writing=${writing}></bench-there-now>`,
    );
    const sheet = await fixture(
      html`<bench-sheet .benched=${benched} .pass=${0} .writing=${writing}></bench-sheet>`,
    );
    await expectAccessible(there);
    const report = reportReed({ reed: benched.reed, passes: [...benched.passes] });
    const { value, u } = figuresById(report.passes[0]!)['zone.heart.half']!;
    const text = `${(value! * 100).toFixed(1)} ±${(196 * u!).toFixed(1)}`;
    expect(shown(there)).to.deep.equal([text]);
    expect(shown(sheet)).to.deep.equal([text]);
    expect(reportText([report])).to.match(/Half of it/);
    expect(deepText(there)).to.include('Half of it');
  });
});

describe('a format of files that is added', () => {
  const usual = PASS_FILES.length;
  after(() => PASS_FILES.splice(usual));

  it('has its button, and writes the fitted pass as the maker wants numbers', async () => {
    const { store, host, idOf } = await inventedBench();
    const reed = store.reed(idOf('K-117'))!;
    const [pass] = await store.loadPasses(reed.id);
    let content = '';
    PASS_FILES.push({
      ...{ words: 'Centre as text', extension: 'txt', type: 'text/plain' },
      write: async ({ benched, pass: at }, { decimal }) =>
        (content = `${benched.reed.label} ${benched.model!.passes.length} ${at} ${decimal}`),
    });
    const files = document.createElement('bench-reed-files');
    files.reed = reed;
    files.pass = pass;
    host.append(files);
    await until(() => files.shadowRoot!.querySelector('button'));
    await expectAccessible(files);
    const buttons = [...files.shadowRoot!.querySelectorAll('button')];
    const words = buttons.map((one) => one.textContent);
    expect(words.slice(-2)).to.deep.equal(['Readings as CSV', 'Centre as text']);
    expect(words).to.include.members(['Bodies as glTF', 'Bodies as STL', 'Blade A as x3p', 'Blade B as x3p']);
    let name = '';
    const { click } = HTMLAnchorElement.prototype;
    HTMLAnchorElement.prototype.click = function () {
      name = this.download;
    };
    buttons.at(-1)!.click();
    await until(() => name);
    HTMLAnchorElement.prototype.click = click;
    expect(name).to.equal('blades-pass-0.txt');
    expect(content).to.equal(`K-117 ${store.passesOf(reed.id).length} 0 point`);
    host.remove();
  });
});
