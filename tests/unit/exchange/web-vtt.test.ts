import { describe, expect, it } from 'vitest';
import { writeVtt } from '../../../src/exchange/web-vtt.ts';

describe('captions', () => {
  it('are written as the format has them: hours, minutes, seconds and thousandths, with its signs escaped', () => {
    expect(
      writeVtt([
        { fromS: 0, toS: 1.5, words: 'S-001, pass 0' },
        { fromS: 3661.25, toS: 3662, words: 'A < B & B > A\nboth' },
      ]),
    ).toBe(
      'WEBVTT\n\n00:00:00.000 --> 00:00:01.500\nS-001, pass 0\n\n01:01:01.250 --> 01:01:02.000\nA &lt; B &amp; B &gt; A both\n',
    );
  });
});
