import { expect } from 'chai';
import { fixture } from '@open-wc/testing-helpers';
import { until } from './until.ts';
import { html } from 'lit';
import '../../components/crow/crow-listener.ts';
import type { CrowHeardEvent, CrowListener } from '../../components/crow/crow-listener.ts';
import { MicrophoneError, openMicrophone, type Microphone } from '../../components/crow/microphone.ts';
import { expectAccessible } from './accessible.ts';

const RATE = 48_000;

/** A microphone that hears what a function of time gives, by a clock of its own: however busy the machine is. */
function microphoneOf(
  sound: (seconds: number) => number,
): Microphone & { closed: boolean; now: () => number } {
  let at = 0;
  return {
    sampleRate: RATE,
    closed: false,
    now: () => (1000 * at) / RATE,
    read(into) {
      at += 1920;
      for (let i = 0; i < into.length; i++) into[i] = sound((at + i) / RATE);
    },
    close() {
      this.closed = true;
    },
  };
}

async function listen(microphone: ReturnType<typeof microphoneOf> | Error) {
  const el = await fixture<CrowListener>(
    html`<bench-crow-listener
      .seconds=${1}
      .now=${microphone instanceof Error ? () => 0 : microphone.now}
      .open=${() => (microphone instanceof Error ? Promise.reject(microphone) : Promise.resolve(microphone))}
    ></bench-crow-listener>`,
  );
  const heard: CrowHeardEvent[] = [];
  el.addEventListener('bench-crow-heard', (event) => heard.push(event));
  el.shadowRoot!.querySelector('button')!.click();
  await until(() => el.shadowRoot!.querySelector('.heard, .wrong'));
  return {
    el,
    heard,
    text: el.shadowRoot!.querySelector('[role=status]')!.textContent!.replace(/\s+/g, ' '),
  };
}

describe('bench-crow-listener', () => {
  it('hears two octaves, names the note and gives it away', async () => {
    const hz = 442 * 2 ** (3 / 12) * 2 ** (-5 / 1200); // C5 less 5 cents, at A = 442
    const microphone = microphoneOf(
      (t) => 0.2 * Math.sin(2 * Math.PI * hz * t) + 0.1 * Math.sin(4 * Math.PI * hz * t),
    );
    const { el, heard, text } = await listen(microphone);
    expect(text).to.match(/C5 \u2212(4\.\d|5(\.\d)?|6) ±/);
    expect(text).to.contain('at A 442');
    expect(heard).to.have.length(1);
    expect(heard[0]!.crow.octaveBalanceDb!.value).to.be.closeTo(-6.02, 0.3);
    expect(microphone.closed).to.equal(true);
    await expectAccessible(el);
  });

  it('says so when nothing was heard, and when there was no note', async () => {
    const silent = await listen(microphoneOf(() => 0));
    expect(silent.text).to.contain('Nothing was heard.');
    expect(silent.heard).to.have.length(0);
    await expectAccessible(silent.el);
    let state = 1;
    const hiss = await listen(
      microphoneOf(() => {
        state = (state * 48_271) % 2_147_483_647;
        return 0.3 * (state / 2_147_483_647 - 0.5);
      }),
    );
    expect(hiss.text).to.contain('No note was found');
    expect(hiss.heard).to.have.length(0);
  });

  it('shows the sentence of a microphone that cannot be had, and can be pressed again', async () => {
    const { el, text } = await listen(new MicrophoneError('There is no microphone.'));
    expect(text).to.contain('There is no microphone.');
    await expectAccessible(el);
    expect(el.shadowRoot!.querySelector('button')!.disabled).to.equal(false);
  });
});

describe('openMicrophone', () => {
  const real = Object.getOwnPropertyDescriptor(Navigator.prototype, 'mediaDevices')!;
  const pretend = (mediaDevices: unknown) =>
    Object.defineProperty(navigator, 'mediaDevices', { configurable: true, value: mediaDevices });
  afterEach(() => Object.defineProperty(navigator, 'mediaDevices', { ...real, configurable: true }));

  const refusal = async () => {
    try {
      await openMicrophone(4096);
    } catch (error) {
      expect(error).to.be.instanceOf(MicrophoneError);
      return (error as Error).message;
    }
    throw new Error('a microphone was opened');
  };

  it('says in clear words that there is none, that it was refused or held, or that the page cannot ask', async () => {
    for (const [name, words] of [
      ['NotAllowedError', 'The microphone was refused. Allow it'],
      ['NotFoundError', 'There is no microphone. Plug one in'],
      ['NotReadableError', 'Another program holds the microphone.'],
      ['OverconstrainedError', 'lets no page hear a microphone here'],
    ] as const) {
      pretend({ getUserMedia: () => Promise.reject(new DOMException('', name)) });
      expect(await refusal()).to.contain(words);
    }
    pretend(undefined);
    expect(await refusal()).to.contain('What you hear can be written by hand as well.');
  });
});
