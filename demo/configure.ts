import * as z from 'zod';

// The content security policy forbids the code generation that zod would otherwise probe for.
z.config({ jitless: true });
