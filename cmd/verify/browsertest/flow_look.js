// Looks over what is shown and returns complaints, each about one kind of element.
// Evaluated as one expression: look(check, name) where name says theme or size.
(() => {
  const say = (element) => {
    const words = (element.getAttribute('aria-label') || element.innerText || element.name || '').replace(/\s+/g, ' ').trim().slice(0, 40);
    const marks = Array.from(element.classList, (c) => '.' + c).join('');
    return `${element.tagName.toLowerCase()}${marks} "${words}"`;
  };
  const shown = (element) => {
    const box = element.getBoundingClientRect();
    return box.width > 0 && box.height > 0 && getComputedStyle(element).visibility === 'visible' && box.right > 0 && box.bottom > -scrollY;
  };
  const once = (list) => Array.from(new Set(list));

  // The elements that hold text of their own, and what is shown in empty fields.
  const texts = () => Array.from(document.querySelectorAll('body *')).filter((e) => shown(e) &&
    Array.from(e.childNodes).some((n) => n.nodeType === Node.TEXT_NODE && n.data.trim() !== '') &&
    !['OPTION', 'SCRIPT', 'STYLE'].includes(e.tagName));
  const fields = () => Array.from(document.querySelectorAll('input:not([type=file]), textarea, select')).filter(shown);

  const parse = (text) => {
    const n = text.match(/[\d.]+/g).map(Number);
    return { r: n[0], g: n[1], b: n[2], a: n.length > 3 ? n[3] : 1 };
  };
  const over = (top, ground) => ({
    r: top.r * top.a + ground.r * (1 - top.a), g: top.g * top.a + ground.g * (1 - top.a), b: top.b * top.a + ground.b * (1 - top.a), a: 1,
  });
  const groundOf = (element) => {
    const layers = [];
    for (let e = element; e; e = e.parentElement) {
      layers.push(parse(getComputedStyle(e).backgroundColor));
      if (layers.at(-1).a === 1) break;
    }
    return layers.reverse().reduce((ground, layer) => over(layer, ground), { r: 255, g: 255, b: 255, a: 1 });
  };
  const opacityOf = (element) => {
    let opacity = 1;
    for (let e = element; e; e = e.parentElement) opacity *= Number(getComputedStyle(e).opacity);
    return opacity;
  };
  // Relative luminance and contrast ratio of WCAG 2.2.
  const light = (c) => {
    const [r, g, b] = [c.r, c.g, c.b].map((v) => v / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (element, ink) => {
    const ground = groundOf(element);
    ink.a *= opacityOf(element);
    const [x, y] = [light(over(ink, ground)), light(ground)];
    return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05);
  };

  const checks = {
    contrast: () => {
      const list = [];
      const note = (element, colour, what) => {
        const ratio = contrast(element, parse(colour));
        if (ratio < 7) list.push(`${what} ${say(element)} has ${ratio.toFixed(2)}:1`);
      };
      for (const e of texts()) note(e, getComputedStyle(e).color, 'text of');
      for (const e of fields()) {
        note(e, getComputedStyle(e).color, 'entry of');
        if (e.placeholder) note(e, getComputedStyle(e, '::placeholder').color, 'hint of');
      }
      return list;
    },
    small: () => texts().concat(fields()).filter((e) => parseFloat(getComputedStyle(e).fontSize) < 17.99)
      .map((e) => `${say(e)} is ${getComputedStyle(e).fontSize}`),
    wide: () => {
      const width = document.documentElement.clientWidth, whole = document.scrollingElement.scrollWidth;
      if (whole <= screen.width) return [];
      const beyond = Array.from(document.querySelectorAll('body *')).filter((e) => shown(e) && e.getBoundingClientRect().right > screen.width + 0.5);
      return [`${whole} of ${screen.width} points (page ${width}): ${beyond.slice(-2).map(say).join(', ')}`];
    },
    targets: () => Array.from(document.querySelectorAll('a[href], button, summary, input:not([type=file]), select, textarea, input[type=file] + label'))
      .filter(shown)
      .filter((e) => {
        // A link inside a sentence is as high as the sentence.
        const inline = e.tagName === 'A' && getComputedStyle(e).display === 'inline' &&
          Array.from(e.parentElement.childNodes).some((n) => n.nodeType === Node.TEXT_NODE && n.data.trim() !== '');
        return !inline && e.getBoundingClientRect().height < 47.9;
      })
      .map((e) => `${say(e)} is ${Math.round(e.getBoundingClientRect().height)} high`),
  };
  return (check, name) => once(checks[check]()).map((line) => (name ? `${name}: ${line}` : line));
})()
