// A shared case in a process of its own, to be killed: node server-process.mjs FILE PORT [ORIGIN...].
import { createServer } from 'node:http';
import { protocolOf } from '../../../scripts/home/protocol.mjs';
import { Replica } from '../../../scripts/home/replica.mjs';

const [path, port, ...origins] = process.argv.slice(2);
const replica = new Replica(path);
const users = [{ name: 'bench', password: 'reed knife' }];
const server = createServer(protocolOf({ replica, name: 'case', users, origins }));
server.listen(Number(port), '127.0.0.1', () => console.log('up'));
