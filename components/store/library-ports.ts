// A port of this machine is an origin of its own, with a library of its own. Cookies alone are seen at all ports of a
// host: one of them names the ports that hold something. Nothing else is in it.
const NAME = 'hundredths-ports';
/** The longest that browsers keep a cookie, 400 days. Source: RFC 6265bis, 5.5. */
const KEPT_S = 400 * 24 * 3600;

/** The ports of this machine at which a library holds something, as a page's cookies tell. */
export function portsIn(cookies: string): readonly string[] {
  const value = new RegExp(`(?:^|; )${NAME}=([\\d.]*)`).exec(cookies)?.[1] ?? '';
  return value.split('.').filter((port) => /^[1-9]\d{0,4}$/.test(port));
}

/** The cookie that says whether the library at this port holds something. */
export function portsCookie(cookies: string, port: string, holds: boolean): string {
  const others = portsIn(cookies).filter((one) => one !== port);
  const ports = holds ? [...others, port] : others;
  return `${NAME}=${ports.join('.')}; Path=/; SameSite=Strict; Max-Age=${KEPT_S}`;
}

/** Whether this page comes from this machine, by a port. */
const isByPort = () => location.hostname === 'localhost' && location.port !== '';

/** Notes for pages at other ports whether there is a library at this one. */
export function notePort(holds: boolean): void {
  if (!isByPort() || portsIn(document.cookie).includes(location.port) === holds) return;
  document.cookie = portsCookie(document.cookie, location.port, holds);
}

/** The other ports of this machine at which a library holds something. */
export function otherPorts(): readonly string[] {
  return isByPort() ? portsIn(document.cookie).filter((port) => port !== location.port) : [];
}
