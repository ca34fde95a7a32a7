package data

import (
	"strings"

	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit/standards"
)

// designated says of the tables whose rows are designations which kind they are, and
// how a row is written as one. cell gives a cell of the row.
var designated = map[string]struct {
	kind standards.Kind
	text func(cell func(column string) string) string
}{
	"ball_bearings":       {standards.KindBall, column("designation")},
	"cylindrical_rollers": {standards.KindRoller, func(cell func(string) string) string { return firstWord(cell("designations")) }},
	"needle_cages":        {standards.KindNeedle, column("designation")},
	"tapered_metric":      {standards.KindTaperMetric, column("designation")},
	"tapered_inch":        {standards.KindTaperInch, columns("", "cone", "/", "cup", "")},
	"orings_as568":        {standards.KindORing, columns("AS568-", "dash", "")},
	"radial_shaft_seals":  {standards.KindSeal, columns("", "shaft_mm", "x", "bore_mm", "x", "width_mm", "")},
	"threads_inch":        {standards.KindInchThread, column("designation")},
	"threads_metric":      {standards.KindMetricThread, column("designation")},
	"wheel_patterns":      {standards.KindWheel, columns("", "lugs", "x", "bolt_circle_mm", "")},
	"ujoints":             {standards.KindUJoint, column("series")},
	"splines":             {standards.KindSpline, columns("", "splines", " spline")},
	"batteries_bci":       {standards.KindBattery, func(cell func(string) string) string { return "group " + firstWord(cell("group")) }},
	"fuses":               {standards.KindFuse, columns("", "rating_A", " A ", "body", "")},
	"wire_awg":            {standards.KindWire, columns("", "awg", " AWG")},
	"gear_oil":            {standards.KindGearOil, columns("SAE ", "grade", "")},
	"grease_nlgi":         {standards.KindGrease, columns("NLGI ", "nlgi", "")},
	"brake_fluid":         {standards.KindBrakeFluid, column("grade")},
}

func column(name string) func(func(string) string) string { return columns("", name, "") }

// columns writes texts and cells by turns, beginning and ending with a text.
func columns(parts ...string) func(func(string) string) string {
	return func(cell func(string) string) string {
		var b strings.Builder
		for i, p := range parts {
			if i%2 == 1 {
				p = cell(p)
			}
			b.WriteString(p)
		}
		return b.String()
	}
}

func firstWord(text string) string {
	first, _, _ := strings.Cut(text, " ")
	return first
}

// DesignationOf gives the designation that a row of a table is; ok is false for a row
// that is none.
func DesignationOf(t tables.Table, row int) (d standards.Designation, ok bool) {
	as, ok := designated[t.Name]
	if !ok {
		return nil, false
	}
	d, err := Handbook().ParseAs(as.kind, as.text(func(column string) string { return t.Cell(row, column) }))
	return d, err == nil
}

// RowOf finds the row of a table that holds a designation, whatever suffixes it has;
// ok is false if none does.
func RowOf(d standards.Designation) (t tables.Table, row int, ok bool) {
	for name, as := range designated {
		if as.kind != d.Kind() {
			continue
		}
		t, _ = tables.TableNamed(name)
		for row := range t.Rows {
			if of, ok := DesignationOf(t, row); ok && standards.Stem(of) == standards.Stem(d) {
				return t, row, true
			}
		}
	}
	return tables.Table{}, 0, false
}
