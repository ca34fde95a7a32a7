package chromium

import (
	"context"
	_ "embed"
	"fmt"
	"strings"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

//go:embed find.js
var findScript string

// roles that may stand before a name, as in "button:Save" or "css:#plan li"
var roleWords = []string{"css", "field", "button", "link", "tab", "option", "heading", "checkbox", "any"}

// split takes "role:name" apart; a name alone is anything that can be tapped.
func split(what string) (role, name string) {
	for _, word := range roleWords {
		if rest, has := strings.CutPrefix(what, word+":"); has {
			return word, rest
		}
	}
	return "any", what
}

func found(what string) string {
	role, name := split(what)
	return fmt.Sprintf("(%s)(%s, %s)", strings.TrimSpace(findScript), quote(role), quote(name))
}

// Has says whether something by that name is shown now.
func (p *Page) Has(what string) (bool, error) { return Eval[bool](p, "Boolean("+found(what)+")") }

// WaitHas waits until something by that name is shown.
func (p *Page) WaitHas(what string) error {
	return p.WaitFor(fmt.Sprintf("%q", what), found(what))
}

// TextOf is the visible text of something, found by name.
func (p *Page) TextOf(what string) (string, error) {
	if err := p.WaitHas(what); err != nil {
		return "", err
	}
	return Eval[string](p, "(e => e.innerText || e.value || '')("+found(what)+")")
}

// Attribute reads an attribute or, after a dot, a property: "href", ".checked".
func (p *Page) Attribute(what, name string) (string, error) {
	if err := p.WaitHas(what); err != nil {
		return "", err
	}
	if property, is := strings.CutPrefix(name, "."); is {
		return Eval[string](p, fmt.Sprintf("String((%s)[%s])", found(what), quote(property)))
	}
	return Eval[string](p, fmt.Sprintf("(%s).getAttribute(%s) || ''", found(what), quote(name)))
}

// Fill taps a field, found by its label, and types a text in place of what it holds.
func (p *Page) Fill(label, text string) error {
	if !strings.Contains(label, ":") || !hasRole(label) {
		label = "field:" + label
	}
	if err := p.Tap(label); err != nil {
		return err
	}
	err := p.Run("(e => e.select ? e.select() : document.execCommand('selectAll'))(" + found(label) + ")")
	if err != nil {
		return err
	}
	if text == "" {
		return p.Press(kb.Delete)
	}
	return p.Type(text)
}

func hasRole(what string) bool {
	role, _ := split(what)
	return role != "any" || strings.HasPrefix(what, "any:")
}

// Type types into what has the focus.
func (p *Page) Type(text string) error {
	err := p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, input.InsertText, input.InsertTextParams{Text: text})
		return err
	}))
	if err != nil {
		return fmt.Errorf("typing %q: %w", text, err)
	}
	return nil
}

// Press presses keys, such as kb.Enter or kb.Tab.
func (p *Page) Press(keys string) error { return p.do(chromedp.KeyEvent(keys)) }

// Choose picks an entry of a list field by the text it shows.
func (p *Page) Choose(label, entry string) error {
	what := "field:" + label
	if hasRole(label) {
		what = label
	}
	if err := p.WaitHas(what); err != nil {
		return err
	}
	done, err := Eval[bool](p, fmt.Sprintf(`((list, wanted) => {
		const plain = (s) => s.replace(/\s+/g, ' ').trim().toLowerCase();
		const options = Array.from(list.options);
		const entry = options.find((o) => plain(o.text) === plain(wanted)) || options.find((o) => plain(o.text).includes(plain(wanted)));
		if (!entry) return false;
		list.focus();
		list.value = entry.value;
		list.dispatchEvent(new Event('input', { bubbles: true }));
		list.dispatchEvent(new Event('change', { bubbles: true }));
		return true;
	})(%s, %s)`, found(what), quote(entry)))
	if err != nil {
		return err
	}
	if !done {
		return p.unmet(fmt.Sprintf("the entry %q in %q", entry, label), nil)
	}
	return nil
}

// Upload puts files into a file field.
func (p *Page) Upload(what string, files ...string) error {
	err := p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		field, err := cdp.Call(ctx, t, runtime.Evaluate, runtime.EvaluateParams{Expression: fileField(what)})
		if err != nil {
			return err
		}
		if field.Result == nil || field.Result.ObjectID == "" {
			return fmt.Errorf("no file field %q", what)
		}
		_, err = cdp.Call(ctx, t, dom.SetFileInputFiles, dom.SetFileInputFilesParams{
			Files: files, ObjectID: field.Result.ObjectID})
		return err
	}))
	if err != nil {
		return fmt.Errorf("putting a file into %q: %w", what, err)
	}
	return nil
}

// A file field is often hidden behind a button, so visibility does not count here.
func fileField(what string) string {
	if selector, is := strings.CutPrefix(what, "css:"); is {
		return fmt.Sprintf("document.querySelector(%s)", quote(selector))
	}
	return fmt.Sprintf(`Array.from(document.querySelectorAll('input[type=file]')).find((f) =>
		(f.getAttribute('aria-label') || Array.from(f.labels || [], (l) => l.innerText).join(' ') || f.name)
			.toLowerCase().includes(%s.toLowerCase())) || null`, quote(what))
}
