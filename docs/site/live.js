// Shows what stands in an example, and again when it was edited.
for (const example of document.querySelectorAll('.live')) {
  const code = example.querySelector('textarea');
  const shown = example.querySelector('.shown');
  const show = () => shown.replaceChildren(document.createRange().createContextualFragment(code.value));
  example.querySelector('button').addEventListener('click', show);
  show();
}
