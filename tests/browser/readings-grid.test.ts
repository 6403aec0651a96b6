import { fixture, html, oneEvent } from '@open-wc/testing-helpers';
import { sendKeys } from '@web/test-runner-commands';
import { expect } from 'chai';
import { readOnce, withChanges } from '../../components/readings-grid/grid-cells.ts';
import '../../components/reed/reed-readings.ts';
import type { ReadingsChangeEvent } from '../../components/readings-grid/readings-change-event.ts';
import type { ReedReadings as ReadingsGrid } from '../../components/reed/reed-readings.ts';
import { expectAccessible } from './accessible.ts';

const shape = { fromTipMm: [0.5, 1, 2], across: [-0.4, 0, 0.4] };
const make = () =>
  fixture<ReadingsGrid>(
    html`<bench-reed-readings .fromTip=${shape.fromTipMm} .across=${shape.across}></bench-reed-readings>`,
  );
const cellOf = (grid: ReadingsGrid, cell: string) =>
  grid.shadowRoot!.querySelector<HTMLInputElement>(`input[data-cell="${cell}"]`)!;

describe('readings grid', () => {
  it('has no fault that axe finds', async () => {
    await expectAccessible(await make());
  });

  it('takes a blade of readings with digits and Enter alone', async () => {
    const grid = await make();
    cellOf(grid, 'A 0 0').focus();
    for (const typed of ['6', '.09', '0,1', '12', '13', '14', '20', '21', '22']) {
      await sendKeys({ type: typed });
      await sendKeys({ press: 'Enter' });
    }
    expect(grid.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([
      0.06, 0.09, 0.1, 0.12, 0.13, 0.14, 0.2, 0.21, 0.22,
    ]);
    expect(grid.readings.at(-1)).to.include({ blade: 'A', fromTipMm: 2, across: 0.4 });
    expect(grid.shadowRoot!.activeElement).to.equal(cellOf(grid, 'B 0 0'));
  });

  it('says why it does not take a number that may be two things, and keeps what was there', async () => {
    const grid = await make();
    cellOf(grid, 'A 0 0').focus();
    await sendKeys({ type: '467' });
    await sendKeys({ press: 'Enter' });
    expect(grid.readings).to.deep.equal([]);
    expect(grid.shadowRoot!.querySelector('[role=status]')!.textContent).to.contain('0.467 mm');
    expect(cellOf(grid, 'A 0 0').getAttribute('aria-invalid')).to.equal('true');
  });

  it('pastes a block from a spreadsheet as one step, or nothing of it', async () => {
    const grid = await make();
    const cell = cellOf(grid, 'B 1 0');
    cell.focus();
    const paste = (text: string) => {
      const data = new DataTransfer();
      data.setData('text', text);
      cell.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    };
    const changed = oneEvent(grid, 'bench-readings-change') as unknown as Promise<ReadingsChangeEvent>;
    paste('0,08\t\t0,07\r\n"0,11"\t0,13\t0,09\r\n');
    expect((await changed).changes).to.have.length(5);
    expect(grid.readings).to.have.length(5);
    paste('1\t2\t3\t4');
    expect(grid.readings).to.have.length(5);
    await grid.updateComplete;
    expect(grid.shadowRoot!.querySelector('[role=status]')!.textContent).to.contain('beyond the grid');
  });

  it('copies a blade as plain cells with the decimal sign of the maker; pasted back it reads the same', async () => {
    const grid = await make();
    grid.decimal = 'comma';
    cellOf(grid, 'A 0 0').focus();
    const paste = (cell: string, text: string) => {
      const data = new DataTransfer();
      data.setData('text', text);
      cellOf(grid, cell).dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    };
    paste('A 0 0', '8,5\t\t7\n11\t13,5\t9\n21\t22\t');
    await grid.updateComplete;
    let copied = '';
    const clipboard = { writeText: (text: string) => Promise.resolve(void (copied = text)) };
    Object.defineProperty(navigator, 'clipboard', { configurable: true, value: clipboard });
    const button = [...grid.shadowRoot!.querySelectorAll<HTMLElement>('.copy')].find((one) =>
      one.textContent?.includes('Copy blade A'),
    )!;
    button.click();
    Reflect.deleteProperty(navigator, 'clipboard');
    expect(copied).to.equal('8,5\t\t7\n11\t13,5\t9\n21\t22\t');
    paste('B 0 0', copied);
    const of = (blade: 'A' | 'B') =>
      grid.readings
        .filter((one) => one.blade === blade)
        .map(({ fromTipMm, across, thicknessMm }) => [fromTipMm, across, thicknessMm]);
    expect(of('B')).to.deep.equal(of('A'));
    expect(of('A')).to.have.length(7);
  });

  it('leaves alone what is being typed when other readings arrive', async () => {
    const grid = await make();
    cellOf(grid, 'A 0 1').focus();
    await sendKeys({ type: '4' });
    grid.readings = withChanges([], [readOnce('A', 0.5, -0.4, 0.1)]);
    await grid.updateComplete;
    await sendKeys({ type: '6' });
    await sendKeys({ press: 'Enter' });
    expect(grid.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.1, 0.46]);
    expect(cellOf(grid, 'A 0 1').value).to.equal('46');
  });

  it('clears a reading, and moves with the arrows', async () => {
    const grid = await make();
    cellOf(grid, 'A 0 1').focus();
    await sendKeys({ type: '10' });
    await sendKeys({ press: 'Enter' });
    await sendKeys({ press: 'ArrowDown' });
    await sendKeys({ press: 'ArrowUp' });
    await sendKeys({ press: 'ArrowLeft' });
    expect(grid.shadowRoot!.activeElement).to.equal(cellOf(grid, 'A 0 1'));
    await sendKeys({ press: 'Delete' });
    await sendKeys({ press: 'Enter' });
    expect(grid.readings).to.deep.equal([]);
  });

  it('reads a station again with + and keeps both, with mean and spread', async () => {
    const grid = await make();
    cellOf(grid, 'A 1 1').focus();
    for (const typed of ['46', '+47']) {
      await sendKeys({ type: typed });
      await sendKeys({ press: 'Enter' });
      await sendKeys({ press: 'ArrowLeft' });
    }
    expect(grid.readings.map(({ thicknessMm, repeat }) => [thicknessMm, repeat])).to.deep.equal([
      [0.46, 0],
      [0.47, 1],
    ]);
    expect(cellOf(grid, 'A 1 1').value).to.equal('46.5');
    expect(cellOf(grid, 'A 1 1').getAttribute('aria-label')).to.equal('A, 1\u00a0mm, middle, mean of 2');
    expect(grid.shadowRoot!.querySelector('[role=status]')!.textContent).to.equal(
      '2 readings of A, 1\u00a0mm, middle: mean 46.5, 1 apart.',
    );
  });

  it('marks a station unsure, weak or without cane, by key and by button, and takes the mark away', async () => {
    const grid = await make();
    const flags = () => grid.readings.map(({ flag, thicknessMm }) => [flag, thicknessMm]);
    const chip = (words: string) =>
      [...grid.shadowRoot!.querySelectorAll<HTMLElement>('.chips button')].find(
        ({ textContent }) => textContent?.trim() === words,
      )!;
    cellOf(grid, 'A 0 0').focus();
    await sendKeys({ type: '10' });
    await sendKeys({ press: '/' });
    expect(flags()).to.deep.equal([['doubtful', 0.1]]);
    await grid.updateComplete;
    expect(cellOf(grid, 'A 0 0').getAttribute('aria-label')).to.contain(', unsure');
    chip('Weak').click();
    expect(flags()).to.deep.equal([['weak', 0.1]]);
    expect(grid.shadowRoot!.activeElement).to.equal(cellOf(grid, 'A 0 0'));
    chip('Weak').click();
    expect(flags()).to.deep.equal([['ok', 0.1]]);
    await sendKeys({ press: '*' });
    expect(flags()).to.deep.equal([['no-cane', undefined]]);
    expect(grid.shadowRoot!.activeElement).to.equal(cellOf(grid, 'A 0 1'));
    await sendKeys({ press: '-' });
    expect(grid.shadowRoot!.activeElement).to.equal(cellOf(grid, 'A 0 0'));
    await sendKeys({ press: '*' });
    expect(flags()).to.deep.equal([]);
  });

  it('moves by Home and End along the row, with Ctrl over the blade', async () => {
    const grid = await make();
    cellOf(grid, 'B 1 1').focus();
    const lands = async (key: string, cell: string) => {
      await sendKeys({ press: key });
      expect(grid.shadowRoot!.activeElement, key).to.equal(cellOf(grid, cell));
    };
    await lands('End', 'B 1 2');
    await lands('Home', 'B 1 0');
    await sendKeys({ down: 'Control' });
    await lands('End', 'B 2 2');
    await lands('Home', 'B 0 0');
    await sendKeys({ up: 'Control' });
  });

  it('asks what a pasted block leaves open, and explains one that it cannot take', async () => {
    const grid = await make();
    const cell = cellOf(grid, 'A 0 0');
    cell.focus();
    const paste = async (text: string) => {
      const data = new DataTransfer();
      data.setData('text', text);
      cell.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
      await grid.updateComplete;
    };
    await paste('43,45\n44,46\n');
    expect(grid.readings).to.deep.equal([]);
    await expectAccessible(grid);
    const answer = [...grid.shadowRoot!.querySelectorAll<HTMLElement>('.chips button')].find(
      ({ textContent }) => textContent === 'Two numbers',
    )!;
    answer.click();
    expect(grid.readings.map(({ thicknessMm }) => thicknessMm)).to.deep.equal([0.43, 0.45, 0.44, 0.46]);
    await grid.updateComplete;
    await paste('43\t44\n45\theart\n');
    expect(grid.shadowRoot!.querySelector('[role=status]')!.textContent).to.match(
      /Nothing was pasted. In line 2, column 2: 'heart'/,
    );
    expect(grid.readings).to.have.length(4);
  });
});
