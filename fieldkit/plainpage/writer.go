package plainpage

import (
	"strings"
)

// writer writes HTML; whatever comes through text is escaped.
type writer struct{ strings.Builder }

func (w *writer) raw(html string) *writer {
	w.WriteString(html)
	return w
}

func (w *writer) text(s string) *writer { return w.raw(escape(s)) }

// tag writes an element with a text; an empty text writes nothing.
func (w *writer) tag(name, class, s string) *writer {
	if s == "" {
		return w
	}
	return w.opening(name, class).text(s).raw("</" + name + ">\n")
}

func (w *writer) opening(name, class string) *writer {
	if class != "" {
		name += " class=\"" + class + "\""
	}
	return w.raw("<" + name + ">")
}

func (w *writer) link(href, words string) *writer {
	return w.open(href).text(words).raw("</a>\n")
}

func (w *writer) open(href string) *writer {
	return w.raw("<a href=\"").text(href).raw("\">")
}

// section begins a part with its heading, if it has one.
func (w *writer) section(title string) *writer {
	return w.raw("<section>").tag("h2", "", title)
}

func (w *writer) end() *writer { return w.raw("</section>\n") }

// bullets writes a part that is a list of short points.
func (w *writer) bullets(title string, list []string) *writer {
	if len(list) == 0 {
		return w
	}
	w.section(title).raw("<ul class=\"points\">")
	for _, s := range list {
		w.tag("li", "", capital(s))
	}
	return w.raw("</ul>").end()
}

// entry writes one entry of a list: its name and what is said of it.
func (w *writer) entry(name string, lines ...string) *writer {
	w.raw("<li>").tag("b", "", capital(name))
	for _, s := range lines {
		w.tag("span", "", s)
	}
	return w.raw("</li>\n")
}

func (w *writer) caution(kind, words string) *writer {
	return w.raw("<div class=\"care\">").tag("b", "", kind).tag("p", "", words).raw("</div>\n")
}

var escaping = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;", "\x00", "\ufffd")

// escape makes a text safe between tags and in quoted attributes; what is no UTF-8
// is replaced.
func escape(s string) string { return escaping.Replace(strings.ToValidUTF8(s, "\ufffd")) }

func capital(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// joined puts what is not empty into one line.
func joined(parts ...string) string {
	var full []string
	for _, s := range parts {
		if s != "" {
			full = append(full, s)
		}
	}
	return strings.Join(full, " · ")
}
