// Finds things on a page by what a person would call them. Evaluated as one
// expression: find(kind, name) returns the element or null.
(() => {
  const plain = (text) => (text || '').replace(/\s+/g, ' ').trim().toLowerCase();

  const shown = (element) => {
    const box = element.getBoundingClientRect();
    return box.width > 0 && box.height > 0 && getComputedStyle(element).visibility !== 'hidden';
  };

  // What the element is called: its label for a screen reader, or its text.
  const nameOf = (element) => {
    const by = element.getAttribute('aria-labelledby');
    if (by) return by.split(/\s+/).map((id) => document.getElementById(id)?.textContent).join(' ');
    return element.getAttribute('aria-label') || element.innerText || element.value ||
      element.getAttribute('alt') || element.getAttribute('title') || '';
  };

  const roles = {
    button: 'button, [role=button], input[type=button], input[type=submit], summary',
    link: 'a[href], [role=link]',
    tab: '[role=tab]',
    option: '[role=option], option',
    heading: 'h1, h2, h3, h4, [role=heading]',
    checkbox: 'input[type=checkbox], [role=checkbox]',
    any: 'a[href], button, summary, label, [role=button], [role=link], [role=tab], [role=option], ' +
      '[role=checkbox], [role=switch], [role=radio], input[type=button], input[type=submit]',
  };

  const fieldName = (field) => {
    const labels = Array.from(field.labels || [], (label) => label.innerText);
    return [field.getAttribute('aria-label'), ...labels, nameOf(field) === field.value ? '' : nameOf(field),
      field.placeholder, field.name].filter(Boolean);
  };

  // The exact name wins over one that begins so, and that over one that holds it.
  const best = (elements, names, wanted) => {
    const tests = [(n) => n === wanted, (n) => n.startsWith(wanted), (n) => n.includes(wanted)];
    for (const test of tests) {
      for (const element of elements) {
        if (shown(element) && names(element).some((name) => test(plain(name)))) return element;
      }
    }
    return null;
  };

  return (kind, name) => {
    if (kind === 'css') return Array.from(document.querySelectorAll(name)).find(shown) || null;
    if (kind === 'field') {
      const fields = document.querySelectorAll('input, textarea, select, [contenteditable=true]');
      return best(fields, fieldName, plain(name));
    }
    const selector = roles[kind];
    if (!selector) throw new Error(`no role ${kind}`);
    const checks = kind === 'checkbox';
    const found = best(document.querySelectorAll(selector), checks ? fieldName : (e) => [nameOf(e)], plain(name));
    if (found || kind !== 'any') return found;
    // Last, any visible text: the smallest element that holds it.
    const holders = Array.from(document.body.querySelectorAll('*')).reverse();
    return best(holders, (e) => [e.innerText], plain(name));
  };
})()
