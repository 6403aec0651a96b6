// Opens the bench on localhost.
import { createServer } from 'vite';

const server = await createServer({ server: { host: 'localhost', port: Number(process.env.PORT ?? 4600) } });
await server.listen();
console.log(`\n  Hundredths is open at ${server.resolvedUrls.local[0]}\n  Stop it with Ctrl C.\n`);
