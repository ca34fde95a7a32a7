package lookup

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// field says what a phrase is to the thing it belongs to.
type field int

const (
	fieldName field = iota
	fieldKindName
	fieldSynonym
	fieldPlace
	fieldDonor
	fieldYears
	fieldIssuer
	fieldAttribute
	fieldStowed
	fieldNumber
	fieldDesignation
	fieldHalf     // of a designation of two halves, such as cone and cup
	fieldSuffixed // a designation of a table with a usual suffix behind it
	fieldMeasure
)

// worth is what a whole word in a field counts, of 100; what had to be guessed or is
// only the beginning counts less.
var worth = [...]float64{
	fieldName: 80, fieldKindName: 76, fieldSynonym: 66, fieldPlace: 64, fieldDonor: 60,
	fieldYears: 60, fieldIssuer: 58, fieldAttribute: 50, fieldStowed: 46,
	fieldNumber: 100, fieldDesignation: 95, fieldHalf: 93, fieldSuffixed: 94, fieldMeasure: 72,
}

// phrase is one text that can match: a name, a trade name, a number, a measurement.
// A phrase that many parts share, such as a trade name of their kind, is kept once.
type phrase struct {
	field    field
	text     string
	of       string // issuer of a number, name of a measurement, whole of a half
	value    fieldkit.Value
	from, to int // years
	words    int
	named    []string // words for what a measurement is of
	aside    bool     // a measurement that is not the one a part is called by
	entries  []int32  // that have it, rising
}

// Kind says what a hit is.
type Kind string

const (
	PartHit       Kind = "part"
	PositionHit   Kind = "position" // only where no part is fitted: else the part carries it
	DonorHit      Kind = "donor"
	KindHit       Kind = "kind" // of part, from the catalog
	ToolHit       Kind = "tool"
	ConsumableHit Kind = "consumable"
	// Of the published tables, whether or not the kit has such a part.
	DesignationHit Kind = "designation"
	RowHit         Kind = "row" // of a table, that is no designation
)

// entry is one thing that can be found; one of no kind is gone.
type entry struct {
	kind    Kind
	id      string
	title   string
	sub     string
	donor   string
	behind  float64 // off its score, for its kind
	rank    int64   // of equal hits the lower comes first
	phrases []int32
	places  []place

	designation standards.Designation
	row         *Row
}

// place is a position where a part is fitted, with what can be said of it there.
type place struct {
	position string
	title    string
	phrases  []int32
}
