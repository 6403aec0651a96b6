export function buildServiceWorker(folder: string): Promise<void>;
