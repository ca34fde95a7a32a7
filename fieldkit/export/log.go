package export

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// LogCSV writes the failures as a table, oldest first. Odometers are in the system
// read first, as plain numbers; coordinates are WGS 84 in decimal degrees.
func LogCSV(kit fieldkit.Kit, first fieldkit.System) []byte {
	rows := [][]string{{"date", "odometer, " + distanceUnit(first), "rig", "position", "part", "place", "latitude", "longitude",
		"what", "how", "why", "conditions", "reading before", "fix", "used", "hours lost"}}
	for _, f := range failuresOf(kit) {
		row := entryOf(kit, f)
		lat, lon := "", ""
		if hasFix(f.Place) {
			lat, lon = millionths(f.Place.Lat), millionths(f.Place.Lon)
		}
		lost := ""
		if f.Lost != 0 {
			lost = strconv.FormatFloat(f.Lost.Hours(), 'f', 2, 64)
		}
		rows = append(rows, []string{f.On.String(), odometer(f.Odometer, first), cell(row.rig), cell(row.position), cell(row.part),
			cell(f.Place.Text), lat, lon, cell(f.What), cell(string(f.Mode)), cell(f.Why), cell(f.Conditions), cell(f.Before.Both(first)), cell(f.Fix), cell(row.used), lost})
	}
	return table(rows)
}

// ReadingsCSV writes the wear readings as a table, oldest first: the value as
// people read it, and once more as a metric number with its unit to reckon with.
func ReadingsCSV(kit fieldkit.Kit, first fieldkit.System) []byte {
	rows := [][]string{{"date", "odometer, " + distanceUnit(first), "engine hours", "rig", "position", "reading", "value", "number", "unit", "how", "note"}}
	readings := kit.Inspections.Slice()
	order.By(readings, func(a, b fieldkit.Inspection) int {
		return cmp.Or(cmp.Compare(a.On.String(), b.On.String()), cmp.Compare(a.ID, b.ID))
	})
	for _, i := range readings {
		p, known := kit.Position(i.Position)
		rig, _ := kit.RigOf(p)
		number, unit := metricNumber(i.Value)
		hours := ""
		if i.EngineHours > 0 {
			hours = strconv.Itoa(i.EngineHours)
		}
		rows = append(rows, []string{i.On.String(), odometer(i.Odometer, first), hours, cell(rig.Name), cell(named(p.Title(), known, i.Position)),
			cell(i.Name), cell(i.Value.Both(first)), number, unit, cell(i.How), cell(i.Note)})
	}
	return table(rows)
}

// failuresOf sorts the failures by day, then by when they were written down.
func failuresOf(kit fieldkit.Kit) []fieldkit.Failure {
	failures := kit.Failures.Slice()
	order.By(failures, func(a, b fieldkit.Failure) int {
		return cmp.Or(cmp.Compare(a.On.String(), b.On.String()), a.At.Compare(b.At.Time), cmp.Compare(a.ID, b.ID))
	})
	return failures
}

// entry is a failure in words.
type entry struct{ rig, position, part, used string }

func entryOf(kit fieldkit.Kit, f fieldkit.Failure) entry {
	rig, rigKnown := kit.Rig(f.Rig)
	position, positionKnown := kit.Position(f.Position)
	part, partKnown := kit.Part(f.Part)
	return entry{
		rig:      named(rig.Name, rigKnown, f.Rig),
		position: named(position.Title(), positionKnown, f.Position),
		part:     named(part.Name, partKnown, f.Part),
		used:     used(kit, f.Used),
	}
}

// named falls back on the ID of a record that is not there.
func named(name string, known bool, id string) string {
	if known {
		return name
	}
	return id
}

// used lists what was taken from stock: "1 × axle U-joint; 2 × brake fluid".
func used(kit fieldkit.Kit, items []fieldkit.Item) string {
	var words []string
	for _, i := range items {
		name, known := kit.ItemName(i.Type, i.Item)
		words = append(words, fmt.Sprintf("%d × %s", i.Count, named(name, known, i.Item)))
	}
	return strings.Join(words, "; ")
}

func distanceUnit(first fieldkit.System) string {
	_, unit := split((100 * fieldkit.Mile).Show(first))
	return unit
}

// odometer writes a reading as a plain number, nothing if it was not taken.
func odometer(d fieldkit.Distance, first fieldkit.System) string {
	if d == 0 {
		return ""
	}
	number, _ := split(d.Show(first))
	return number
}

// metricNumber writes a value as a number a spreadsheet can reckon with and its
// metric unit; nothing for a text. Lengths are kept in millionths of a millimetre
// and counts in millionths, so both are exact.
func metricNumber(v fieldkit.Value) (number, unit string) {
	switch v.Dim {
	case fieldkit.DimText, "":
		return "", ""
	case fieldkit.DimLength:
		return millionths(v.Base), "mm"
	case fieldkit.DimCount:
		return millionths(v.Base), ""
	}
	return split(v.Show(fieldkit.Metric))
}

// split parts a shown quantity into number and unit.
func split(shown string) (number, unit string) {
	at := strings.LastIndexAny(shown, "0123456789") + 1
	return shown[:at], strings.TrimSpace(shown[at:])
}

// millionths writes a whole number of millionths as a decimal, exactly.
func millionths(n int64) string {
	sign, u := "", uint64(n)
	if n < 0 {
		sign, u = "-", -u
	}
	text := fmt.Sprintf("%s%d.%06d", sign, u/1_000_000, u%1_000_000)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
