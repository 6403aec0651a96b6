import { html, nothing } from 'lit';
import { sharedAddress } from '../../src/sharing/address.ts';
import type { Role } from '../../src/sharing/chosen.ts';
import type { Entered } from '../sharing/shared-case.ts';

const ROLES: readonly (readonly [Role, string])[] = [
  ['own', 'one of my own: everything goes both ways'],
  ['class', 'one of a class or a workshop: reeds go both ways, my choices in Setup stay here'],
  ['guest', 'a guest: reads what is there, cannot change it, and sends nothing'],
];

interface ShareForm {
  readonly entered: Entered | undefined;
  /** Tags of the library's reeds. */
  readonly tags: readonly string[];
  readonly problem: string;
  readonly handleTry: (event: SubmitEvent) => void;
}

/** What was entered in the form. @throws InputError saying what is wrong with the address. */
export function enteredIn(form: HTMLFormElement): Omit<Entered, 'is'> {
  const data = new FormData(form);
  const text = (name: string) => String(data.get(name) ?? '');
  return {
    address: sharedAddress(text('address')),
    name: text('name'),
    password: text('password'),
    passphrase: text('passphrase'),
    chosen: {
      role: text('role') as Role,
      tags: data.getAll('tag').map(String),
      photos: data.has('photos'),
      notes: data.has('notes'),
    },
  };
}

/** The form for an address, and what is shared through it. */
export function shareForm({ entered, tags, problem, handleTry }: ShareForm) {
  const { chosen, address = '' } = entered ?? {};
  return html`<form @submit=${handleTry} autocomplete="off">
    <label class="wide"
      >Address of the case<input
        name="address"
        inputmode="url"
        required
        maxlength="400"
        placeholder="https://server.example/case"
        .value=${address}
        aria-invalid=${problem ? 'true' : nothing}
        aria-describedby="problem"
    /></label>
    <p class="problem" id="problem" role="alert" ?hidden=${!problem}>${problem}</p>
    ${loginFields(entered)}
    <label class="wide"
      >This device is<select name="role">
        ${ROLES.map(([role, words]) => html`<option value=${role} ?selected=${chosen?.role === role}>${words}</option>`)}
      </select></label
    >
    ${tags.length > 0 ? tagFields(tags, chosen?.tags ?? []) : nothing}
    <fieldset>
      <legend>What goes with them</legend>
      <label class="tick"
        ><input type="checkbox" name="photos" ?checked=${chosen?.photos ?? true} />photographs</label
      >
      <label class="tick"
        ><input type="checkbox" name="notes" ?checked=${chosen?.notes ?? true} />notes, and all else in my own
        words</label
      >
    </fieldset>
    <button>Try it</button>
    <p class="wide">Name, password and passphrase are kept on this device alone, in no copy and no report.</p>
  </form>`;
}

function loginFields(entered: Entered | undefined) {
  const { name = '', password = '', passphrase = '' } = entered ?? {};
  return html`<label
      >Name<input name="name" required maxlength="80" autocomplete="off" .value=${name}
    /></label>
    <label
      >Password<input
        name="password"
        type="password"
        required
        maxlength="200"
        autocomplete="off"
        .value=${password}
    /></label>
    <label class="wide"
      >Passphrase, if what is sent is to be locked, the same on all devices<input
        name="passphrase"
        type="password"
        maxlength="400"
        autocomplete="off"
        .value=${passphrase}
    /></label>`;
}

function tagFields(tags: readonly string[], chosen: readonly string[]) {
  return html`<fieldset>
    <legend>Send only reeds with one of these tags; every reed where none is ticked</legend>
    ${tags.map(
      (tag) =>
        html`<label class="tick"
          ><input type="checkbox" name="tag" value=${tag} ?checked=${chosen.includes(tag)} />${tag}</label
        >`,
    )}
  </fieldset>`;
}
