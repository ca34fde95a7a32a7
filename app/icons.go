package app

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Icons are line drawings of our own on a 26×26 grid.
const (
	iconRig     = `<path d="M3 17V9l5-4h8l3 5h4v7"/><circle cx="8" cy="18" r="3.5"/><circle cx="19" cy="18" r="3.5"/><path d="M11.5 18h4M8 5v5h11"/>`
	iconPack    = `<path d="M3 9h20v13H3zM9 9V5h8v4M3 15h20M13 13v4"/>`
	iconRepair  = `<path d="M17 3a6 6 0 0 0-5 8L3 20l3 3 9-9a6 6 0 0 0 8-6l-4 3-3-1-1-3z"/>`
	iconCounter = `<path d="M2 13h22v10H2zM7 13V4h12v9M10 8h6M13 17v2"/>`
	iconLog     = `<path d="M6 3h15v20H6zM6 3v20M3 7h4M3 13h4M3 19h4M11 9h6M11 14h6"/>`
	iconKit     = `<path d="M5 7h16M5 13h16M5 19h16"/><circle cx="10" cy="7" r="2.5"/><circle cx="17" cy="13" r="2.5"/><circle cx="8" cy="19" r="2.5"/>`
)

// icon draws one of the constants above; it is for the eye only, the label says
// the same.
func icon(drawing string) app.UI {
	return app.Raw(`<svg viewBox="0 0 26 26" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round" stroke-linecap="round" aria-hidden="true" width="26" height="26">` + drawing + `</svg>`)
}
