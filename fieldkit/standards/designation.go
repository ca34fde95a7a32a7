package standards

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// Designation is one standard designation, understood.
type Designation interface {
	Kind() Kind
	// String gives the designation as it is normally written; it reads back to the
	// same designation.
	String() string
	// Dims gives what the standard says of a part so named, in the order in which
	// people ask. What is not known is left out.
	Dims() []Dim
	// Source says in what the figures are published, and where they were read.
	Source() string
	// Explain says piece by piece what the designation means.
	Explain() []Piece
	// Listed reports whether a table holds it; a designation only put together by
	// the rules of its standard may be one that nobody makes.
	Listed() bool
}

// Dim is one figure that a designation stands for.
type Dim struct {
	Name  string // "bore", "section_width": one of the names that Label knows
	Value fieldkit.Value
}

// Piece is a part of a designation and what it says.
type Piece struct{ Text, Says string }

// DimNamed finds a figure of a designation; ok is false if it has none of that name.
func DimNamed(d Designation, name string) (v fieldkit.Value, ok bool) {
	dims := d.Dims()
	i := slices.IndexFunc(dims, func(dim Dim) bool { return dim.Name == name })
	if i < 0 {
		return fieldkit.Value{}, false
	}
	return dims[i].Value, true
}

// Label writes the name of a figure for people: "outside diameter" for "od".
func Label(name string) string {
	if label, ok := labels[name]; ok {
		return label
	}
	return name
}

var labels = map[string]string{
	"od": "outside diameter", "cone_width": "cone width", "cup_width": "cup width",
	"id": "inside diameter", "cs": "cross-section", "lip": "lip of the seal, free",
	"nominal": "nominal diameter", "tpi": "threads per inch", "minor": "inside diameter of the nut",
	"thread_od": "thread, outside", "tube": "tube, outside",
	"section_width": "section width", "revs_per_mile": "turns per mile", "revs_per_km": "turns per kilometre",
	"load_dual": "load as one of a pair", "rib_pitch": "from rib to rib",
	"circle": "bolt circle", "spacing": "stud to neighbouring stud", "across": "stud to opposite stud",
	"cap": "cap diameter", "lock_up": "lock-up", "dry_boiling": "boiling point, dry", "wet_boiling": "boiling point, wet",
	"proof_strength": "proof strength", "cold_limit": "flows down to", "model_year": "model year",
	"friction_cold": "friction cold", "friction_hot": "friction hot", "area": "area, mm²",
}

// dims collects figures, leaving out what is not known.
type dims []Dim

func (d *dims) length(name string, q fieldkit.Length) {
	if q != 0 {
		*d = append(*d, Dim{name, fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(q)}})
	}
}

func (d *dims) mass(name string, q fieldkit.Mass) {
	if q != 0 {
		*d = append(*d, Dim{name, fieldkit.Value{Dim: fieldkit.DimMass, Base: int64(q)}})
	}
}

func (d *dims) temperature(name string, q fieldkit.Temperature) {
	if q != 0 {
		*d = append(*d, Dim{name, fieldkit.Value{Dim: fieldkit.DimTemperature, Base: int64(q)}})
	}
}

func (d *dims) count(name string, thousandths int64) {
	if thousandths != 0 {
		*d = append(*d, Dim{name, fieldkit.Value{Dim: fieldkit.DimCount, Base: thousandths * 1000}})
	}
}

func (d *dims) text(name, text string) {
	if text != "" {
		*d = append(*d, Dim{name, fieldkit.Value{Dim: fieldkit.DimText, Text: text}})
	}
}
