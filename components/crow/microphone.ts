/** Sound as it is now, read whenever it is wanted. Nothing is recorded, and nothing leaves the page. */
export interface Microphone {
  readonly sampleRate: number;
  /** Fills an array of the length that was asked for with the newest samples. */
  readonly read: (into: Float32Array<ArrayBuffer>) => void;
  readonly close: () => void;
}

/** What to say when there is no microphone to hear with. */
export class MicrophoneError extends Error {
  override readonly name = 'MicrophoneError';
}

const TYPE_IT = 'What you hear can be written by hand as well.';
const TROUBLES: Readonly<Record<string, string>> = {
  NotAllowedError: `The microphone was refused. Allow it for this page in the browser’s settings, then listen again. ${TYPE_IT}`,
  NotFoundError: `There is no microphone. Plug one in, then listen again. ${TYPE_IT}`,
  NotReadableError: `Another program holds the microphone. Close it, then listen again. ${TYPE_IT}`,
};
const UNREACHABLE = `This browser lets no page hear a microphone here. ${TYPE_IT}`;

/** As it comes from the reed: what browsers do to make speech clear would bend the pitch. */
const AS_IT_IS = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };

async function stream(): Promise<MediaStream> {
  // Absent where the page did not come by https or from this machine.
  const devices = navigator.mediaDevices as MediaDevices | undefined;
  if (!devices) throw new MicrophoneError(UNREACHABLE);
  try {
    return await devices.getUserMedia({ audio: AS_IT_IS });
  } catch (error) {
    const name = error instanceof DOMException ? error.name : '';
    throw new MicrophoneError(TROUBLES[name] ?? UNREACHABLE, { cause: error });
  }
}

/**
 * Asks for the microphone; must follow a press, or the browser stays silent.
 *
 * @param length Samples of each reading, a power of two from 32 to 32768.
 * @throws MicrophoneError with a sentence to show.
 */
export async function openMicrophone(length: number): Promise<Microphone> {
  const sound = await stream();
  const context = new AudioContext();
  const analyser = new AnalyserNode(context, { fftSize: length, smoothingTimeConstant: 0 });
  context.createMediaStreamSource(sound).connect(analyser);
  await context.resume();
  return {
    sampleRate: context.sampleRate,
    read: (into) => analyser.getFloatTimeDomainData(into),
    close: () => {
      for (const track of sound.getTracks()) track.stop();
      void context.close();
    },
  };
}
