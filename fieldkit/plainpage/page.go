package plainpage

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/hex"

	"trailfieldkit/fieldkit"
)

// Folder is where plain pages are kept, below the base of the program.
const Folder = "plain/"

// Sheet is the style of every plain page; all its rules lie under .plain-page.
//
//go:embed sheet.css
var Sheet string

// Policy is the Content-Security-Policy of a plain page: nothing runs, nothing is
// loaded.
func Policy() string {
	return "default-src 'none'; style-src " + Source(Sheet) + "; base-uri 'none'; form-action 'none'"
}

// Source names one sheet in a Content-Security-Policy, by its hash: no other style may
// stand in the page.
func Source(sheet string) string {
	sum := sha256.Sum256([]byte(sheet))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// Page is what one address of the program says.
type Page struct {
	Address string // below the base: "counter/card?part=pads-front"; none for a page the program has no screen for
	Name    string // of the page among the plain ones where it stands for no address
	Kind    string // "counter card"
	Title   string
	body    string // HTML
}

// Path is where the page is kept, below the base.
func (p Page) Path() string {
	if p.Address != "" {
		return Folder + p.Address
	}
	return Folder + p.Name
}

// Frame is what all pages of one device share.
type Frame struct {
	Base    string // the path the program lives under, with slashes at both ends
	KitName string
	Demo    bool
	Night   bool // the dark theme
}

// HTML writes a page, kept at that moment.
func (f Frame) HTML(p Page, kept fieldkit.Moment) string {
	return f.write(p, ", as it was on "+kept.Format("2 Jan 2006 15:04"), true)
}

// Alone writes a page to be handed on: it leads nowhere else.
func (f Frame) Alone(p Page, kept fieldkit.Moment) string {
	return f.write(p, ", as it was on "+kept.Format("2 Jan 2006 15:04"), false)
}

// Mark tells whether a page says the same as another; the moment is not part of it.
func (f Frame) Mark(p Page) string {
	sum := sha256.Sum256([]byte(f.write(p, "", true)))
	return hex.EncodeToString(sum[:12])
}

func (f Frame) write(p Page, kept string, ways bool) string {
	var w writer
	theme := "daylight"
	if f.Night {
		theme = "night"
	}
	w.raw("<!doctype html>\n<html lang=\"en\" data-theme=\"" + theme + "\">\n<head>\n<meta charset=\"utf-8\">\n")
	w.raw("<meta http-equiv=\"Content-Security-Policy\" content=\"" + Policy() + "\">\n")
	w.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"referrer\" content=\"no-referrer\">\n")
	w.raw("<title>").text(p.Title).raw(" · " + map[bool]string{true: "plain page", false: "Trail Field Kit"}[ways] + "</title>\n<style>" + Sheet + "</style>\n</head>\n<body>\n")
	w.raw("<main class=\"plain-page\">\n<header>")
	w.tag("p", "kind", p.Kind).tag("h1", "", p.Title)
	if f.Demo {
		w.tag("p", "note", "Demo kit, all invented.")
	}
	w.tag("p", "soft", "Kept from "+f.KitName+kept+".").raw("</header>\n" + p.body)
	if ways {
		w.ways(f.Base, p)
	}
	w.raw("</main>\n</body>\n</html>\n")
	return w.String()
}

// ways leads to the program and to the other plain pages.
func (w *writer) ways(base string, p Page) {
	w.raw("<nav aria-label=\"Plain pages\">")
	if p.Address != "" {
		w.link(base+p.Address, "Open it in the program")
	} else {
		w.link(base, "Open the program")
	}
	if p.Name != emergencyName {
		w.link(base+Folder+emergencyName, "Emergency")
	}
	if p.Address != "" || p.Name != "" {
		w.link(base+Folder, "All plain pages")
	}
	w.raw("</nav>\n")
}

// emergencyName and the empty name are the pages that stand for no address.
const emergencyName = "emergency"

// Index lists pages, in their order.
func Index(base string, pages []Page) Page {
	var w writer
	w.section("Readable before, or without, the program")
	w.raw("<ul class=\"list\">")
	for _, p := range pages {
		w.raw("<li>").open(base+p.Path()).tag("b", "", capital(p.Title)).tag("span", "", p.Kind).raw("</a></li>")
	}
	w.raw("</ul>").end()
	return Page{Kind: "plain pages", Title: "Kept as plain pages", body: w.String()}
}
