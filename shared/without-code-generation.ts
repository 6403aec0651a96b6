// Stands before every module that makes a schema: zod then never probes whether code may be generated.
(globalThis as { __zod_globalConfig?: { jitless: boolean } }).__zod_globalConfig = { jitless: true };
