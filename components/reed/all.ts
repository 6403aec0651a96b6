// For a script tag: every public element, unless the page has them already from elsewhere.
import '../../shared/without-code-generation.ts';

if (!customElements.get('bench-reed')) await import('./elements.ts');
