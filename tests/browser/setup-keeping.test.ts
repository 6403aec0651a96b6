import { ContextProvider } from '@lit/context';
import { fixture, html } from '@open-wc/testing-helpers';
import { expect } from 'chai';
import '../../components/keeping/keeping-notices.ts';
import '../../components/setup/setup-screen.ts';
import { libraryContext } from '../../components/store/library-controller.ts';
import { LibraryStore } from '../../components/store/library-store.ts';
import type { StorageManagerLike } from '../../src/ledger/health.ts';
import { openLedger } from '../../src/ledger/ledger.ts';
import type { Ledger } from '../../src/ledger/ledger-face.ts';
import type { Draft } from '../../src/ledger/drafts.ts';
import { expectAccessible } from './accessible.ts';

/** Invented. */
const reed = (label: string, note = ''): Draft => ({
  kind: 'reed',
  label,
  styleId: 'long',
  state: 'scraping',
  tags: [],
  note,
});

const pass = (reedId: string, index: number, readings: number): Draft => ({
  kind: 'pass',
  reedId,
  index,
  remedies: [],
  readings: Array.from({ length: readings }, (_, at) => ({
    blade: 'A',
    fromTipMm: 2 + at / 20,
    across: 0,
    thicknessMm: 0.4,
    repeat: 0,
    flag: 'ok',
    role: 'station',
  })),
});

let count = 0;
/** Of the libraries that were opened, the last one last. */
const names: string[] = [];

/** Setup over a library of its own, in a browser that keeps storage in this way. */
async function setup(storage: Partial<StorageManagerLike> = {}, clock = () => new Date()) {
  const unasked: StorageManagerLike = {
    persisted: async () => false,
    persist: async () => false,
    estimate: async () => ({ usage: 3.2e6, quota: 10.7e9 }),
  };
  names.push(`${Date.now()} ${count++}`);
  const name = `setup ${names.at(-1)}`;
  return shown(await openLedger({ name, storage: { ...unasked, ...storage }, clock }));
}

/** A page over a library. */
async function shown(ledger: Ledger) {
  const store = await LibraryStore.over(ledger);
  const host = await fixture<HTMLElement>(html`<div></div>`);
  new ContextProvider(host, { context: libraryContext, initialValue: store });
  const screen = document.createElement('bench-setup');
  const notices = document.createElement('bench-keeping-notices');
  notices.store = store;
  host.append(notices, screen);
  return { store, screen, notices, host };
}

/** All text under an element, shadows included. */
function textIn(root: Element | ShadowRoot): string {
  const own = root instanceof Element && root.shadowRoot ? textIn(root.shadowRoot) : '';
  const inner = [...root.childNodes].map((node) =>
    node instanceof Element ? textIn(node) : node.nodeType === Node.TEXT_NODE ? node.textContent : '',
  );
  return [own, ...inner].join(' ').replace(/\s+/g, ' ');
}

function buttonsIn(root: Element | ShadowRoot): HTMLButtonElement[] {
  const own = root instanceof Element && root.shadowRoot ? buttonsIn(root.shadowRoot) : [];
  const inner = [...root.children].flatMap((child) =>
    child instanceof HTMLButtonElement ? [child] : buttonsIn(child),
  );
  return [...own, ...inner];
}

const nameOf = (button: HTMLButtonElement) => button.textContent!.replace(/\s+/g, ' ').trim();

/** Presses the button of this name as soon as it is there. */
async function press(root: Element, name: string): Promise<void> {
  const find = () => buttonsIn(root).find((button) => nameOf(button) === name);
  await until(() => find() !== undefined);
  find()!.click();
}

async function until(holds: () => boolean | Promise<boolean>) {
  while (!(await holds())) await new Promise((resolve) => setTimeout(resolve, 10));
}

describe('Setup: how the library is kept', () => {
  it('is accessible with something in every part of it', async () => {
    const { store, screen } = await setup();
    await store.ledger.keep([reed('K-1', 'here')], 'reed');
    const [one] = (await store.ledger.readWhole()).documents;
    const other = { ...one!, note: 'there', versions: { [store.ledger.newId()]: 1 } };
    const record = { kind: 'reed', id: store.ledger.newId(), formatVersion: 99 };
    const setAside = [{ of: 'documents' as const, id: record.id, reason: 'newer', record }];
    await store.ledger.merge({ documents: [other as typeof one & object], acts: [], setAside });
    await store.keep([reed('K-2')], 'reed');
    await store.remove([store.reeds.find(({ label }) => label === 'K-2')!.id], 'bin');
    await until(() => textIn(screen).includes('made by a newer version'));
    await expectAccessible(screen);
    for (const words of ['Two sides', 'Set aside', 'The bin', '3.2 MB used of the 11 GB'])
      expect(textIn(screen).replace(/\u00a0/g, ' ')).to.contain(words);
  });

  it('checks everything when it is asked to, and reports what is not sound', async () => {
    const { store, screen } = await setup();
    await store.keep([reed('K-1'), reed('K-2')], 'reeds');
    await press(screen, 'Check everything');
    await until(() => textIn(screen).includes('2 records were looked at, and all are sound'));
    const raw = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open(`setup ${names.at(-1)}`);
      request.onsuccess = () => resolve(request.result);
    });
    const documents = raw.transaction('documents', 'readwrite').objectStore('documents');
    const [row] = await new Promise<{ sides: object[] }[]>((resolve) => {
      const request = documents.getAll();
      request.onsuccess = () => resolve(request.result as { sides: object[] }[]);
    });
    documents.put({ ...row, sides: [{ ...row!.sides[0], label: '' }] });
    await press(screen, 'Check everything');
    await until(() => textIn(screen).includes('2 records were looked at. 1 cannot be read: see Set aside.'));
    await until(() => textIn(screen).includes('These records cannot be read'));
    raw.close();
  });

  it('says so when the browser does not promise to keep the library', async () => {
    const { screen } = await setup({ persist: async () => false });
    await until(() => textIn(screen).includes('may clear the library away'));
    await press(screen, 'Ask the browser to keep it');
    await until(() => textIn(screen).includes('It was asked, and did not promise'));
  });

  it('says so when it promises', async () => {
    let persisted = false;
    const { screen } = await setup({
      persist: async () => (persisted = true),
      persisted: async () => persisted,
    });
    await press(screen, 'Ask the browser to keep it');
    await until(() => textIn(screen).includes('has promised not to clear'));
  });

  it('warns over every place when there is little room', async () => {
    const { screen, notices } = await setup({ estimate: async () => ({ usage: 95e6, quota: 100e6 }) });
    await until(() => textIn(notices).includes('nearly used up'));
    await until(() => textIn(screen).includes('That is nearly all'));
    await expectAccessible(notices);
  });

  it('lets the maker choose between two sides, and keeps what was chosen', async () => {
    const { store, screen } = await setup();
    await store.keep([reed('K-1', 'here')], 'reed');
    const [one] = (await store.ledger.readWhole()).documents;
    const there = { ...one!, note: 'there', versions: { [store.ledger.newId()]: 1 } } as typeof one & object;
    await store.ledger.merge({ documents: [there], acts: [] });
    await store.refresh();
    await until(() => textIn(screen).includes('Two sides'));
    const at = store.snapshot.disagreements[0]!.findIndex((side) => 'note' in side && side.note === 'there');
    await press(screen, `Keep this side, ${at + 1}, of K-1`);
    await until(() => store.snapshot.disagreements.length === 0);
    expect(store.reeds[0]!.note).to.equal('there');
    await until(() => !textIn(screen).includes('Two sides'));
  });

  it('sets the other side aside, lets it be looked at, and takes it instead', async () => {
    const { store, screen } = await setup();
    await store.keep([reed('K-1', 'here')], 'reed');
    const [one] = (await store.ledger.readWhole()).documents;
    const there = { ...one!, note: 'there', versions: { [store.ledger.newId()]: 1 } } as typeof one & object;
    await store.ledger.merge({ documents: [there], acts: [] });
    await store.refresh();
    const at = store.snapshot.disagreements[0]!.findIndex((side) => 'note' in side && side.note === 'here');
    await press(screen, `Keep this side, ${at + 1}, of K-1`);
    await until(() => textIn(screen).includes('Not chosen'));
    const named = (words: string) =>
      buttonsIn(screen).find((button) => nameOf(button).startsWith(`${words}, K-1, set aside on`));
    named('Look at it')!.click();
    await until(() => /note there here/.test(textIn(screen)));
    await expectAccessible(screen);
    named('Take it instead')!.click();
    await until(() => store.reeds[0]!.note === 'there');
    named('Take it instead')!.click();
    await until(() => store.reeds[0]!.note === 'here');
    await store.undo();
    expect(store.reeds[0]!.note).to.equal('there');
  });

  it('gives back what is in the bin, and asks twice before it removes for good', async () => {
    const { store, screen } = await setup();
    await store.keep([reed('K-1'), reed('K-2')], 'reeds');
    const [one, two] = store.reeds.map(({ id }) => id) as [string, string];
    await store.remove([one], 'bin');
    await press(screen, 'Bring back');
    await until(() => store.reeds.length === 2);
    await store.remove([two], 'bin');
    await press(screen, 'Remove for good');
    await until(() => textIn(screen).includes('This cannot be undone'));
    expect(store.snapshot.deleted).to.have.length(1);
    await press(screen, 'Yes, remove it for good');
    await until(() => store.snapshot.deleted.length === 0);
    expect(await store.ledger.get(two)).to.equal(undefined);
  });

  it('copies into a folder by itself, and stops when it is told to', async () => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle(`picked ${Date.now()}`, { create: true });
    Object.assign(window, { showDirectoryPicker: async () => folder });
    const { store, screen } = await setup();
    await store.keep([reed('K-1')], 'reed');
    await press(screen, 'Pick a folder');
    await until(() => textIn(screen).includes('Copies go to the folder picked'));
    const { keys } = folder as unknown as { keys: () => AsyncIterable<string> };
    const names: string[] = [];
    for await (const name of keys.call(folder)) names.push(name);
    expect(names).to.have.length(1);
    expect(names[0]).to.match(/^hundredths-\d{4}-\d{2}-\d{2}-\d{4}-[0-9a-f]{6}\.zip$/);
    await until(() => textIn(screen).includes('The last copy outside the browser is of'));
    await press(screen, 'No more copies there');
    await until(() => textIn(screen).includes('A copy can go into a folder'));
    await root.removeEntry(folder.name, { recursive: true });
  });

  describe('when the browser was closed meanwhile', () => {
    const prototype = FileSystemDirectoryHandle.prototype as unknown as Record<string, unknown>;
    afterEach(() => {
      delete prototype['queryPermission'];
      delete prototype['requestPermission'];
    });

    /** A folder into which copies went, and the library opened again: leave to write is to be asked for anew. */
    async function askedAnew(answers: PermissionState[]) {
      const root = await navigator.storage.getDirectory();
      const folder = await root.getDirectoryHandle(`asked ${Date.now()} ${count++}`, { create: true });
      const { keys } = folder as unknown as { keys: () => AsyncIterable<string> };
      Object.assign(window, { showDirectoryPicker: async () => folder });
      const before = await setup();
      await before.store.keep([reed('K-1')], 'reed');
      await press(before.screen, 'Pick a folder');
      await until(() => textIn(before.screen).includes('Copies go to the folder asked'));
      for await (const name of keys.call(folder)) await folder.removeEntry(name);
      let permission: PermissionState = 'prompt';
      prototype['queryPermission'] = async () => permission;
      prototype['requestPermission'] = async () => (permission = answers.shift()!);
      const again = await shown(before.store.ledger);
      const copies = async () => {
        const names: string[] = [];
        for await (const name of keys.call(folder)) names.push(name);
        return names;
      };
      return { ...again, copies };
    }

    it('asks over every place to be allowed again, and copies at once when it is', async () => {
      const { screen, notices, copies } = await askedAnew(['granted']);
      await until(() => textIn(notices).includes('when you allow it'));
      await expectAccessible(notices);
      expect(textIn(screen)).to.contain('The browser wants to be asked again');
      expect(await copies(), 'nothing without leave').to.deep.equal([]);
      await press(notices, 'Allow it');
      await until(() => textIn(screen).includes('Copies go to the folder asked'));
      expect(await copies()).to.have.length(1);
      await until(() => !textIn(notices).includes('when you allow it'));
    });

    it('says so when it is not allowed, asks no more by itself, and can be allowed later', async () => {
      const { store, screen, notices, copies } = await askedAnew(['denied', 'granted']);
      await press(notices, 'Allow it');
      await until(() => textIn(screen).includes('the browser was not allowed to write there'));
      await until(() => !textIn(notices).includes('when you allow it'));
      await store.keep([reed('K-2')], 'reed');
      expect(await copies()).to.deep.equal([]);
      expect(store.reeds, 'the library itself goes on').to.have.length(2);
      await press(screen, 'Allow it');
      await until(() => textIn(screen).includes('Copies go to the folder asked'));
      expect(await copies()).to.have.length(1);
      expect(store.trouble).to.equal(undefined);
    });
  });

  it('says so when the folder is gone', async () => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle(`gone ${Date.now()}`, { create: true });
    Object.assign(window, { showDirectoryPicker: async () => folder });
    const { store, screen } = await setup();
    await store.keep([reed('K-1')], 'reed');
    await press(screen, 'Pick a folder');
    await until(() => textIn(screen).includes('Copies go to the folder gone'));
    await root.removeEntry(folder.name, { recursive: true });
    await press(screen, 'Copy now');
    await until(() => textIn(screen).includes('could not be written'));
  });

  it('says at the first reading that the browser may forget it, what helps, and what it answered', async () => {
    const { store, notices, screen } = await setup();
    await store.keep([reed('K-1')], 'reed');
    await until(() => textIn(screen).includes('There is no copy outside the browser yet'));
    expect(textIn(notices)).not.to.contain('in this browser alone');
    await store.keep([pass(store.reeds[0]!.id, 0, 1)], 'pass');
    await until(() =>
      textIn(notices).includes('One reading is in this browser alone. It has no second place'),
    );
    await expectAccessible(notices);
    expect(buttonsIn(notices).map(nameOf)).to.deep.equal([
      'Ask the browser to keep them',
      'Pick a folder for copies',
      'Not now',
    ]);
    await press(notices, 'Ask the browser to keep them');
    await until(() => textIn(notices).includes('It was asked, and did not promise'));
    await press(notices, 'Not now');
    await until(() => !textIn(notices).includes('in this browser alone'));
    await store.keep([pass(store.reeds[0]!.id, 1, 200)], 'pass');
    await until(() => textIn(notices).includes('201 readings are in this browser alone'));
  });

  it('offers to install the bench where the browser lets a page ask, once', async () => {
    const { store, notices } = await setup();
    await store.keep([reed('K-1')], 'reed');
    await store.keep([pass(store.reeds[0]!.id, 0, 3)], 'pass');
    let asked = 0;
    const offer = Object.assign(new Event('beforeinstallprompt'), { prompt: async () => void asked++ });
    window.dispatchEvent(offer);
    await press(notices, 'Install the bench');
    await until(() => buttonsIn(notices).every((button) => nameOf(button) !== 'Install the bench'));
    expect(asked).to.equal(1);
  });
});

describe('Setup, sharing', () => {
  it('asks for an address in a form that anyone can use, and says what is wrong with one', async () => {
    const { screen } = await setup();
    await press(screen, 'Enter an address');
    const share = screen.shadowRoot!.querySelector('bench-share-case')!;
    const root = share.shadowRoot!;
    await share.updateComplete;
    const fill = (name: string, text: string) =>
      (root.querySelector<HTMLInputElement>(`input[name="${name}"]`)!.value = text);
    fill('address', 'http://server.example/case');
    fill('name', 'bench');
    fill('password', 'knife');
    root.querySelector('form')!.requestSubmit();
    await share.updateComplete;
    expect(root.querySelector('[role="alert"]')!.textContent).to.contain('https alone');
    await expectAccessible(share);
  });
});
