import fc from 'fast-check';
import { expect, it } from 'vitest';
import { idSchema, makeId } from '../../shared/ids.ts';

it('makes identifiers that are valid and sort by the time they were made', () => {
  fc.assert(
    fc.property(
      fc.tuple(fc.nat(2 ** 31), fc.nat(2 ** 31)),
      fc.uint8Array({ minLength: 10, maxLength: 10 }),
      ([first, second], random) => {
        const earlier = makeId(1.7e12 + Math.min(first, second), random);
        const later = makeId(1.7e12 + Math.max(first, second), random);
        expect(idSchema.safeParse(earlier).success).toBe(true);
        expect(earlier <= later).toBe(true);
      },
    ),
  );
});
