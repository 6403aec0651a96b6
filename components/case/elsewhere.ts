import { html, nothing, type TemplateResult } from 'lit';
import { hrefOf } from '../frame/routes.ts';
import { otherPorts } from '../store/library-ports.ts';

/** An empty case at a port that is not the usual one looks as if everything were lost. */
export function elsewhere(): TemplateResult | typeof nothing {
  const ports = otherPorts();
  if (ports.length === 0) return nothing;
  const places = ports.map((port) => html`<a href=${`http://localhost:${port}/`}>localhost:${port}</a> `);
  return html`<p class="elsewhere">
    This address, localhost:${location.port}, has a library of its own, and it is empty. Another one lies in
    this browser at ${places}and is as it was. To bring it here, make a copy of it there, under Setup, and
    <a href=${hrefOf({ at: 'bring-in' })}>bring that file in</a> here.
  </p>`;
}
