// The content security policy forbids the code generation that zod would otherwise probe for. zod reads this before it
// makes its first schema, so it must stand before every module.
globalThis.__zod_globalConfig = { jitless: true };
