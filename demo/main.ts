import './configure.ts';
import './bench-app.ts';
