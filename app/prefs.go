package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// prefs are choices of this device, not of the kit: they stay when a kit is
// restored or thrown away.
type prefs struct {
	Units fieldkit.System
	Theme string // "daylight" or "night"
	Kit   string // ownKit or demoKit
	// KeepPlace leaves the position in new photos that the camera wrote into them.
	KeepPlace bool
}

const (
	ownKit  = "own"
	demoKit = "demo"

	daylight = "daylight"
	night    = "night"

	keepPlace = "keep"

	prefPrefix  = "fieldkit.pref."
	draftPrefix = "fieldkit.draft."
)

func readPrefs() prefs {
	p := prefs{Units: fieldkit.Inch, Theme: daylight, Kit: ""}
	if fieldkit.System(remembered(prefPrefix+"units")) == fieldkit.Metric {
		p.Units = fieldkit.Metric
	}
	if remembered(prefPrefix+"theme") == night {
		p.Theme = night
	}
	p.KeepPlace = remembered(prefPrefix+"photo place") == keepPlace
	switch k := remembered(prefPrefix + "kit"); k {
	case ownKit, demoKit:
		p.Kit = k
	}
	return p
}

func writePref(name, value string) { remember(prefPrefix+name, value) }

// headColour is the style sheet's colour of the head, for the bar that the system
// draws above it.
var headColour = map[string]string{daylight: "#23281d", night: "#1f1a12"}

// applyTheme puts the theme on the page's root, where the style sheet looks.
func applyTheme(theme string) {
	if app.IsServer {
		return
	}
	doc := app.Window().Get("document")
	doc.Get("documentElement").Call("setAttribute", "data-theme", theme)
	if bar := doc.Call("querySelector", `meta[name="theme-color"]`); bar.Truthy() {
		bar.Call("setAttribute", "content", headColour[theme])
	}
}

// draftKey is where a form's draft is kept. Each kit has its own drafts: what was
// typed in the demo means nothing in one's own kit.
func draftKey(form string) string { return draftPrefix + kept.which + "." + form }

// forgetDrafts forgets what was typed and not saved in a kit that is thrown away.
func forgetDrafts(which string) {
	if app.IsServer {
		return
	}
	for key := range firstCopy() {
		if strings.HasPrefix(key, draftPrefix+which+".") {
			remember(key, "")
		}
	}
}

// remembered reads a text of this device; nothing if there is none or the
// browser forbids it.
func remembered(key string) string {
	if app.IsServer {
		return textsInMemory[key]
	}
	v := deviceTexts().Call("getItem", key)
	if !v.Truthy() {
		return ""
	}
	return v.String()
}

// textsInMemory stands in for the texts of a device where there is none; without it
// nothing is remembered there.
var textsInMemory map[string]string

// remember keeps a text of this device, "" removes it.
func remember(key, value string) {
	if app.IsServer {
		if value == "" {
			delete(textsInMemory, key)
		} else if textsInMemory != nil {
			textsInMemory[key] = value
		}
		return
	}
	turn := nextTurn(remembered(turnKey))
	setText(turnKey, turn)
	setText(key, value)
	secondCopy.note(key, value, turn)
}

// setText writes to the first copy. A browser that refuses (private mode, full)
// leaves the second one ahead.
func setText(key, value string) {
	defer func() { _ = recover() }()
	if value == "" {
		deviceTexts().Call("removeItem", key)
		return
	}
	deviceTexts().Call("setItem", key, value)
}

func deviceTexts() app.Value { return app.Window().Get("localStorage") }

// link gives the address of a screen with its query, under whatever path the app
// is served from. Pairs are names and values; empty values are left out.
func link(path string, pairs ...string) string {
	return strings.TrimSuffix(app.Getenv("GOAPP_ROOT_PREFIX"), "/") + path + query(pairs...)
}
