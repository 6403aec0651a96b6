/** What an installed page is told when it is opened with files. */
interface LaunchQueue {
  readonly setConsumer: (
    take: (launch: { readonly files?: readonly { readonly getFile: () => Promise<File> }[] }) => void,
  ) => void;
}

const holdsFiles = ({ dataTransfer }: DragEvent) => dataTransfer?.types.includes('Files') ?? false;

/** Files dropped anywhere on the page, where nothing else takes them: a browser would leave the page for them. */
function watchDrops(take: (files: readonly File[]) => void, signal: AbortSignal): void {
  const over = (event: DragEvent) => {
    if (!event.defaultPrevented && holdsFiles(event)) event.preventDefault();
  };
  const drop = (event: DragEvent) => {
    if (event.defaultPrevented || !holdsFiles(event)) return;
    event.preventDefault();
    take([...(event.dataTransfer?.files ?? [])]);
  };
  addEventListener('dragover', over, { signal });
  addEventListener('drop', drop, { signal });
}

/** Files that the system opens with the installed page, where the browser knows of such. */
function watchLaunches(take: (files: readonly File[]) => void): void {
  const { launchQueue } = globalThis as { launchQueue?: LaunchQueue };
  launchQueue?.setConsumer(({ files = [] }) => {
    if (files.length > 0) void Promise.all(files.map((file) => file.getFile())).then(take);
  });
}

/** Tells of files that reach the page otherwise than through the place for bringing in. */
export function watchHandedFiles(take: (files: readonly File[]) => void, signal: AbortSignal): void {
  watchDrops(take, signal);
  watchLaunches(take);
}
