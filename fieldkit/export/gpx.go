package export

import (
	"strings"
	"time"

	"trailfieldkit/fieldkit"
)

// gpxSymbol is the name under which satellite receivers know a spanner on the map
// (common practice).
const gpxSymbol = "Car Repair"

// gpxNameLength is how much of a name a receiver shows, in characters; the whole
// text is in the description.
const gpxNameLength = 60

// LogGPX writes the failures whose place the device fixed as GPX 1.1 waypoints,
// oldest first. creator names the program, as the schema asks.
// Source: GPX 1.1 schema, http://www.topografix.com/GPX/1/1/gpx.xsd; children of
// wpt stand in its order.
func LogGPX(kit fieldkit.Kit, creator string) []byte {
	var b strings.Builder
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>` + "\n" +
		`<gpx version="1.1" creator="` + attribute(creator) + `" xmlns="http://www.topografix.com/GPX/1/1"` +
		` xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"` +
		` xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd">` + "\n" +
		"  <metadata>\n")
	element(&b, "    ", "name", kit.Name)
	b.WriteString("  </metadata>\n")
	for _, f := range failuresOf(kit) {
		if hasFix(f.Place) {
			waypoint(&b, f, entryOf(kit, f))
		}
	}
	b.WriteString("</gpx>\n")
	return []byte(b.String())
}

func waypoint(b *strings.Builder, f fieldkit.Failure, e entry) {
	lon := f.Place.Lon
	if lon == maxLon { // the schema's longitude is below 180; the same meridian is -180
		lon = -maxLon
	}
	b.WriteString(`  <wpt lat="` + millionths(f.Place.Lat) + `" lon="` + millionths(lon) + `">` + "\n")
	when := f.At
	if when.IsZero() {
		when = f.Place.FixedAt
	}
	const indent = "    "
	element(b, indent, "time", when.UTC().Format(time.RFC3339))
	element(b, indent, "name", short(f.What))
	element(b, indent, "cmt", joined(", ", f.On.String(), e.rig, e.position))
	element(b, indent, "desc", joined("\n", f.What, labelled("why", f.Why), labelled("fix", f.Fix), labelled("used", e.used),
		labelled("part", e.part), labelled("place", f.Place.Text)))
	element(b, indent, "sym", gpxSymbol)
	element(b, indent, "type", "failure")
	b.WriteString("  </wpt>\n")
}

const (
	maxLat = 90_000_000
	maxLon = 180_000_000
)

// hasFix reports whether the device gave a position that is on the globe.
func hasFix(p fieldkit.Place) bool {
	return p.HasFix() && -maxLat <= p.Lat && p.Lat <= maxLat && -maxLon <= p.Lon && p.Lon <= maxLon
}

// element writes one element; one without text is left out.
func element(b *strings.Builder, indent, name, content string) {
	if content = escaped(content); content != "" {
		b.WriteString(indent + "<" + name + ">" + content + "</" + name + ">\n")
	}
}

// escaped makes a text fit for the content of an element. encoding/xml would do
// it at the price of 70 kB of download.
func escaped(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(clean(text))
}

// attribute makes a text fit for a quoted attribute, whose line breaks and tabs a
// reader would turn into blanks.
func attribute(text string) string {
	return strings.NewReplacer(`"`, "&quot;", "'", "&apos;", "\n", "&#10;", "\t", "&#9;").Replace(escaped(text))
}

// short is the first line of a text, cut to what a receiver shows.
func short(text string) string {
	line, _, _ := strings.Cut(strings.TrimSpace(clean(text)), "\n")
	if runes := []rune(line); len(runes) > gpxNameLength {
		return string(runes[:gpxNameLength-1]) + "…"
	}
	return line
}

func labelled(label, text string) string {
	if text == "" {
		return ""
	}
	return label + ": " + text
}

// joined joins what is not empty.
func joined(by string, texts ...string) string {
	var given []string
	for _, t := range texts {
		if t != "" {
			given = append(given, t)
		}
	}
	return strings.Join(given, by)
}
