import { describe, expect, it } from 'vitest';
import { portsCookie, portsIn } from '../../../components/store/library-ports.ts';

describe('ports that hold a library', () => {
  it('are read out of all cookies of the machine, and nothing else is', () => {
    expect(portsIn('')).toEqual([]);
    expect(portsIn('a=1; hundredths-ports=4600.4601; b=2')).toEqual(['4600', '4601']);
    expect(portsIn('not-hundredths-ports=4600')).toEqual([]);
    expect(portsIn('hundredths-ports=..0.99999999.4600')).toEqual(['4600']);
  });

  it('gain the one that holds something, once, and lose the one that no longer does', () => {
    const valueOf = (cookie: string) => cookie.split(';')[0];
    expect(valueOf(portsCookie('x=1', '4600', true))).toBe('hundredths-ports=4600');
    expect(valueOf(portsCookie('hundredths-ports=4600', '4601', true))).toBe('hundredths-ports=4600.4601');
    expect(valueOf(portsCookie('hundredths-ports=4600', '4600', true))).toBe('hundredths-ports=4600');
    expect(valueOf(portsCookie('hundredths-ports=4600.4601', '4600', false))).toBe('hundredths-ports=4601');
  });
});
